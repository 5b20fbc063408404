//! Turns by any angle, exact where they are quarters.

use super::Turn;
use crate::length::Length;

/// How near to a quarter turn, in radians, a turn counts as one. Ends of lines
/// are rounded to 1/72 µm, which turns a line of 5 mm by about 2e-6; at the
/// far end of a 300 mm piece this is 1.5 µm, less than anyone cuts or scores.
const QUARTER_WITHIN: f64 = 5e-6;

/// How near to a quarter turn, as the sine of the angle between, print still
/// looks straight: half a degree, common practice for hand-cut paper.
const LOOKS_STRAIGHT_WITHIN: f64 = 0.008_727;

/// One, as the fixed-point number of a [`Slant`].
const ONE: i128 = 1 << 60;
const ONE_F64: f64 = 1_152_921_504_606_846_976.0;

/// A turn in the plane, anticlockwise.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bearing {
    /// By a whole number of quarters, exactly.
    Quarter(Turn),
    /// By any other angle.
    Slant(Slant),
}

/// A turn that is no quarter turn, by the cosine and sine of its angle. Whole
/// numbers of 2⁻⁶⁰, so that it is the same on every machine and can be
/// compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Slant {
    cos: i64,
    sin: i64,
}

impl From<Turn> for Bearing {
    fn from(turn: Turn) -> Self {
        Self::Quarter(turn)
    }
}

#[expect(
    clippy::cast_precision_loss,
    reason = "a cosine needs no more than a floating-point number holds"
)]
fn as_f64(part: i64) -> f64 {
    part as f64 / ONE_F64
}

/// The nearest whole number, kept at the ends of the range.
#[expect(
    clippy::cast_possible_truncation,
    reason = "the cast keeps what is out of range at the nearest end"
)]
fn nearest(number: f64) -> i64 {
    number.round_ties_even() as i64
}

/// A fixed-point product brought back to whole units, rounded to the nearest.
fn rescaled(product: i128) -> i64 {
    let nearest = (product + ONE / 2).div_euclid(ONE);
    i64::try_from(nearest).unwrap_or(if nearest < 0 { i64::MIN } else { i64::MAX })
}

impl Bearing {
    /// The turn that brings the direction to the right into that of (`x`,
    /// `y`); `None` where that is no direction.
    pub fn towards(x: f64, y: f64) -> Option<Self> {
        // The square root is the same on every machine, `hypot` is not.
        let length = (x * x + y * y).sqrt();
        if !length.is_finite() || length <= 0.0 {
            return None;
        }
        let (cos, sin) = (x / length, y / length);
        let quarter = Self::nearest_to(cos, sin);
        let off = if quarter.is_sideways() { cos } else { sin };
        if off.abs() <= QUARTER_WITHIN {
            return Some(Self::Quarter(quarter));
        }
        let part = |part: f64| nearest(part * ONE_F64);
        Some(Self::Slant(Slant {
            cos: part(cos),
            sin: part(sin),
        }))
    }

    fn nearest_to(cos: f64, sin: f64) -> Turn {
        if cos.abs() >= sin.abs() {
            if cos > 0.0 { Turn::None } else { Turn::Half }
        } else if sin > 0.0 {
            Turn::Left
        } else {
            Turn::Right
        }
    }

    /// Cosine and sine of the angle.
    pub fn cos_sin(self) -> (f64, f64) {
        match self {
            Self::Quarter(Turn::None) => (1.0, 0.0),
            Self::Quarter(Turn::Left) => (0.0, 1.0),
            Self::Quarter(Turn::Half) => (-1.0, 0.0),
            Self::Quarter(Turn::Right) => (0.0, -1.0),
            Self::Slant(slant) => (as_f64(slant.cos), as_f64(slant.sin)),
        }
    }

    /// The quarter turn it is; `None` for any other angle.
    pub const fn quarter(self) -> Option<Turn> {
        match self {
            Self::Quarter(turn) => Some(turn),
            Self::Slant(_) => None,
        }
    }

    /// The quarter turn it looks like: `None` where a print so turned is seen
    /// to slant.
    pub fn looks_like(self) -> Option<Turn> {
        let (cos, sin) = self.cos_sin();
        let nearest = Self::nearest_to(cos, sin);
        let off = if nearest.is_sideways() { cos } else { sin };
        (off.abs() <= LOOKS_STRAIGHT_WITHIN).then_some(nearest)
    }

    /// This turn followed by another.
    #[must_use]
    pub fn then(self, next: Self) -> Self {
        if let (Self::Quarter(this), Self::Quarter(next)) = (self, next) {
            return Self::Quarter(this.then(next));
        }
        let (cos, sin) = self.cos_sin();
        let (next_cos, next_sin) = next.cos_sin();
        let both = Self::towards(
            cos * next_cos - sin * next_sin,
            sin * next_cos + cos * next_sin,
        );
        // Two directions always make a direction.
        both.unwrap_or(self)
    }

    /// The turn that undoes this one.
    #[must_use]
    pub const fn back(self) -> Self {
        match self {
            Self::Quarter(turn) => Self::Quarter(turn.back()),
            Self::Slant(Slant { cos, sin }) => Self::Slant(Slant {
                cos,
                sin: sin.saturating_neg(),
            }),
        }
    }

    /// Where a point comes to lie when the plane is turned about the origin:
    /// exact for quarters, otherwise to the nearest unit.
    pub(super) fn turned(self, x: Length, y: Length) -> (Length, Length) {
        match self {
            Self::Quarter(Turn::None) => (x, y),
            Self::Quarter(Turn::Left) => (-y, x),
            Self::Quarter(Turn::Half) => (-x, -y),
            Self::Quarter(Turn::Right) => (y, -x),
            Self::Slant(Slant { cos, sin }) => {
                let [x, y, cos, sin] = [x.units(), y.units(), cos, sin].map(i128::from);
                (
                    Length::from_units(rescaled(x * cos - y * sin)),
                    Length::from_units(rescaled(x * sin + y * cos)),
                )
            }
        }
    }
}
