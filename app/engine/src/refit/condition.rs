//! What holds of a card, with its numbers.

use super::units::in_unit_of;
use super::{Cause, Keep, Moved, Refit, Wish};
use crate::length::{Length, ceil, floor};
use crate::paper::{Envelope, StockId};
use crate::plane::Size;
use crate::recipe::{MeasureId, Recipe, Relation, Shaped};

/// Something that holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Condition {
    /// The card goes into this envelope.
    Goes(&'static Envelope),
    /// The closed card is so large.
    Closed(Size),
    /// The sheet is so large.
    Sheet(Size),
    /// The card is the same share of the sheet.
    Share,
    /// A sheet makes as many cards as now.
    Count,
    /// A measure is this.
    Is(MeasureId, Length),
    /// A measure is pinned at this.
    Pinned(MeasureId, Length),
    /// A measure is no less than this.
    AtLeast(MeasureId, Length),
    /// A measure is no more than this.
    AtMost(MeasureId, Length),
    /// Measures are so to each other.
    Rule(Relation),
    /// A layer or a window keeps its place.
    InPlace(Shaped),
    /// What is cut from a paper fits it.
    Fits(StockId),
    /// There is paper at all; a distance stays on its side.
    NotBelowZero(MeasureId),
}

impl Cause {
    /// What holds by it. Limits are given as the last mark that keeps them.
    ///
    /// `None` where neither the recipe nor the wish has it.
    pub fn condition(self, recipe: &Recipe, wish: &Wish) -> Option<Condition> {
        let notation = wish.notation.unwrap_or(recipe.notation);
        let (recipe, step) = (in_unit_of(recipe, notation), notation.step);
        Some(match self {
            Self::Envelope => Condition::Goes(wish.envelope?.0),
            Self::Finished => Condition::Closed(wish.finished?),
            Self::Sheet => Condition::Sheet(wish.sheet?.size),
            Self::Asked(id) => {
                let mut pinned = wish.pinned.iter();
                let asked = pinned.find(|(asked, _)| *asked == id);
                Condition::Is(
                    id,
                    asked.map_or_else(|| recipe.value(id), |(_, value)| *value),
                )
            }
            Self::Made(index) => Condition::Rule(wish.made.get(index)?.clone()),
            Self::Kept => match wish.sheet?.keep {
                Keep::Share => Condition::Share,
                Keep::Card | Keep::Count => Condition::Count,
            },
            Self::Pinned(id) => Condition::Pinned(id, recipe.measure(id)?.value),
            Self::Least(id) => Condition::AtLeast(id, ceil(recipe.measure(id)?.least?, step).at),
            Self::Most(id) => Condition::AtMost(id, floor(recipe.measure(id)?.most?, step).at),
            Self::Relation(index) => Condition::Rule(recipe.relations.get(index)?.clone()),
            Self::Layer(id) => Condition::InPlace(Shaped::Layer(id)),
            Self::Window(id) => Condition::InPlace(Shaped::Window(id)),
            Self::Strip(of) => Condition::Rule(recipe.strip(of)?.sum()),
            Self::Paper(id) => Condition::Fits(id),
            Self::Something(id) => Condition::NotBelowZero(id),
        })
    }
}

/// Why a measure moved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reason {
    /// It went back to what it was designed like.
    Designed,
    /// This holds.
    Holds(Condition),
}

impl Moved {
    /// Why it moved; `None` where it only went to its nearest mark. `before` is the
    /// recipe that was refitted.
    pub fn reason(&self, before: &Recipe, wish: &Wish) -> Option<Reason> {
        let designed = || before.measure(self.change.measure)?.designed;
        match self.why {
            Some(why) => why.condition(before, wish).map(Reason::Holds),
            None => (designed() == Some(self.change.to)).then_some(Reason::Designed),
        }
    }
}

impl Refit {
    /// What no longer holds. `before` is the recipe that was refitted.
    pub fn no_longer<'a>(
        &'a self,
        before: &'a Recipe,
        wish: &'a Wish,
    ) -> impl Iterator<Item = Condition> + 'a {
        let given_up = self.given_up.iter();
        given_up.filter_map(|cause| cause.condition(before, wish))
    }
}
