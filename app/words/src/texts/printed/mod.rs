//! The sheet that is printed from a recipe, and where it is asked for.

mod de;
mod en;

use crate::Language;

area! {
    /// The sheet that is printed from a recipe, and where it is asked for.
    Printed {
        sheet_on_a4,
        sheet_on_letter,
        made_with,
        letters_missing,
        take_with_you,
        each_a_file,
        hand_on,
        not_made,
        code_for_camera,
        cards_on_a4,
        cards_on_letter,
        more_on_sheet,
        cut_apart,
        print_both_sides,
    }
    fills {
        page_of(page: usize, all: usize),
        live_at(address: &str),
        card_of(name: &str),
    }
}

static ENGLISH: Printed = en::TEXTS;
static GERMAN: Printed = de::TEXTS;

const _: [[&str; Printed::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What stands in it on the sheet that is printed from a recipe.
    pub const fn printed(self) -> &'static Printed {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
