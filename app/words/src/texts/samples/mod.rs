//! The cards of an invented harbour library's paper workshop, to look into before
//! there is a card of one's own.

mod de;
mod en;

use crate::Language;

area! {
    /// What is said of them.
    SampleTexts {
        from_workshop,
        six_finished,
        put_away,
        are_away,
        gate,
        gate_about,
        z,
        z_about,
        stairs,
        stairs_about,
        tent,
        tent_about,
        window,
        window_about,
        v_fold,
        v_fold_about,
    }
}

static ENGLISH: SampleTexts = en::TEXTS;
static GERMAN: SampleTexts = de::TEXTS;

const _: [[&str; SampleTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of them; no part of its [`Tongue`](crate::Tongue), since one
    /// page says it.
    pub fn samples(self) -> &'static SampleTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
