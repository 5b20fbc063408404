//! The folds to choose from: how they are grouped, and by what they are found.

mod de;
mod en;

use foldwright_engine::recipe::{Does, FoldGroup};

use crate::Language;

area! {
    /// The folds to choose from: how they are grouped, and by what they are found.
    ChoosingTexts {
        find,
        find_by,
        what_it_does,
        strip,
        shaped,
        crosswise,
        rising,
        glued,
        one_sheet,
        both_sides,
        rises,
        one_found,
        none_found,
        show_all,
    }
    fills {
        found(count: usize),
    }
}

static ENGLISH: ChoosingTexts = en::TEXTS;
static GERMAN: ChoosingTexts = de::TEXTS;

const _: [[&str; ChoosingTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of the folds to choose from; no part of its
    /// [`Tongue`](crate::Tongue), since one page says it.
    pub const fn choosing(self) -> &'static ChoosingTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }

    /// What else the trade calls a fold to start from, by its id (common practice);
    /// empty where it has one name.
    pub fn also_called(self, id: &str) -> &'static str {
        match self {
            Self::English => en::also_called(id),
            Self::German => de::also_called(id),
        }
    }
}

impl ChoosingTexts {
    /// How folds work that belong together.
    pub const fn group(&self, group: FoldGroup) -> &'static str {
        match group {
            FoldGroup::Strip => self.strip,
            FoldGroup::Shaped => self.shaped,
            FoldGroup::Crosswise => self.crosswise,
            FoldGroup::Rising => self.rising,
            FoldGroup::Glued => self.glued,
        }
    }

    /// What a fold does.
    pub const fn does(&self, does: Does) -> &'static str {
        match does {
            Does::OneSheet => self.one_sheet,
            Does::ShowsBothSides => self.both_sides,
            Does::Rises => self.rises,
        }
    }

    /// How many folds go with what is looked for.
    pub fn so_many(&self, count: usize) -> String {
        match count {
            0 => self.none_found.to_owned(),
            1 => self.one_found.to_owned(),
            count => self.found(count),
        }
    }
}
