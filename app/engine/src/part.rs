//! What is cut from a sheet.

use crate::recipe::{LayerId, Recipe, StripId};

/// Something cut from a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// The base, or a piece glued in.
    Strip(StripId),
    /// A layer.
    Layer(LayerId),
}

/// Everything cut from a sheet, in the order of the work.
pub fn parts(recipe: &Recipe) -> impl Iterator<Item = Part> + '_ {
    let strips = recipe.strips().map(|(of, _)| Part::Strip(of));
    strips.chain(recipe.layers.iter().map(|layer| Part::Layer(layer.id)))
}
