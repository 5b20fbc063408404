//! Lengths as exact whole numbers, and how people write, read and set them.
//!
//! One unit is 1/72 µm. In it everything people set is a whole number: a
//! millimetre is 72 000, an inch 1 828 800, 1/64 in 28 575, so adding and
//! comparing never round.

mod lexeme;
mod marks;
mod read;
mod scan;
mod stored;
mod write;

pub(crate) use marks::half_even;
pub use marks::{Mark, ceil, floor, nearest, round_parts};
pub use read::{ReadError, ReadProblem, Written, read};
pub use scan::Odd;
pub(crate) use scan::{Bit, Figure, scan};
pub use write::{DecimalMark, Notation};

use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Neg, Sub, SubAssign};

use serde::{Deserialize, Serialize};

/// A length, or a distance with a sign, in units of 1/72 µm.
///
/// Arithmetic saturates: a sum that left the range of 64 bits would be 128
/// million kilometres long, so no length that means anything is touched, and
/// in return no input can make the arithmetic panic.
///
/// Stored as people write it, "4 1/4 in" or "95.5 mm", where that is exact, and
/// otherwise as the number of units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

impl Length {
    /// Units in a millimetre.
    pub const PER_MM: i64 = 72_000;
    /// Units in an inch of exactly 25.4 mm.
    pub const PER_INCH: i64 = 1_828_800;
    /// No length at all.
    pub const ZERO: Self = Self(0);
    /// The longest length that may be typed, either way from zero: 10 m.
    pub const LIMIT: Self = Self::mm(10_000);

    /// From a number of units.
    pub const fn from_units(units: i64) -> Self {
        Self(units)
    }

    /// The number of units.
    pub const fn units(self) -> i64 {
        self.0
    }

    /// Whole millimetres.
    pub const fn mm(count: i64) -> Self {
        Self(count.saturating_mul(Self::PER_MM))
    }

    /// Whole inches.
    pub const fn inches(count: i64) -> Self {
        Self(count.saturating_mul(Self::PER_INCH))
    }

    /// Sixty-fourths of an inch.
    pub const fn sixty_fourths(count: i64) -> Self {
        Self(count.saturating_mul(Self::PER_INCH / 64))
    }

    /// Hundredths of a millimetre.
    pub const fn hundredths_mm(count: i64) -> Self {
        Self(count.saturating_mul(Self::PER_MM / 100))
    }

    /// Thousandths of a millimetre.
    pub const fn microns(count: i64) -> Self {
        Self(count.saturating_mul(Self::PER_MM / 1000))
    }

    /// The length without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.saturating_abs())
    }

    /// Whether the length lies below zero.
    pub const fn is_negative(self) -> bool {
        self.0 < 0
    }

    /// The length divided by a whole number: the quotient in whole units, and
    /// what is left over, which is never negative. `None` when divided by
    /// nothing.
    pub const fn div_rem(self, by: i64) -> Option<(Self, Self)> {
        match (self.0.checked_div_euclid(by), self.0.checked_rem_euclid(by)) {
            (Some(quotient), Some(rest)) => Some((Self(quotient), Self(rest))),
            _ => None,
        }
    }

    /// Half the length; an odd unit is rounded down, towards minus infinity.
    #[must_use]
    pub const fn half_down(self) -> Self {
        Self(self.0.div_euclid(2))
    }

    /// Millimetres as a floating-point number, for drawing only.
    pub const fn as_mm_f64(self) -> f64 {
        self.as_units_f64() / Self::mm(1).as_units_f64()
    }

    /// Units as a floating-point number.
    #[expect(
        clippy::cast_precision_loss,
        reason = "exact up to 125 km; what is longer is told to be too long"
    )]
    pub(crate) const fn as_units_f64(self) -> f64 {
        self.0 as f64
    }

    /// The length nearest to a number of units.
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a cast to an integer stops at its ends, far beyond any paper"
    )]
    pub(crate) fn near_units(units: f64) -> Self {
        Self(units.round() as i64)
    }

    /// The length nearest to a number of millimetres, no longer than paper is.
    pub fn near_mm(millimetres: f64) -> Self {
        let limit = Self::LIMIT.as_mm_f64();
        let units = millimetres.clamp(-limit, limit) * Self::mm(1).as_units_f64();
        Self::near_units(units)
    }

    /// From more bits than a length holds, kept at the nearest end.
    const fn saturated(units: i128) -> Self {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "each branch has checked that the number fits"
        )]
        if units > i64::MAX as i128 {
            Self(i64::MAX)
        } else if units < i64::MIN as i128 {
            Self(i64::MIN)
        } else {
            Self(units as i64)
        }
    }
}

impl Add for Length {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Length {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Length {
    type Output = Self;

    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl Mul<i64> for Length {
    type Output = Self;

    fn mul(self, times: i64) -> Self {
        Self(self.0.saturating_mul(times))
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

/// The unit a recipe is written in, and that a bare number is read in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unit {
    /// Inches of exactly 25.4 mm.
    Inch,
    /// Millimetres.
    Millimetre,
}

impl Unit {
    /// One of it.
    pub const fn length(self) -> Length {
        match self {
            Self::Inch => Length::inches(1),
            Self::Millimetre => Length::mm(1),
        }
    }

    /// How it is written behind a number.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Millimetre => "mm",
        }
    }
}

/// The distance between two marks of the maker's ruler, board or trimmer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Step {
    /// 1/8 in.
    Eighth,
    /// 1/16 in.
    Sixteenth,
    /// 1/32 in.
    ThirtySecond,
    /// 1/64 in.
    SixtyFourth,
    /// 1 mm.
    Millimetre,
    /// 0.5 mm.
    HalfMillimetre,
    /// 0.1 mm.
    TenthMillimetre,
}

impl Step {
    /// The distance itself.
    pub const fn length(self) -> Length {
        match self {
            Self::Eighth => Length::sixty_fourths(8),
            Self::Sixteenth => Length::sixty_fourths(4),
            Self::ThirtySecond => Length::sixty_fourths(2),
            Self::SixtyFourth => Length::sixty_fourths(1),
            Self::Millimetre => Length::mm(1),
            Self::HalfMillimetre => Length::hundredths_mm(50),
            Self::TenthMillimetre => Length::hundredths_mm(10),
        }
    }

    /// The unit the marks are numbered in.
    pub const fn unit(self) -> Unit {
        match self {
            Self::Eighth | Self::Sixteenth | Self::ThirtySecond | Self::SixtyFourth => Unit::Inch,
            Self::Millimetre | Self::HalfMillimetre | Self::TenthMillimetre => Unit::Millimetre,
        }
    }

    /// The steps offered for a unit, coarsest first.
    pub const fn all_for(unit: Unit) -> &'static [Self] {
        match unit {
            Unit::Inch => &[
                Self::Eighth,
                Self::Sixteenth,
                Self::ThirtySecond,
                Self::SixtyFourth,
            ],
            Unit::Millimetre => &[
                Self::Millimetre,
                Self::HalfMillimetre,
                Self::TenthMillimetre,
            ],
        }
    }

    /// The step as it is read on a ruler.
    pub fn words(self, decimal: DecimalMark) -> String {
        Notation {
            step: self,
            decimal,
        }
        .with_unit(self.length())
    }
}
