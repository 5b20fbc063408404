//! The glue of layers.

pub(crate) mod de;
pub(crate) mod en;
