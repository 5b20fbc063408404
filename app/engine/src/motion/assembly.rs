//! What is opened: flat facets, the creases between them and the glue.

use super::space::{Lay, Vector, flat};

/// A flat panel or a glued layer.
#[derive(Debug, Clone, PartialEq)]
pub struct Facet {
    /// The corners of a simple polygon, anticlockwise seen from side A, in
    /// millimetres in the coordinates of its own flat piece.
    pub corners: Vec<[f64; 2]>,
    /// Windows and slits in it, through which other parts may pass, each a
    /// simple polygon. A slit needs a width, however small.
    pub holes: Vec<Vec<[f64; 2]>>,
}

impl Facet {
    /// The corners, and those of every hole.
    pub(super) fn rings(&self) -> impl Iterator<Item = Vec<Vector>> + '_ {
        let rings = std::iter::once(&self.corners).chain(&self.holes);
        rings.map(|ring| ring.iter().copied().map(flat).collect())
    }
}

/// Which way a crease folds, seen from side A of its piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sense {
    /// The sides A come together.
    Valley,
    /// The sides B come together.
    Mountain,
}

/// A crease between two facets of one piece.
///
/// Its fold angle is 0 where the piece is flat, positive for a valley and
/// negative for a mountain, and never passes 0 or 180°.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hinge {
    /// The facets on its two sides.
    pub facets: [usize; 2],
    /// Its ends in the coordinates of the piece, with the first facet on the
    /// left of the way from the first end to the second seen from side A: the
    /// order in which it bounds the first facet.
    pub axis: [[f64; 2]; 2],
    /// Which way it folds.
    pub sense: Sense,
    /// Whether it is folded by 180° in the closed card. A crease that is still
    /// flat there, such as that of a tab glued outwards, folds as the card opens.
    pub folded: bool,
}

impl Hinge {
    /// The fold angle after `opened` radians of movement from the closed card.
    pub(super) fn angle(&self, opened: f64) -> f64 {
        let size = if self.folded {
            std::f64::consts::PI - opened
        } else {
            opened
        };
        match self.sense {
            Sense::Valley => size,
            Sense::Mountain => -size,
        }
    }
}

/// A facet glued flat onto another. Paper has no thickness here, so the side
/// follows from whether the part lies turned over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bond {
    /// The facet that carries.
    pub on: usize,
    /// The facet that is glued to it.
    pub part: usize,
    /// How the part's flat coordinates lie in the carrier's.
    pub lay: Lay,
}

/// A glued card, to be opened.
#[derive(Debug, Clone, PartialEq)]
pub struct Assembly {
    /// The facets.
    pub facets: Vec<Facet>,
    /// The creases.
    pub hinges: Vec<Hinge>,
    /// The glue.
    pub bonds: Vec<Bond>,
    /// The facet that rests on the table.
    pub root: usize,
    /// How the root facet lies on the table, which is the plane z = 0 of the
    /// card's frame; z points to the reader.
    pub table: Lay,
    /// The hinge that the reader opens.
    pub main: usize,
}
