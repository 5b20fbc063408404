//! What is said of photographs as they are kept and sent.

mod de;
mod en;

use crate::Language;

area! {
    /// What is said of photographs as they are kept and sent.
    AlbumTexts {
        no_photograph,
        too_large,
        no_room,
        not_kept_here,
        not_in_files,
        of_a_step,
        in_the_log,
    }
    fills {
        workshop_full(most: usize, megabytes: u64),
    }
}

static ENGLISH: AlbumTexts = en::TEXTS;
static GERMAN: AlbumTexts = de::TEXTS;

const _: [[&str; AlbumTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of photographs as they are kept and sent; no part of its
    /// [`Tongue`](crate::Tongue), since few pages say it.
    pub const fn album(self) -> &'static AlbumTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
