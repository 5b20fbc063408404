//! Photographs: how they are taken, and those of what is made.

mod de;
mod en;

use crate::Language;

area! {
    /// Photographs: how they are taken, and those of what is made.
    PictureTexts {
        choose,
        camera,
        shutter,
        no_camera,
        not_read,
        add,
        another,
        take_off,
        look,
        keeping,
        not_here,
        is_off,
        is_another,
        of_step,
        about_step,
        of_step_shared,
        log,
        no_runs,
        line,
        of_run,
        about_run,
        remove_run,
        run_is_off,
    }
    says {
        cards(cards: u32),
        sheets(sheets: u32, paper: &str),
        scraps(scraps: u32, paper: &str, size: &str),
        offcuts(offcuts: u32, paper: &str, size: &str),
    }
}

static ENGLISH: PictureTexts = en::TEXTS;
static GERMAN: PictureTexts = de::TEXTS;

const _: [[&str; PictureTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of taking photographs; no part of its [`Tongue`](crate::Tongue),
    /// since few pages say it.
    pub const fn pictures(self) -> &'static PictureTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
