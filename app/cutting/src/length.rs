//! Lengths, sizes and places in one unit that the caller chooses.

use serde::{Deserialize, Serialize};

/// Lengths are at most this, so that areas and sums of them fit easily.
const MOST: u32 = 1 << 30;

/// A whole number of units, more than nothing and at most 2³⁰. All lengths of a
/// job are in one unit, whichever: 1/72 µm, 1/64 in, 1 mm.
///
/// ```
/// use foldwright_cutting::Length;
///
/// assert_eq!(Length::new(297).map(Length::get), Some(297));
/// assert_eq!(Length::new(0), None);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "u32")]
pub struct Length(u32);

impl Length {
    /// `None` for nothing and for more than a length can be.
    pub const fn new(units: u32) -> Option<Self> {
        if units == 0 || units > MOST {
            return None;
        }
        Some(Self(units))
    }

    /// In units.
    pub const fn get(self) -> u32 {
        self.0
    }
}

impl TryFrom<u32> for Length {
    type Error = &'static str;

    fn try_from(units: u32) -> Result<Self, Self::Error> {
        Self::new(units).ok_or("no length of a job")
    }
}

/// A width and a height, as a sheet lies or as a piece is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Size {
    /// From left to right.
    pub width: Length,
    /// From the near edge to the far one.
    pub height: Length,
}

impl Size {
    /// `None` where a side is nothing or too long.
    pub const fn new(width: u32, height: u32) -> Option<Self> {
        match (Length::new(width), Length::new(height)) {
            (Some(width), Some(height)) => Some(Self { width, height }),
            _ => None,
        }
    }

    /// In square units.
    pub fn area(self) -> u64 {
        u64::from(self.width.get()) * u64::from(self.height.get())
    }
}

/// A rectangle on a sheet as it lies, measured from its left near corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Rect {
    /// From the left edge of the sheet to that of the rectangle.
    pub x: u32,
    /// From the near edge of the sheet to that of the rectangle.
    pub y: u32,
    /// How far it reaches.
    pub size: Size,
}

impl Rect {
    /// From the left edge of the sheet to the right edge of the rectangle.
    pub fn right(self) -> u32 {
        self.x.saturating_add(self.size.width.get())
    }

    /// From the near edge of the sheet to the far edge of the rectangle.
    pub fn far(self) -> u32 {
        self.y.saturating_add(self.size.height.get())
    }

    /// Whether another lies within it.
    pub fn holds(self, other: Self) -> bool {
        self.x <= other.x
            && self.y <= other.y
            && other.right() <= self.right()
            && other.far() <= self.far()
    }
}
