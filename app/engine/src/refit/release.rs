//! What would free a card, with its numbers.

use super::cause::large_enough;
use super::{Cause, Condition, Free, Wish};
use crate::length::Step;
use crate::paper::{SheetSize, StockId};
use crate::plane::Size;
use crate::recipe::{MeasureId, Recipe, Relation, Shaped};

/// Something to let go of, or to ask for instead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Release {
    /// Another envelope, or another rule for the room round the card.
    Envelope,
    /// Another finished size.
    Finished,
    /// Another sheet.
    Sheet,
    /// Another length for this measure.
    Asked(MeasureId),
    /// Do without this.
    Without(Condition),
    /// Let a pinned measure move.
    Unpin(MeasureId),
    /// Let a measure be less than its limit.
    Less(MeasureId),
    /// Let a measure be more than its limit.
    More(MeasureId),
    /// Let go of a rule.
    Rule(Relation),
    /// Place a layer or a window by its distances.
    Place(Shaped),
    /// Take a larger sheet of a paper.
    Paper {
        /// The paper.
        stock: StockId,
        /// How large a sheet has to be, print upright.
        least: Size,
        /// The smallest standard sheet that is large enough.
        sheet: Option<&'static SheetSize>,
    },
    /// Ask for this finished size instead.
    Size(Size),
    /// Take other marks.
    Marks(Step),
}

impl Free {
    /// What to do. `None` where neither the recipe nor the wish has what it is
    /// about.
    pub fn release(self, recipe: &Recipe, wish: &Wish) -> Option<Release> {
        Some(match self {
            Self::Wish(Cause::Envelope) => Release::Envelope,
            Self::Wish(Cause::Finished) => Release::Finished,
            Self::Wish(Cause::Sheet) => Release::Sheet,
            Self::Wish(Cause::Asked(id)) => Release::Asked(id),
            Self::Wish(cause) => Release::Without(cause.condition(recipe, wish)?),
            Self::Unpin(id) => Release::Unpin(id),
            Self::Least(id) => Release::Less(id),
            Self::Most(id) => Release::More(id),
            Self::Relation(index) => Release::Rule(recipe.relations.get(index)?.clone()),
            Self::Place(id) => Release::Place(Shaped::Layer(id)),
            Self::PlaceWindow(id) => Release::Place(Shaped::Window(id)),
            Self::Stock(stock, least) => Release::Paper {
                stock,
                least,
                sheet: large_enough(least),
            },
            Self::Size(size) => Release::Size(size),
            Self::Marks(step) => Release::Marks(step),
        })
    }
}
