//! Folding paper flat, and opening a strip again.

mod folded;
mod reduce;
mod stack;

pub use folded::{Folded, Pose, State, fold};
pub use reduce::{Stuck, stack_of};
pub use stack::{About, Bond, Conflict, Facet, Hinge, Order, Orders, Stack, Undecided};
