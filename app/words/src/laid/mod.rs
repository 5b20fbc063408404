//! The flat pieces, their outlines and what is cut out of them.

pub(crate) mod de;
pub(crate) mod en;
