//! How a glued card opens: hinges that move each other in space.
//!
//! Facets are stiff and without thickness, creases turn about straight lines,
//! glue holds facets flat on each other. Glued facets become one body; a tree
//! of creases hangs all bodies on the one that rests on the table; every crease
//! left over closes a loop. Creases linked by loops move each other: their
//! angles are found so that all loops meet while one of them, the main fold for
//! its own, is driven from shut to flat.
//!
//! Creases that the main fold does not move open in proportion to it, or one
//! after another from the table outwards where that would lead parts through
//! each other. A crease without loops that is flat in the closed card stays flat.
//! Loops that leave their creases a choice take the motion nearest to opening
//! all alike.
//!
//! Lengths are millimetres and angles radians, in `f64`: closing loops takes
//! square roots. Every tolerance has a name and a reason where it is used.

mod assembly;
mod blocks;
mod bodies;
mod closure;
mod collisions;
mod dense;
mod linkage;
mod path;
mod space;
mod verdict;

pub use assembly::{Assembly, Bond, Facet, Hinge, Sense};
pub use space::{Lay, Rigid, Vector};
pub(crate) use space::{add, cross, dot, length, scale, sub};
pub use verdict::{Finding, Item, Opening, Order, Pose};
