//! Angles as people read them.

use crate::length::DecimalMark;

/// An angle in thousandths of a degree, for reading; nothing is decided by it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Angle(i32);

impl Angle {
    /// From radians, rounded to the nearest thousandth of a degree.
    #[expect(
        clippy::cast_possible_truncation,
        reason = "the cast keeps what is out of range at the nearest end"
    )]
    pub fn from_radians(radians: f64) -> Self {
        Self((radians.to_degrees() * 1000.0).round_ties_even() as i32)
    }

    /// From thousandths of a degree.
    pub const fn thousandths(count: i32) -> Self {
        Self(count)
    }

    /// In thousandths of a degree.
    pub const fn as_thousandths(self) -> i32 {
        self.0
    }

    /// The difference to another, without a sign.
    #[must_use]
    pub const fn off(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0).saturating_abs())
    }

    /// The angle in degrees, without closing zeros: "22.5°".
    pub fn words(self, decimal: DecimalMark) -> String {
        let size = self.0.unsigned_abs();
        let sign = if self.0 < 0 { "−" } else { "" };
        let (whole, part) = (size / 1000, size % 1000);
        if part == 0 {
            return format!("{sign}{whole}°");
        }
        let part = format!("{part:03}");
        let part = part.trim_end_matches('0');
        format!("{sign}{whole}{}{part}°", decimal.as_str())
    }
}
