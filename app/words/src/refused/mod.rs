//! Why a change to a recipe was not made.

pub(crate) mod de;
pub(crate) mod en;
