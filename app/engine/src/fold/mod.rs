//! Folding a strip flat.

mod reduce;

pub use reduce::{Stuck, stack_of};
