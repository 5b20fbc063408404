//! What can be saved of a card that came out different.

pub(crate) mod de;
pub(crate) mod en;
