//! Folding paper flat, and opening it again.

mod axis;
mod bits;
mod folded;
mod hang;
mod opening;
mod over;
mod overhang;
mod reduce;
mod stack;
mod state;
mod unfolding;

pub use folded::{Folded, Unfoldable, fold, fold_with, questions};
pub(crate) use folded::{closes_with, lying_shut};
pub use hang::Glued;
pub use overhang::Overhang;
pub use reduce::{Stuck, stack_of};
pub use stack::{About, Bond, Core, Facet, Hinge, Order, Orders, Stack, Undecided};
pub(crate) use state::lined_up;
pub use state::{Cover, Opened, Pose, State};
