//! The two sides of a piece, and how a crease folds as seen from one of them.

use serde::{Deserialize, Serialize};

/// A side of a piece. The strip is drawn and its folds are stated from side A.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Side {
    /// The inside of the card.
    A,
    /// The outside of the card.
    B,
}

impl Side {
    /// The side behind this one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::A => Self::B,
            Self::B => Self::A,
        }
    }
}

/// How a crease folds, seen from side A.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fold {
    /// The crease points at the one who looks at side A.
    Mountain,
    /// The crease points away from the one who looks at side A.
    Valley,
}

impl Fold {
    /// The other way.
    #[must_use]
    pub const fn flipped(self) -> Self {
        match self {
            Self::Mountain => Self::Valley,
            Self::Valley => Self::Mountain,
        }
    }
}
