//! How sheets are laid and shapes are cut.

pub(crate) mod de;
pub(crate) mod en;
