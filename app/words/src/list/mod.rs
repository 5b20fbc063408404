//! What contradicts itself in a list of measurements.

pub(crate) mod de;
pub(crate) mod en;
