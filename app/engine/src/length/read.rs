//! Reading a length the way people type it.
//!
//! A length is a number with or without a unit, or a sum of such terms:
//!
//! * whole, decimal and mixed numbers: `95`, `3.75`, `3,75`, `.5`, `3 3/4`,
//!   `3-3/4`, `3¾`, `3³⁄₄`, `-1/8`. A hyphen or dash joins a whole number and
//!   a fraction when no space stands on either side of it; the minus sign
//!   proper never does.
//! * units, in any case: `in`, `inch`, `inches`, `zoll`, `pouces`, `duim`, `"`, `″`, `”`, `''`;
//!   `mm`, `cm`, `m`; `ft`, `feet`, `'`, after which inches may follow as in
//!   `1' 6"`. A number without a unit is in the recipe's.
//! * sums with plus and minus, each term in its own unit: `5 1/2 + 1/8`,
//!   `3 3/16 + 0.4 mm`.
//!
//! A number with the tick of a rounded one is refused: it does not say which
//! length it stands for.
//!
//! Point and comma are both decimal marks: `1,234` is one and a bit. Groups of
//! thousands are refused, for nobody can tell which mark was meant.
//!
//! Each term is worked out exactly and rounded once, to the nearest unit, ties
//! to even; whatever is a whole number of 1/64 in or of 1/1000 mm is exact.

use std::ops::Range;

use super::lexeme::{Height, Lexeme, Token, lexemes};
use super::marks::half_even;
use super::{Length, Unit};

/// Why a text is not a length.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadError {
    /// What is wrong.
    pub problem: ReadProblem,
    /// Where, counted in characters from the start of the text.
    pub at: Range<usize>,
}

/// What is wrong with a text that should be a length.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReadProblem {
    /// There is nothing to read.
    Empty,
    /// A number should stand here.
    NumberMissing,
    /// A character that has no place in a length.
    Strange(char),
    /// Something that may stand in a length, but not here.
    Misplaced,
    /// A number that is rounded, and so does not say which length it is.
    Rounded,
    /// A word that is not a unit of length.
    UnknownUnit(String),
    /// A number follows a number with nothing between them.
    TwoNumbers,
    /// A number with two decimal marks.
    TwoDecimalMarks,
    /// A fraction bar with nothing under it.
    DenominatorMissing,
    /// A fraction of nothing.
    ZeroDenominator,
    /// A fraction of numbers that are not whole.
    DecimalInFraction,
    /// More digits than a length needs.
    TooManyDigits,
    /// Twelve or more inches after feet.
    TooManyInches,
    /// Longer than [`Length::LIMIT`].
    TooLong,
}

/// Reads a length; numbers without a unit are in `default`. Refuses what it
/// cannot read, saying where and why; never panics.
pub fn read(text: &str, default: Unit) -> Result<Length, ReadError> {
    let lexemes = lexemes(text);
    let (Some(first), Some(last)) = (lexemes.first(), lexemes.last()) else {
        return Err(ReadError {
            problem: ReadProblem::Empty,
            at: 0..text.chars().count(),
        });
    };
    let whole = first.at.start..last.at.end;
    let units = Reader {
        ahead: &lexemes,
        end: whole.end,
        default,
    }
    .sum()?;
    if units.abs() > i128::from(Length::LIMIT.units()) {
        return Err(ReadError {
            problem: ReadProblem::TooLong,
            at: whole,
        });
    }
    Ok(Length::saturated(units))
}

/// Digits a number may have before its decimal mark or in either half of a
/// fraction, and after its decimal mark. The limits keep the exact arithmetic
/// within 128 bits: 10⁹ · 10¹² times the 72 000 000 units of a metre is below
/// 10²⁹.
const WHOLE_DIGITS: usize = 9;
const DECIMAL_DIGITS: usize = 12;

/// A number without its sign, as a fraction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Number {
    pub(super) over: i128,
    pub(super) under: i128,
}

impl Number {
    pub(super) fn times(self, units: i128) -> i128 {
        half_even(self.over * units, self.under)
    }
}

/// A unit behind a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names are those of the units")]
pub enum Written {
    Inch,
    Millimetre,
    Centimetre,
    Metre,
    Foot,
}

