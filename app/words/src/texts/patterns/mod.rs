//! What is said as a recipe is made of a crease pattern in a file.

mod de;
mod en;

use crate::Language;

area! {
    /// What is said as a recipe is made of a crease pattern in a file.
    PatternTexts {
        how_large,
        untold,
        longer_side,
        no_size,
        add,
        open,
        no_fold,
        version,
        too_much,
        no_pattern,
        folded,
        in_space,
        too_long,
        no_border,
        sheets,
        crossed,
        too_fine,
        order,
    }
    fills {
        added(name: &str, size: &str),
        too_large(megabytes: usize),
        damaged(list: &str, number: usize),
        damaged_list(list: &str),
        border(left: &str, bottom: &str),
        lines(number: usize, most: usize),
        panels(number: usize, most: usize),
        cutouts(number: usize, most: usize),
        unassigned(count: usize),
        flat(count: usize),
        partly(count: usize),
        unknown(count: usize),
        twice(count: usize),
        points(count: usize),
        beside(count: usize),
        frames(count: usize),
        moved(length: &str),
    }
}

static ENGLISH: PatternTexts = en::TEXTS;
static GERMAN: PatternTexts = de::TEXTS;

const _: [[&str; PatternTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of crease patterns in files; no part of its [`Tongue`](crate::Tongue),
    /// since it is said only where one is chosen.
    pub const fn patterns(self) -> &'static PatternTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
