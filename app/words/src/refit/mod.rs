//! What a refit comes to besides its lengths, and why there is none.

pub(crate) mod de;
pub(crate) mod en;