impl Written {
    pub(super) fn units(self) -> i128 {
        i128::from(match self {
            Self::Inch => Length::PER_INCH,
            Self::Millimetre => Length::PER_MM,
            Self::Centimetre => 10 * Length::PER_MM,
            Self::Metre => 1000 * Length::PER_MM,
            Self::Foot => 12 * Length::PER_INCH,
        })
    }

    pub(crate) fn from_word(word: &str) -> Option<Self> {
        Some(match word {
            "in" | "ins" | "inch" | "inches" | "zoll" | "pouce" | "pouces" | "duim" | "pulgada"
            | "pulgadas" => Self::Inch,
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" | "millimètre"
            | "millimètres" | "milímetro" | "milímetros" => Self::Millimetre,
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" | "zentimeter"
            | "centimètre" | "centimètres" | "centímetro" | "centímetros" => Self::Centimetre,
            "m" | "metre" | "metres" | "meter" | "meters" => Self::Metre,
            "ft" | "foot" | "feet" => Self::Foot,
            _ => return None,
        })
    }
}

/// What is left to read.
pub(super) struct Reader<'a> {
    pub(super) ahead: &'a [Lexeme],
    pub(super) end: usize,
    pub(super) default: Unit,
}

impl<'a> Reader<'a> {
    fn sum(mut self) -> Result<i128, ReadError> {
        let mut negative = match self.peek() {
            Some(Token::Minus { .. }) => self.skip(true),
            Some(Token::Plus) => self.skip(false),
            _ => false,
        };
        let mut sum = 0_i128;
        loop {
            let term = self.term()?;
            sum = sum.saturating_add(if negative { -term } else { term });
            let Some(next) = self.ahead.first() else {
                return Ok(sum);
            };
            negative = match &next.token {
                Token::Plus => self.skip(false),
                Token::Minus { .. } => self.skip(true),
                token if begins_number(token) => return self.refuse(ReadProblem::TwoNumbers),
                _ => return self.refuse(ReadProblem::Misplaced),
            };
        }
    }

    /// A number with its unit, or feet with inches.
    fn term(&mut self) -> Result<i128, ReadError> {
        let number = self.number()?;
        let unit = self.unit()?.unwrap_or(match self.default {
            Unit::Inch => Written::Inch,
            Unit::Millimetre => Written::Millimetre,
        });
        let units = number.times(unit.units());
        if unit != Written::Foot || !self.peek().is_some_and(begins_number) {
            return Ok(units);
        }
        let at = self.place();
        let inches = self.number()?;
        if self.unit()?.is_some_and(|unit| unit != Written::Inch) {
            return Err(ReadError {
                problem: ReadProblem::TwoNumbers,
                at,
            });
        }
        if inches.over >= 12 * inches.under {
            return Err(ReadError {
                problem: ReadProblem::TooManyInches,
                at,
            });
        }
        Ok(units + inches.times(Written::Inch.units()))
    }

    fn unit(&mut self) -> Result<Option<Written>, ReadError> {
        let unit = match self.peek() {
            Some(Token::DoubleStroke) => Written::Inch,
            Some(Token::Stroke) => Written::Foot,
            Some(Token::Rounded) => return self.refuse(ReadProblem::Rounded),
            Some(Token::Strange(c)) => return self.refuse(ReadProblem::Strange(*c)),
            Some(Token::Word(word)) => match Written::from_word(word) {
                Some(unit) => unit,
                None => return self.refuse(ReadProblem::UnknownUnit(word.clone())),
            },
            _ => return Ok(None),
        };
        Ok(self.skip(Some(unit)))
    }

    /// A whole, decimal or mixed number, or a fraction.
    pub(super) fn number(&mut self) -> Result<Number, ReadError> {
        let whole = match self.ahead {
            [lexeme, next @ ..] if !next.first().is_some_and(is_bar) => match &lexeme.token {
                Token::Digits(run, Height::Plain) => run,
                _ => return self.fraction(),
            },
            _ => return self.fraction(),
        };
        if whole.contains('.') {
            return self.decimal(whole);
        }
        let over = self.whole(whole)?;
        match self.ahead {
            [hyphen, rest @ ..] if joins(hyphen, rest) => self.ahead = rest,
            ahead if begins_fraction(ahead) => {}
            _ => return Ok(Number { over, under: 1 }),
        }
        let part = self.fraction()?;
        Ok(Number {
            over: over * part.under + part.over,
            under: part.under,
        })
    }

