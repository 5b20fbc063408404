//! Where the sides of a card are seen, and what is put on them for it.

mod de;
mod en;

use foldwright_engine::faces::View;
use foldwright_engine::recipe::PanelId;
use foldwright_engine::sight::Sight;

use crate::{Language, Speaker};

area! {
    /// Where the sides of a card are seen, and what is put on them for it.
    SightTexts {
        front,
        back,
        first_opening,
        inside,
        back_of_open,
        while_opening,
        never,
        white_backs,
        about_white_backs,
    }
    fills {
        first_opening_of(panels: &str),
        later_opening(number: usize),
        later_opening_of(number: usize, panels: &str),
        white_back_of(side: &str, paper: &str),
        add_mat_on(side: &str),
        lower_left_of(what: &str, width: &str, height: &str),
        lower_right_of(what: &str, width: &str, height: &str),
        upper_right_of(what: &str, width: &str, height: &str),
        upper_left_of(what: &str, width: &str, height: &str),
        turn_a_quarter(what: &str),
    }
}

static ENGLISH: SightTexts = en::TEXTS;
static GERMAN: SightTexts = de::TEXTS;

const _: [[&str; SightTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of where sides are seen; no part of its [`Tongue`](crate::Tongue),
    /// since one page says it.
    pub const fn sights(self) -> &'static SightTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}

impl SightTexts {
    /// Where a side is first seen, in a sentence.
    pub fn seen(&self, say: &Speaker<'_>, sight: &Sight) -> String {
        match sight {
            Sight::Front => self.front.to_owned(),
            Sight::Back => self.back.to_owned(),
            Sight::Open(View::Front) => self.inside.to_owned(),
            Sight::Open(View::Back) => self.back_of_open.to_owned(),
            Sight::Standing => self.while_opening.to_owned(),
            Sight::Never => self.never.to_owned(),
            Sight::Opened { opening, panels } => match (opening, &panels[..]) {
                (1, []) => self.first_opening.to_owned(),
                (1, panels) => self.first_opening_of(&called(say, panels)),
                (opening, []) => self.later_opening(*opening),
                (opening, panels) => self.later_opening_of(*opening, &called(say, panels)),
            },
        }
    }
}

/// Panels by their names.
fn called(say: &Speaker<'_>, panels: &[PanelId]) -> String {
    let names: Vec<_> = panels.iter().map(|id| say.panel(*id)).collect();
    names.join(", ")
}
