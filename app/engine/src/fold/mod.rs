//! Folding paper flat, and opening it again.

mod folded;
mod hang;
mod opening;
mod reduce;
mod stack;
mod state;

pub use folded::{Folded, Unfoldable, fold, questions};
pub use hang::Glued;
pub use reduce::{Stuck, stack_of};
pub use stack::{About, Bond, Conflict, Facet, Hinge, Order, Orders, Stack, Undecided};
pub(crate) use state::lined_up;
pub use state::{Cover, Opened, Pose, State};
