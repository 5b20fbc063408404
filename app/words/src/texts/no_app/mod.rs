//! What a browser shows where there is no app: before it starts, where it cannot,
//! and at addresses that lead nowhere.

mod de;
mod en;

use crate::Language;

area! {
    /// What a browser shows where there is no app.
    NoApp {
        purpose,
        could_not_start,
        needs_javascript,
        nothing_here,
        speaks_https,
    }
}

static ENGLISH: NoApp = en::TEXTS;
static GERMAN: NoApp = de::TEXTS;

impl Language {
    /// What a browser shows in it where there is no app.
    pub const fn no_app(self) -> &'static NoApp {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
