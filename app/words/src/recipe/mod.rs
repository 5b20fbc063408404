//! The recipe as a whole.

pub(crate) mod de;
pub(crate) mod en;
