//! Letting go of what stands in the way.

use super::{Cause, Free, Wish};
use crate::length::Notation;
use crate::recipe::{Holds, Measure, MeasureId, Placing, Recipe};

impl Free {
    /// Lets go of it, in a copy of the recipe to be refitted and in the wish.
    ///
    /// A relation of the recipe is not taken away: it should still hold, and
    /// gives way where nothing else helps.
    pub fn apply(self, recipe: &mut Recipe, wish: &mut Wish) {
        match self {
            Self::Wish(Cause::Envelope) => wish.envelope = None,
            Self::Wish(Cause::Finished) => wish.finished = None,
            Self::Wish(Cause::Sheet) => wish.sheet = None,
            Self::Wish(Cause::Asked(id)) => wish.pinned.retain(|(asked, _)| *asked != id),
            Self::Wish(Cause::Kept) => {
                if let Some(sheet) = &mut wish.sheet {
                    sheet.keep = super::Keep::Card;
                }
            }
            Self::Unpin(id) => {
                if let Some(measure) = measure_of(recipe, id) {
                    measure.pinned = false;
                }
            }
            Self::Least(id) => {
                if let Some(measure) = measure_of(recipe, id) {
                    measure.least = None;
                }
            }
            Self::Most(id) => {
                if let Some(measure) = measure_of(recipe, id) {
                    measure.most = None;
                }
            }
            Self::Relation(index) => {
                if let Some(relation) = recipe.relations.get_mut(index) {
                    relation.holds = Holds::Should;
                }
            }
            // These fail only for what is no longer there.
            Self::Place(layer) => drop(recipe.place_layer(layer, Placing::Distances)),
            Self::PlaceWindow(window) => {
                drop(recipe.place_window(window, Placing::Distances));
            }
            Self::Stock(id, size) => match &mut wish.sheet {
                Some(sheet) if sheet.stock == id => sheet.size = size,
                _ => {
                    if let Some(stock) = recipe.stocks.iter_mut().find(|stock| stock.id == id) {
                        (stock.width, stock.height) = (size.width, size.height);
                    }
                }
            },
            Self::Size(size) => wish.finished = Some(size),
            Self::Marks(step) => {
                let notation = wish.notation.unwrap_or(recipe.notation);
                wish.notation = Some(Notation { step, ..notation });
            }
            Self::Wish(_) => {}
        }
    }
}

fn measure_of(recipe: &mut Recipe, id: MeasureId) -> Option<&mut Measure> {
    recipe.measures.iter_mut().find(|measure| measure.id == id)
}
