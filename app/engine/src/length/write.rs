//! Writing lengths the way the maker reads them.

use serde::{Deserialize, Serialize};

use super::lexeme::{FRACTION_SLASH, Height, OVER, UNDER, at_height, character_of};
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
///
/// Two forms are for the eye, [`plain`](Self::plain) and
/// [`with_unit`](Self::with_unit): a fraction is one run without a space, and a
/// length off the step is its nearest mark with a tick, so that no number mixes
/// units. A raised plus says a little over, a raised minus a little under, as
/// makers pencil them behind a number (common practice). One form is for fields
/// and files, [`exact`](Self::exact): it can be typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct Notation {
    /// The distance between the marks the maker can set.
    pub step: Step,
    /// The decimal mark.
    pub decimal: DecimalMark,
}

/// How a fraction is written, and what parts a number from its unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    /// With keys that a keyboard has: "3 3/16 in".
    Typed,
    /// For the eye: "3³⁄₁₆ in" with a space that does not break.
    Set,
}

impl Form {
    const fn space(self) -> char {
        match self {
            Self::Typed => ' ',
            Self::Set => NO_BREAK,
        }
    }
}

/// The space between a number and its unit, where no line may break.
const NO_BREAK: char = '\u{a0}';

/// Five digits of a millimetre tell any two units apart: half of the last
/// digit is 0.36 units, so reading what was written rounds back to the unit.
const MOST_DIGITS: u32 = 5;

impl Notation {
    /// The unit lengths are written in.
    pub const fn unit(self) -> Unit {
        self.step.unit()
    }

    /// The length without its unit, which the reader has to know: "3³⁄₁₆",
    /// "95.5", "−⅛". Off the step: "3³⁄₁₆⁺", "95.5⁻"; nearer to nothing than to
    /// the first mark: "<¹⁄₁₆".
    pub fn plain(self, length: Length) -> String {
        let mark = nearest(length, self.step);
        if mark.is_exact() {
            return self.number(length, Form::Set);
        }
        let sign = if length.is_negative() { "−" } else { "" };
        if mark.at == Length::ZERO {
            return format!("{sign}<{}", self.number(self.step.length(), Form::Set));
        }
        let over = length.abs() > mark.at.abs();
        let tick = if over { OVER } else { UNDER };
        format!("{}{tick}", self.number(mark.at, Form::Set))
    }

    /// The length with its unit, and no break between the two: "3³⁄₁₆ in",
    /// "95.5 mm"; off the step "3³⁄₁₆⁺ in".
    pub fn with_unit(self, length: Length) -> String {
        format!("{}{NO_BREAK}{}", self.plain(length), self.unit().words())
    }

    /// The length with its unit in a form that, typed in, gives the very same
    /// length: in inches a fraction to 1/64 in where there is one, otherwise
    /// millimetres with as many decimals as it takes.
    pub fn exact(self, length: Length) -> String {
        self.unrounded(length, Form::Typed)
    }

    /// The same length as [`exact`](Self::exact) gives, for the eye:
    /// "3¹³⁄₆₄ in", "95.73 mm".
    pub fn exactly(self, length: Length) -> String {
        self.unrounded(length, Form::Set)
    }

    /// Two lengths as a size, across first: "4¼ × 5½ in".
    pub fn size(self, width: Length, height: Length) -> String {
        format!(
            "{}{NO_BREAK}× {}",
            self.plain(width),
            self.with_unit(height)
        )
    }

    /// Two lengths as a size in names that are kept, with keys that a keyboard has:
    /// "4 1/4 × 5 1/2 in".
    pub fn size_in_names(self, width: Length, height: Length) -> String {
        let is_on_step = |length| nearest(length, self.step).is_exact();
        let first = if is_on_step(width) && is_on_step(height) {
            self.number(width, Form::Typed)
        } else {
            self.exact(width)
        };
        format!("{first} × {}", self.exact(height))
    }

    /// Two lengths as a size that is not rounded, both in one unit.
    pub fn exact_size(self, width: Length, height: Length) -> String {
        let in_inches = [width, height]
            .into_iter()
            .all(|side| self.fraction_of(side));
        let number = |side| {
            if in_inches {
                fraction(side, Form::Set)
            } else {
                self.decimal(side)
            }
        };
        let unit = if in_inches {
            Unit::Inch
        } else {
            Unit::Millimetre
        };
        format!(
            "{}{NO_BREAK}× {}{NO_BREAK}{}",
            number(width),
            number(height),
            unit.words()
        )
    }

    fn unrounded(self, length: Length, form: Form) -> String {
        let space = form.space();
        if self.fraction_of(length) {
            format!("{}{space}in", fraction(length, form))
        } else {
            format!("{}{space}mm", self.decimal(length))
        }
    }

    /// Whether a length is told in inches, and is a whole number of 1/64 in.
    fn fraction_of(self, length: Length) -> bool {
        self.unit() == Unit::Inch && nearest(length, Step::SixtyFourth).is_exact()
    }

    /// A length on the step, in the recipe's unit, without the unit.
    fn number(self, length: Length, form: Form) -> String {
        match self.unit() {
            Unit::Inch => fraction(length, form),
            // The finest step is a tenth.
            Unit::Millimetre => decimals(length, 1, self.decimal),
        }
    }

    /// Millimetres with as many decimals as it takes.
    fn decimal(self, length: Length) -> String {
        decimals(length, fewest_exact_digits(length), self.decimal)
    }
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
fn fraction(length: Length, form: Form) -> String {
    const UNIT: u64 = Step::SixtyFourth.length().units().unsigned_abs();
    let count = length.units().unsigned_abs() / UNIT;
    let (whole, mut over, mut under) = (count / 64, count % 64, 64);
    while over != 0 && over % 2 == 0 {
        over /= 2;
        under /= 2;
    }
    let sign = if length.is_negative() { "−" } else { "" };
    let gap = match form {
        Form::Typed => " ",
        Form::Set => "",
    };
    let part = match form {
        Form::Typed => format!("{over}/{under}"),
        Form::Set => set_fraction(over, under),
    };
    match (whole, over) {
        (whole, 0) => format!("{sign}{whole}"),
        (0, _) => format!("{sign}{part}"),
        (whole, _) => format!("{sign}{whole}{gap}{part}"),
    }
}

/// A fraction below one in its character, or else in raised and lowered figures.
fn set_fraction(over: u64, under: u64) -> String {
    if let Some(character) = character_of(over, under) {
        return character.to_string();
    }
    let set = |number: u64, height| -> String {
        let digits = number.to_string();
        digits
            .chars()
            .map(|digit| at_height(digit, height))
            .collect()
    };
    let (over, under) = (set(over, Height::Raised), set(under, Height::Lowered));
    format!("{over}{FRACTION_SLASH}{under}")
}
