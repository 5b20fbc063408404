//! How flat-folded facets lie on each other.
//!
//! A facet is a panel, or a layer glued to one, where it lies in the card. For
//! each two facets that overlap it is open which lies in front. Folds and glue
//! say so for some pairs; the known conditions of flat folding tie the others:
//!
//! - taco–taco: two folds along one line nest or stay apart;
//! - taco–tortilla: paper that goes on past a fold lies on one side of both
//!   its facets, and so does whatever reaches across the fold;
//! - tortilla–tortilla: two sheets that go on over one line keep their order;
//! - transitivity: where three facets overlap, "in front of" is transitive.
//!
//! They suffice (Justin, "Toward a mathematical theory of origami", 1997; the
//! names as in Akitaya and others, "Box pleating is hard", 2016; both from
//! memory). Whether some order keeps all of them is NP-hard in general (Bern
//! and Hayes, "The complexity of flat origami", 1996), so it is searched for as
//! the satisfiability of literals, in [`solver`]. Paper of any shape is stacked
//! so, strips included.
//!
//! No crate does this: those on folding that we found keep crease patterns or
//! check single points, and leave the order of layers to others. Why the search
//! is ours too stands in [`solver`].

mod constraints;
mod creases;
mod order;
mod orders;
mod outline;
mod piles;
mod solver;
mod strip;
mod unsat;

pub use order::Order;
pub use orders::{About, Orders, Undecided};
pub use unsat::Core;

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
    /// The facet on one side, by its index among the facets.
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
