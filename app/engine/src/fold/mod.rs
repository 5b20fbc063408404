//! Folding a strip flat, and opening it again.

mod folded;
mod reduce;

pub use folded::{Pose, State, fold};
pub use reduce::{Stuck, stack_of};
