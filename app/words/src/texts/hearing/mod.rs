//! The bench steered by what is said to it.

mod de;
mod en;

use crate::Language;

area! {
    /// The bench steered by what is said to it. The words that it knows stand with a
    /// space between them.
    HearingTexts {
        listening,
        listen_for_words,
        about_listening,
        about_service,
        cannot_listen,
        not_allowed,
        failed,
        next_words,
        back_words,
        repeat_words,
    }
}

static ENGLISH: HearingTexts = en::TEXTS;
static GERMAN: HearingTexts = de::TEXTS;

const _: [[&str; HearingTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of listening, and what it listens for; no part of its
    /// [`Tongue`](crate::Tongue), since one page says it.
    pub const fn hearing(self) -> &'static HearingTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
