//! A typed length that can't be read.

pub(crate) mod de;
pub(crate) mod en;
