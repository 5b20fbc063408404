//! How long a session at the bench takes.

mod de;
mod en;

use crate::Language;

area! {
    /// How long a session at the bench takes.
    PaceTexts {
        learnt,
        drying,
    }
    says {
        takes(least: u32, most: u32, cards: u32),
        still(least: u32, most: u32),
    }
}

static ENGLISH: PaceTexts = en::TEXTS;
static GERMAN: PaceTexts = de::TEXTS;

const _: [[&str; PaceTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of how long a session takes; no part of its
    /// [`Tongue`](crate::Tongue), since one page says it.
    pub const fn pace(self) -> &'static PaceTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
