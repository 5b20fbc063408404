//! Writing lengths the way the maker reads them.

use serde::{Deserialize, Serialize};

use super::marks::half_even;
use super::{Length, Step, Unit, nearest};

/// The mark between whole and decimal digits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DecimalMark {
    /// As in 95.5.
    Point,
    /// As in 95,5.
    Comma,
}

impl DecimalMark {
    /// The mark itself.
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Point => ".",
            Self::Comma => ",",
        }
    }
}

/// How a recipe writes its lengths: the step also settles the unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct Notation {
    /// The distance between the marks the maker can set.
    pub step: Step,
    /// The decimal mark.
    pub decimal: DecimalMark,
}

/// Five digits of a millimetre tell any two units apart: half of the last
/// digit is 0.36 units, so reading what was written rounds back to the unit.
const MOST_DIGITS: u32 = 5;

impl Notation {
    /// The unit lengths are written in.
    pub const fn unit(self) -> Unit {
        self.step.unit()
    }

    /// The length without its unit, which the reader has to know: "3 3/16",
    /// "95.5", "−1/8". Off the step: "3 3/16 + 0.4 mm".
    pub fn plain(self, length: Length) -> String {
        self.on_mark(length, "")
    }

    /// The length with its unit: "3 3/16 in", "95.5 mm". Off the step:
    /// "3 3/16 in + 0.4 mm".
    pub fn with_unit(self, length: Length) -> String {
        self.on_mark(length, &format!(" {}", self.unit().words()))
    }

    /// The length with its unit in a form that, typed in, gives the very same
    /// length: in inches a fraction to 1/64 in where there is one, otherwise
    /// the nearest mark and the rest; in millimetres as many decimals as it
    /// takes.
    pub fn exact(self, length: Length) -> String {
        match self.unit() {
            Unit::Millimetre => self.millimetres(length, fewest_exact_digits(length)),
            Unit::Inch if nearest(length, Step::SixtyFourth).is_exact() => {
                format!("{} in", fraction(length))
            }
            Unit::Inch => self.sum(length, " in", fewest_exact_digits),
        }
    }

    /// Two lengths as a size, across first: "4 1/4 × 5 1/2 in". Off the step
    /// each length carries its own unit.
    pub fn size(self, width: Length, height: Length) -> String {
        let on_step = |length| nearest(length, self.step).is_exact();
        let first = if on_step(width) && on_step(height) {
            self.plain(width)
        } else {
            self.with_unit(width)
        };
        format!("{first} × {}", self.with_unit(height))
    }

    fn on_mark(self, length: Length, unit: &str) -> String {
        if nearest(length, self.step).is_exact() {
            format!("{}{unit}", self.number(length))
        } else {
            self.sum(length, unit, fewest_telling_digits)
        }
    }

    /// The nearest mark and the rest in millimetres; the rest alone when the
    /// mark is zero.
    fn sum(self, length: Length, unit: &str, digits: fn(Length) -> u32) -> String {
        let mark = nearest(length, self.step);
        if mark.at == Length::ZERO {
            return self.millimetres(length, digits(length));
        }
        let sign = if mark.rest.is_negative() { '−' } else { '+' };
        let rest = mark.rest.abs();
        format!(
            "{}{unit} {sign} {}",
            self.number(mark.at),
            self.millimetres(rest, digits(rest))
        )
    }

    /// A length on the step, in the recipe's unit, without the unit.
    fn number(self, length: Length) -> String {
        match self.unit() {
            Unit::Inch => fraction(length),
            // The finest step is a tenth.
            Unit::Millimetre => decimals(length, 1, self.decimal),
        }
    }

    fn millimetres(self, length: Length, digits: u32) -> String {
        format!("{} mm", decimals(length, digits, self.decimal))
    }
}

/// The fewest digits at which the length in millimetres does not read as zero.
fn fewest_telling_digits(length: Length) -> u32 {
    (1..MOST_DIGITS)
        .find(|&digits| scaled(length, digits) != 0)
        .unwrap_or(MOST_DIGITS)
}

/// The fewest digits at which the length in millimetres reads back exactly.
fn fewest_exact_digits(length: Length) -> u32 {
    let reads_back = |&digits: &u32| {
        let units = scaled(length, digits) * i128::from(Length::PER_MM);
        half_even(units, 10_i128.pow(digits)) == i128::from(length.units())
    };
    (0..MOST_DIGITS).find(reads_back).unwrap_or(MOST_DIGITS)
}

/// The length in millimetres times ten to the number of digits, rounded.
fn scaled(length: Length, digits: u32) -> i128 {
    half_even(
        i128::from(length.units()) * 10_i128.pow(digits),
        Length::PER_MM.into(),
    )
}

/// Millimetres as a decimal number, without closing zeros.
fn decimals(length: Length, digits: u32, mark: DecimalMark) -> String {
    let scaled = scaled(length, digits);
    let power = 10_u128.pow(digits);
    let (whole, part) = (scaled.unsigned_abs() / power, scaled.unsigned_abs() % power);
    let sign = if scaled < 0 { "−" } else { "" };
    if part == 0 {
        return format!("{sign}{whole}");
    }
    let part = format!("{part:0width$}", width = digits as usize);
    format!(
        "{sign}{whole}{}{}",
        mark.as_str(),
        part.trim_end_matches('0')
    )
}

/// A whole number of 1/64 in as whole inches and a reduced fraction.
fn fraction(length: Length) -> String {
    const UNIT: u64 = Step::SixtyFourth.length().units().unsigned_abs();
    let count = length.units().unsigned_abs() / UNIT;
    let (whole, mut over, mut under) = (count / 64, count % 64, 64);
    while over != 0 && over % 2 == 0 {
        over /= 2;
        under /= 2;
    }
    let sign = if length.is_negative() { "−" } else { "" };
    match (whole, over) {
        (whole, 0) => format!("{sign}{whole}"),
        (0, over) => format!("{sign}{over}/{under}"),
        (whole, over) => format!("{sign}{whole} {over}/{under}"),
    }
}
