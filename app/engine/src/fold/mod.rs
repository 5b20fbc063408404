//! Folding a strip flat, and opening it again.

mod folded;
mod order;
mod reduce;

pub use folded::{Folded, Pose, State, fold};
pub use order::Orders;
pub use reduce::{Stuck, stack_of};
