//! How flat-folded facets lie on each other.
//!
//! A facet is a panel, or a layer glued to one, where it lies in the card. For
//! each two facets that overlap it is open which lies in front. Four things
//! close it: a fold or a bond says so; paper does not pass through a crease
//! (what reaches across one lies on one side of all that meets there, and two
//! creases at one place nest or stay apart); nothing lies between what is
//! glued; and where three facets have a place in common, "in front of" is
//! transitive. Paper of any shape is stacked so, strips included.

mod creases;
mod explain;
mod order;
mod orders;
mod outline;
mod piles;
mod rules;
mod search;
mod strip;

pub use explain::Conflict;
pub use order::Order;
pub use orders::{About, Orders, Undecided};

use crate::plane::{CardFrame, Point, Region};
use crate::recipe::Fold;

/// A flat part of the folded card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Facet {
    /// What it covers.
    pub area: Region<CardFrame>,
    /// Whether it lies turned over, its side B to the front.
    pub mirrored: bool,
}

/// A crease, or a part of one, between two facets of a piece.
///
/// It is closed where one facet lies mirrored and the other does not, and open
/// where both lie the same way round.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hinge {
    /// The facet on one side, by its place among the facets.
    pub a: usize,
    /// The facet on the other side.
    pub b: usize,
    /// One end.
    pub from: Point<CardFrame>,
    /// The other end.
    pub to: Point<CardFrame>,
    /// How it folds, seen from side A; `None` where it may fold either way.
    pub fold: Option<Fold>,
}

/// Two facets glued flat onto each other, nothing between them where the glue
/// is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bond {
    /// The facet nearer the front of the card.
    pub front: usize,
    /// The one behind it.
    pub back: usize,
    /// Where they are glued.
    pub glue: Region<CardFrame>,
}

/// Everything that lies flat in the card, and what holds it together. Hinges
/// and bonds that name a facet that is not there are passed over.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Stack {
    /// The facets.
    pub facets: Vec<Facet>,
    /// The creases between them.
    pub hinges: Vec<Hinge>,
    /// What is glued.
    pub bonds: Vec<Bond>,
}
