//! Files of recipes, as other programs write and read them.

mod de;
mod en;

use crate::Language;

area! {
    /// Files of recipes, as other programs write and read them.
    Exchange {
        schema,
    }
}

static ENGLISH: Exchange = en::TEXTS;
static GERMAN: Exchange = de::TEXTS;

const _: [[&str; Exchange::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of files that other programs write or read; no part of its
    /// [`Tongue`](crate::Tongue), since few pages say it.
    pub const fn exchange(self) -> &'static Exchange {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
