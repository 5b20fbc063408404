//! How the maker likes to score.

use serde::{Deserialize, Serialize};

use super::Side;

/// How the maker likes to score.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Scoring {
    /// Every score with one side up, so that the sheet is never turned over.
    OnePass(Side),
    /// Every score from the side that leaves its bump inside the fold.
    Crispest,
}

impl Default for Scoring {
    fn default() -> Self {
        Self::OnePass(Side::A)
    }
}
