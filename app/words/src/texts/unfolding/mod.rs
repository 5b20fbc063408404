//! How a card is opened on the screen.

mod de;
mod en;

use crate::Language;

area! {
    /// How a card is opened on the screen.
    UnfoldingTexts {
        how_it_opens,
        one_after_another,
        all_together,
        not_together,
        all_closed,
        all_open,
        erase,
    }
    fills {
        all_at_once(hundredths: usize),
    }
}

static ENGLISH: UnfoldingTexts = en::TEXTS;
static GERMAN: UnfoldingTexts = de::TEXTS;

const _: [[&str; UnfoldingTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of ways to open a card; no part of its [`Tongue`](crate::Tongue),
    /// since one page says it.
    pub const fn unfolding(self) -> &'static UnfoldingTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
