//! What a recipe is planned for: so many makers, some spare, and how long its cuts were
//! planned.

use serde::{Deserialize, Serialize};

use super::Recipe;

/// So many cards for a class, and how their cuts are planned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct ForClass {
    /// How many makers there are, from 1 to [`MOST_COPIES`](super::MOST_COPIES).
    pub cards: u32,
    /// What is made besides, in hundredths of the cards; more than 100 count as 100.
    #[serde(default, skip_serializing_if = "is_nothing")]
    pub spare: u32,
    /// After how many rounds of planning the plan was there that is kept; `None` while
    /// nobody chose one. The same rounds make the same plan on every device.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rounds: Option<u32>,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks by reference")]
const fn is_nothing(number: &u32) -> bool {
    *number == 0
}

impl ForClass {
    /// For so many, with nothing spare.
    pub const fn of(cards: u32) -> Self {
        Self {
            cards,
            spare: 0,
            rounds: None,
        }
    }

    /// How many are made besides, a part of a card as a whole one.
    pub const fn spare_cards(&self) -> u32 {
        let spare = if self.spare > 100 { 100 } else { self.spare };
        self.cards.saturating_mul(spare).div_ceil(100)
    }

    /// How many are made altogether.
    pub const fn all(&self) -> u32 {
        self.cards.saturating_add(self.spare_cards())
    }
}

impl Recipe {
    /// What is planned for a class: as many as the recipe is for, until its maker says
    /// otherwise.
    pub fn for_class(&self) -> ForClass {
        self.class.unwrap_or(ForClass::of(self.copies))
    }

    /// After how many rounds the plan for so many cards was there that its maker keeps.
    pub fn rounds_for(&self, cards: u32) -> Option<u32> {
        let class = self.class.filter(|class| class.all() == cards);
        class?.rounds
    }
}
