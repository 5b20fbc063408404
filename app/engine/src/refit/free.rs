//! Letting go of what stands in the way.

use super::{Cause, Free, Wish};
use crate::recipe::{Holds, Place, Recipe};

impl Free {
    /// Lets go of it, in a copy of the recipe to be refitted and in the wish.
    ///
    /// A relation of the recipe is not taken away: it should still hold, and
    /// gives way where nothing else helps. Another paper is for the maker to
    /// choose, so nothing is let go of then.
    pub fn apply(self, recipe: &mut Recipe, wish: &mut Wish) {
        let measure = |recipe: &mut Recipe, id| {
            let mut measures = recipe.measures.iter_mut();
            measures.position(|measure| measure.id == id)
        };
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
                if let Some(place) = measure(recipe, id) {
                    recipe.measures[place].pinned = false;
                }
            }
            Self::Least(id) => {
                if let Some(place) = measure(recipe, id) {
                    recipe.measures[place].least = None;
                }
            }
            Self::Most(id) => {
                if let Some(place) = measure(recipe, id) {
                    recipe.measures[place].most = None;
                }
            }
            Self::Relation(place) => {
                if let Some(relation) = recipe.relations.get_mut(place) {
                    relation.holds = Holds::Should;
                }
            }
            // These fail only for what is no longer there.
            Self::Place(layer) => drop(recipe.place_layer(layer, Place::Distances)),
            Self::PlaceWindow(window) => {
                drop(recipe.place_window(window, Some(Place::Distances)));
            }
            Self::Wish(_) | Self::Stock(_) => {}
        }
    }
}
