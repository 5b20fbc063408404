//! Which edges of a part can still be cut down.

use super::made::{Progress, seat_of};
use crate::part::Part;
use crate::recipe::{Cut, Outline, Recipe, StripId};
use crate::steps::StepKey;

/// The directions along which a part may be cut down: a strip along its length,
/// from its far end and where nothing is measured from its first end any more,
/// there too.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Edges {
    /// The width of a layer, the length of a strip.
    pub(super) width: bool,
    /// The height.
    pub(super) height: bool,
}

impl Edges {
    /// It stays as large as it is.
    pub(super) const STAY: Self = Self {
        width: false,
        height: false,
    };

    pub(super) const BOTH: Self = Self {
        width: true,
        height: true,
    };

    /// Whether it may be cut down at all.
    pub(super) const fn any(self) -> bool {
        self.width || self.height
    }

    /// Along the directions of either.
    pub(super) const fn or(self, other: Self) -> Self {
        Self {
            width: self.width || other.width,
            height: self.height || other.height,
        }
    }

    /// Along the directions of both.
    pub(super) const fn and(self, other: Self) -> Self {
        Self {
            width: self.width && other.width,
            height: self.height && other.height,
        }
    }
}

/// How a part may be cut down while it keeps its outline and all that is done to
/// it: not once something is glued to it, and what a die or another piece gave
/// its shape not at all.
pub(super) fn trimmable(recipe: &Recipe, progress: &Progress<'_>, part: Part) -> Edges {
    if is_glued(recipe, progress, part) {
        return Edges::STAY;
    }
    match part {
        Part::Strip(of) => {
            let cutouts = recipe.strip(of).into_iter().flat_map(|it| &it.cutouts);
            let mut made = cutouts.filter(|cutout| progress.has(StepKey::CutOut(cutout.id)));
            // A rounded corner or a cut edge would be lost with its edge.
            let shaped = made.any(|cutout| !matches!(cutout.cut, Cut::Window(_)));
            if shaped { Edges::STAY } else { Edges::BOTH }
        }
        Part::Layer(id) => match recipe.layer(id) {
            Some(layer) if !layer.follows() => match layer.outline {
                Outline::Straight | Outline::Rounded(_) | Outline::Round => Edges::BOTH,
                // Its arc spans its width.
                Outline::Arched(_) => Edges {
                    width: false,
                    height: true,
                },
                Outline::Cut(_) | Outline::Traced(_) | Outline::Follows => Edges::STAY,
            },
            _ => Edges::STAY,
        },
    }
}

/// Whether something is glued to a part, or it is glued on itself.
pub(super) fn is_glued(recipe: &Recipe, progress: &Progress<'_>, part: Part) -> bool {
    let layers = recipe.layers.iter();
    let mut put_on = layers.filter(|layer| progress.has(StepKey::PutOn(layer.id)));
    let by_layer = put_on
        .any(|layer| Part::Layer(layer.id) == part || seat_of(recipe, layer.on) == Some(part));
    let by_join = recipe.pieces.iter().any(|piece| {
        piece.joins.iter().any(|join| {
            let on = recipe
                .strip_with(join.on.panel)
                .map(|(of, ..)| Part::Strip(of));
            let touches = Part::Strip(StripId::Piece(piece.id)) == part || on == Some(part);
            touches && progress.has(StepKey::GlueIn(piece.id, join.panel))
        })
    });
    by_layer || by_join
}
