//! What reaches too far, or into a fold.

pub(crate) mod de;
pub(crate) mod en;