    fn fraction(&mut self) -> Result<Number, ReadError> {
        let over = match self.peek() {
            Some(&Token::Vulgar(over, under)) => {
                return Ok(self.skip(Number {
                    over: over.into(),
                    under: under.into(),
                }));
            }
            Some(Token::OneOver) => self.skip(1),
            Some(Token::Digits(run, Height::Plain | Height::Raised)) => {
                let over = self.whole(run)?;
                if !self.ahead.first().is_some_and(is_bar) {
                    return self.refuse(ReadProblem::DenominatorMissing);
                }
                self.skip(over)
            }
            Some(Token::Rounded) => return self.refuse(ReadProblem::Rounded),
            Some(Token::Strange(c)) => return self.refuse(ReadProblem::Strange(*c)),
            _ => return self.refuse(ReadProblem::NumberMissing),
        };
        let at = self.place();
        let under = match self.peek() {
            Some(Token::Digits(run, Height::Plain | Height::Lowered)) => self.whole(run)?,
            _ => return self.refuse(ReadProblem::DenominatorMissing),
        };
        if under == 0 {
            return Err(ReadError {
                problem: ReadProblem::ZeroDenominator,
                at,
            });
        }
        Ok(Number { over, under })
    }

    /// Takes a run that holds a decimal mark.
    fn decimal(&mut self, run: &str) -> Result<Number, ReadError> {
        let (whole, part) = run.split_once('.').unwrap_or((run, ""));
        let (whole, part) = (whole.trim_start_matches('0'), part.trim_end_matches('0'));
        if run == "." {
            return self.refuse(ReadProblem::NumberMissing);
        }
        if part.contains('.') {
            return self.refuse(ReadProblem::TwoDecimalMarks);
        }
        if whole.len() > WHOLE_DIGITS || part.len() > DECIMAL_DIGITS {
            return self.refuse(ReadProblem::TooManyDigits);
        }
        let digits = part.chars().map(|_| 10_i128);
        Ok(self.skip(Number {
            over: value(whole.chars().chain(part.chars())),
            under: digits.product(),
        }))
    }

    /// Takes a run that must be a whole number.
    fn whole(&mut self, run: &str) -> Result<i128, ReadError> {
        if run.contains('.') {
            return self.refuse(ReadProblem::DecimalInFraction);
        }
        let digits = run.trim_start_matches('0');
        if digits.len() > WHOLE_DIGITS {
            return self.refuse(ReadProblem::TooManyDigits);
        }
        Ok(self.skip(value(digits.chars())))
    }

    fn peek(&self) -> Option<&'a Token> {
        self.ahead.first().map(|lexeme| &lexeme.token)
    }

    /// Passes the next token and hands on what was made of it.
    fn skip<T>(&mut self, made: T) -> T {
        self.ahead = self.ahead.get(1..).unwrap_or_default();
        made
    }

    /// Where the next token stands, or the end of the text.
    fn place(&self) -> Range<usize> {
        self.ahead
            .first()
            .map_or(self.end..self.end, |lexeme| lexeme.at.clone())
    }

    fn refuse<T>(&self, problem: ReadProblem) -> Result<T, ReadError> {
        Err(ReadError {
            problem,
            at: self.place(),
        })
    }
}

fn value(digits: impl Iterator<Item = char>) -> i128 {
    digits
        .filter_map(|digit| digit.to_digit(10))
        .fold(0, |value, digit| value * 10 + i128::from(digit))
}

fn is_bar(lexeme: &Lexeme) -> bool {
    lexeme.token == Token::Bar
}

pub(super) fn begins_number(token: &Token) -> bool {
    matches!(
        token,
        Token::Digits(_, Height::Plain | Height::Raised) | Token::Vulgar(..) | Token::OneOver
    )
}

fn begins_fraction(ahead: &[Lexeme]) -> bool {
    match ahead {
        [Lexeme { token, .. }, next @ ..] => match token {
            Token::Digits(_, Height::Plain) => next.first().is_some_and(is_bar),
            token => begins_number(token),
        },
        [] => false,
    }
}

/// Whether a dash is the hyphen of a mixed number: `3-3/4`.
fn joins(dash: &Lexeme, rest: &[Lexeme]) -> bool {
    dash.token == (Token::Minus { joins: true })
        && !dash.spaced
        && rest.first().is_some_and(|next| !next.spaced)
        && begins_fraction(rest)
}
