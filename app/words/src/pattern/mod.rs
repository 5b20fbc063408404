//! Creases and cuts.

pub(crate) mod de;
pub(crate) mod en;
