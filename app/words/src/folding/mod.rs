//! How the card folds shut and opens.

pub(crate) mod de;
pub(crate) mod en;
