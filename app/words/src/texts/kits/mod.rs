//! What stands on sheets for a class: what to take, what to cut for all kits, and a
//! label for each; and what cards take besides paper.

mod de;
mod en;

use crate::Language;

area! {
    /// What stands on sheets for a class.
    KitTexts {
        from_the_shelf,
        what,
        size,
        how_many,
        all_pieces,
        in_a_kit,
        in_all,
        cut_for_all,
        labels,
        trim_labels,
        also_in_it,
        besides_paper,
        a_card_takes,
    }
    fills {
        kits_of(name: &str),
        scrap_of(paper: &str),
        envelope_called(name: &str),
        envelope_made_of(paper: &str),
        kit_of(number: u32, all: u32),
        spare_kit_of(number: u32, all: u32),
        continued(kit: &str),
        labels_for_the_first(most: u32),
    }
    says {
        for_makers(makers: u32, spare: u32),
    }
}

static ENGLISH: KitTexts = en::TEXTS;
static GERMAN: KitTexts = de::TEXTS;

const _: [[&str; KitTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What stands in it on sheets for a class; no part of its
    /// [`Tongue`](crate::Tongue), since only such sheets say it.
    pub const fn kits(self) -> &'static KitTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}
