//! Paper, print, marks, envelope, and where pieces are glued.

pub(crate) mod de;
pub(crate) mod en;
