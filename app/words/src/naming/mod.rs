//! Names that the program gives. They are the maker's own from then on.

pub(crate) mod de;
pub(crate) mod en;
mod keys;
mod starters;
pub(crate) mod starters_de;
pub(crate) mod starters_en;

pub use starters::{Starters, starter};
