//! What is cut from a sheet.

use serde::{Deserialize, Serialize};

use crate::plane::{Point, SheetFrame};
use crate::recipe::{Lay, LayerId, Recipe, StripId};

/// Something cut from a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
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

impl Part {
    /// How the maker chose to lay it on its sheet.
    pub fn lay(self, recipe: &Recipe) -> Option<Lay> {
        match self {
            Self::Strip(StripId::Base) => recipe.lay,
            Self::Strip(StripId::Piece(id)) => recipe.piece(id)?.lay,
            Self::Layer(id) => recipe.layer(id)?.lay(),
        }
    }

    /// Where on its sheet the maker wants it cut: the lower left corner of the
    /// rectangle it takes there.
    pub fn cut_at(self, recipe: &Recipe) -> Option<Point<SheetFrame>> {
        match self {
            Self::Strip(of) => recipe.strip(of)?.cut_at,
            Self::Layer(id) => recipe.layer(id)?.cut_at,
        }
    }

    /// Has it cut at a place of its sheet, laid as it lies there; or from anywhere.
    pub fn cut_from(self, recipe: &mut Recipe, at: Option<(Point<SheetFrame>, Lay)>) {
        let place = at.map(|(place, _)| place);
        match self {
            Self::Strip(of) => {
                if let Some(strip) = recipe.strip_mut(of) {
                    strip.cut_at = place;
                }
                let lay = match of {
                    StripId::Base => Some(&mut recipe.lay),
                    StripId::Piece(id) => {
                        let mut pieces = recipe.pieces.iter_mut();
                        let piece = pieces.find(|piece| piece.id == id);
                        piece.map(|piece| &mut piece.lay)
                    }
                };
                if let (Some(lay), Some((_, is))) = (lay, at) {
                    *lay = Some(is);
                }
            }
            Self::Layer(id) => {
                let mut layers = recipe.layers.iter_mut();
                if let Some(layer) = layers.find(|layer| layer.id == id) {
                    layer.cut_at = place;
                    layer.turn = at.map_or(layer.turn, |(_, lay)| Some(lay.turn));
                }
            }
        }
    }
}
