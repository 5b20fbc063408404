//! Quarter turns, the only turns that keep a straight print straight.

use serde::{Deserialize, Serialize};

/// A turn in the plane by a whole number of quarters, anticlockwise.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(rename_all = "kebab-case")]
pub enum Turn {
    /// Not turned.
    #[default]
    None,
    /// A quarter turn to the left.
    Left,
    /// Half a turn: upside down.
    Half,
    /// A quarter turn to the right.
    Right,
}

impl Turn {
    /// All four, anticlockwise from none.
    pub const ALL: [Self; 4] = [Self::None, Self::Left, Self::Half, Self::Right];

    /// How many quarters anticlockwise, 0 to 3.
    pub const fn quarters(self) -> u8 {
        match self {
            Self::None => 0,
            Self::Left => 1,
            Self::Half => 2,
            Self::Right => 3,
        }
    }

    /// The turn by some quarters anticlockwise; whole turns drop out.
    pub const fn from_quarters(quarters: u8) -> Self {
        match quarters % 4 {
            0 => Self::None,
            1 => Self::Left,
            2 => Self::Half,
            _ => Self::Right,
        }
    }

    /// This turn followed by another.
    #[must_use]
    pub const fn then(self, next: Self) -> Self {
        Self::from_quarters(self.quarters() + next.quarters())
    }

    /// The turn that undoes this one.
    #[must_use]
    pub const fn back(self) -> Self {
        Self::from_quarters(4 - self.quarters())
    }

    /// Whether what was upright now lies on its side.
    pub const fn is_sideways(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }
}
