//! What a card takes that is not paper: ribbon, gems, and whatever else its maker adds.

use serde::{Deserialize, Serialize};

use super::edit::Edited;
use super::{Recipe, shortened};
use crate::length::Length;
use crate::paper::{Mass, Money};

/// The most of a kind that one card takes, and the most cards for which one lasts. Our
/// own bound.
pub const MOST_OF_A_KIND: u32 = 9999;

/// The most of a kind in one pack. Our own bound.
pub const MOST_IN_A_PACK: u32 = 99_999;

/// The longest roll of ribbon: 1 km. Our own bound.
pub const LONGEST_ROLL: Length = Length::mm(1_000_000);

/// The heaviest pack: a tonne. Our own bound.
pub const HEAVIEST_PACK: Mass = Mass::from_micrograms(1_000_000_000_000);

/// A supply's lasting name within its recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct SupplyId(pub u32);

/// How a ribbon runs round the closed card.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Wraps {
    /// Once across, round the left and the right edge.
    Across,
    /// Once up and down, round the upper and the lower edge.
    Upright,
    /// Both ways, as round a parcel.
    BothWays,
}

/// How much of it a card takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Takes {
    /// So many, from 1 to [`MOST_OF_A_KIND`].
    Count(u32),
    /// A ribbon round the closed card.
    Ribbon {
        /// How it runs.
        wraps: Wraps,
        /// What its knot or bow takes besides, as its maker finds it; nothing where it
        /// is glued.
        knot: Length,
    },
    /// A part of one: a sheet of adhesive or a bottle lasts for so many cards, from 1 to
    /// [`MOST_OF_A_KIND`].
    Share(u32),
}

impl Takes {
    /// Whether a card can take so much.
    pub(super) fn is_sound(self) -> bool {
        match self {
            Self::Count(count) | Self::Share(count) => (1..=MOST_OF_A_KIND).contains(&count),
            Self::Ribbon { knot, .. } => (Length::ZERO..=Length::LIMIT).contains(&knot),
        }
    }
}

/// How much there is in a pack, or on a roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum InPack {
    /// So many, from 1 to [`MOST_IN_A_PACK`].
    Count(u32),
    /// So much of a ribbon, more than nothing and at most [`LONGEST_ROLL`].
    Length(Length),
}

/// How something is bought: as a pack of so many, or as a roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Bought {
    /// How much there is in one.
    pub holds: InPack,
    /// What one costs, where that is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<Money>,
    /// What all that is in one weighs, where that is known; in files, in micrograms.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
}

impl Bought {
    /// Whether something can be bought so.
    pub(super) fn is_sound(&self) -> bool {
        let holds = match self.holds {
            InPack::Count(count) => (1..=MOST_IN_A_PACK).contains(&count),
            InPack::Length(length) => length > Length::ZERO && length <= LONGEST_ROLL,
        };
        let mass = self.mass.unwrap_or_default();
        holds && (Mass::default()..=HEAVIEST_PACK).contains(&mass)
    }
}

/// Something that a card takes and that is not paper.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Supply {
    /// Its name in the recipe.
    pub id: SupplyId,
    /// What its maker calls it.
    pub name: String,
    /// How much of it a card takes.
    pub takes: Takes,
    /// How it is bought, once its maker said so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bought: Option<Bought>,
}

impl Supply {
    /// Whether it holds together.
    pub(super) fn is_sound(&self) -> bool {
        self.takes.is_sound() && self.bought.as_ref().is_none_or(Bought::is_sound)
    }
}

impl Recipe {
    /// The supply of that name.
    pub fn supply(&self, id: SupplyId) -> Option<&Supply> {
        self.supplies.iter().find(|supply| supply.id == id)
    }

    /// Adds something that each card takes. Refuses more than a recipe can have.
    pub fn add_supply(&mut self, name: &str, takes: Takes) -> Edited<SupplyId> {
        self.whole(|recipe| {
            let used = recipe.supplies.iter().map(|supply| supply.id.0);
            let id = SupplyId(recipe.ids.fresh(used, u32::MAX)?);
            recipe.supplies.push(Supply {
                id,
                name: shortened(name).to_owned(),
                takes,
                bought: None,
            });
            Ok(id)
        })
    }

    /// Changes what a card takes of something, where it can take so much.
    pub fn take_of_supply(&mut self, id: SupplyId, takes: Takes) {
        let mut supplies = self.supplies.iter_mut();
        let supply = supplies.find(|supply| supply.id == id);
        if let Some(supply) = supply.filter(|_| takes.is_sound()) {
            supply.takes = takes;
        }
    }

    /// Changes how something is bought, where it can be bought so.
    pub fn buy_supply(&mut self, id: SupplyId, bought: Option<Bought>) {
        let mut supplies = self.supplies.iter_mut();
        let supply = supplies.find(|supply| supply.id == id);
        let is_sound = bought.as_ref().is_none_or(Bought::is_sound);
        if let Some(supply) = supply.filter(|_| is_sound) {
            supply.bought = bought;
        }
    }

    /// Calls a supply something else.
    pub fn rename_supply(&mut self, id: SupplyId, name: &str) {
        let mut supplies = self.supplies.iter_mut();
        if let Some(supply) = supplies.find(|supply| supply.id == id) {
            shortened(name).clone_into(&mut supply.name);
        }
    }

    /// Takes a supply away.
    pub fn remove_supply(&mut self, id: SupplyId) {
        self.supplies.retain(|supply| supply.id != id);
    }
}
