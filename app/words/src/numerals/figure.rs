//! Finds in a text the numbers that ears may need in words.

use std::ops::Range;

use foldwright_engine::length::Unit;

/// A number as it stands in a text, with its unit where it has one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Amount {
    /// Whether it is below zero.
    pub negative: bool,
    /// How near it is to what is meant.
    pub nearly: Nearly,
    /// The whole number; `None` where there is only a fraction.
    pub whole: Option<u32>,
    /// What stands behind it.
    pub part: Part,
    /// The unit.
    pub unit: Option<Unit>,
}

/// How near a number is to what it stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Nearly {
    /// It is that.
    Exactly,
    /// What is meant is a little more.
    Over,
    /// What is meant is a little less.
    Under,
    /// What is meant lies between it and nothing.
    LessThan,
}

/// What stands behind the whole number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Part {
    /// Nothing.
    None,
    /// A fraction below one.
    Fraction(u32, u32),
    /// Decimals, digit by digit.
    Decimals(Vec<u32>),
}

impl Amount {
    /// Whether it is just one of its unit.
    pub(crate) fn is_one(&self) -> bool {
        self.whole == Some(1) && self.part == Part::None
    }

    /// Whether it is a fraction of one of its unit.
    pub(crate) fn is_fraction(&self) -> bool {
        self.whole.is_none()
    }
}

const RAISED: &str = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const LOWERED: &str = "₀₁₂₃₄₅₆₇₈₉";
const VULGAR: [(char, u32, u32); 7] = [
    ('¼', 1, 4),
    ('½', 1, 2),
    ('¾', 3, 4),
    ('⅛', 1, 8),
    ('⅜', 3, 8),
    ('⅝', 5, 8),
    ('⅞', 7, 8),
];

/// A number, and where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Figure {
    /// Where, in bytes.
    pub(crate) at: Range<usize>,
    pub(crate) amount: Amount,
    /// Whether screen readers spell it: it has a fraction of several characters, or a
    /// sign that it is rounded.
    pub(crate) is_spelled: bool,
}

/// The numbers of a text that have a unit, a fraction or decimals, or a sign that
/// they are rounded.
pub(crate) fn figures(text: &str) -> Vec<Figure> {
    let mut found = Vec::new();
    let mut rest = text;
    let mut inside = false;
    while let Some(first) = rest.chars().next() {
        let at = text.len() - rest.len();
        let begins = !inside && !first.is_alphabetic();
        if let Some((amount, is_spelled, after)) = begins.then(|| amount(rest)).flatten() {
            found.push(Figure {
                at: at..text.len() - after.len(),
                amount,
                is_spelled,
            });
            rest = after;
            inside = false;
        } else {
            // What goes on a word or a number begins none.
            inside = first.is_alphanumeric();
            rest = rest.get(first.len_utf8()..).unwrap_or_default();
        }
    }
    found
}

/// The number a text begins with, where ears may need words for it, whether screen
/// readers spell it, and what follows it.
fn amount(text: &str) -> Option<(Amount, bool, &str)> {
    let (negative, rest) = taken(text, "−");
    let (is_less, rest) = taken(rest, "<");
    let (whole, rest) = digits(rest, "0123456789");
    let (part, rest, of_several) = part(rest, whole.is_some());
    if whole.is_none() && part == Part::None {
        return None;
    }
    let (nearly, rest) = match rest.chars().next() {
        _ if is_less => (Nearly::LessThan, rest),
        Some(tick @ '⁺') => (Nearly::Over, rest.get(tick.len_utf8()..)?),
        Some(tick @ '⁻') => (Nearly::Under, rest.get(tick.len_utf8()..)?),
        _ => (Nearly::Exactly, rest),
    };
    let is_spelled = of_several || nearly != Nearly::Exactly;
    let (unit, rest) = unit(rest);
    if !is_spelled && unit.is_none() && part == Part::None {
        return None;
    }
    let amount = Amount {
        negative,
        nearly,
        whole,
        part,
        unit,
    };
    Some((amount, is_spelled, rest))
}

/// A fraction or decimals, what follows, and whether it takes several characters
/// that belong together.
fn part(text: &str, after_number: bool) -> (Part, &str, bool) {
    let first = text.chars().next();
    if let Some(&(character, over, under)) = VULGAR
        .iter()
        .find(|(character, ..)| Some(*character) == first)
    {
        let rest = text.get(character.len_utf8()..).unwrap_or_default();
        return (Part::Fraction(over, under), rest, false);
    }
    if let (Some(over), rest) = digits(text, RAISED)
        && let (true, rest) = taken(rest, "\u{2044}")
        && let (Some(under), rest) = digits(rest, LOWERED)
    {
        return (Part::Fraction(over, under), rest, true);
    }
    if let Some(mark @ ('.' | ',')) = first
        && after_number
    {
        let rest = text.get(mark.len_utf8()..).unwrap_or_default();
        let end = rest.find(|it: char| !it.is_ascii_digit());
        let (decimals, after) = rest.split_at(end.unwrap_or(rest.len()));
        if !decimals.is_empty() {
            let decimals = decimals.chars().filter_map(|it| it.to_digit(10));
            return (Part::Decimals(decimals.collect()), after, false);
        }
    }
    (Part::None, text, false)
}

/// Whether a text begins so, and what follows.
fn taken<'a>(text: &'a str, beginning: &str) -> (bool, &'a str) {
    match text.strip_prefix(beginning) {
        Some(rest) => (true, rest),
        None => (false, text),
    }
}

/// The number that a text begins with, of these ten digits.
fn digits<'a>(text: &'a str, set: &str) -> (Option<u32>, &'a str) {
    let mut value: Option<u32> = None;
    let mut rest = text;
    while let Some(first) = rest.chars().next()
        && let Some((digit, _)) = (0_u32..).zip(set.chars()).find(|&(_, it)| it == first)
    {
        let Some(more) = value
            .unwrap_or(0)
            .checked_mul(10)
            .and_then(|it| it.checked_add(digit))
        else {
            return (None, text);
        };
        value = Some(more);
        rest = rest.get(first.len_utf8()..).unwrap_or_default();
    }
    (value, rest)
}

fn unit(text: &str) -> (Option<Unit>, &str) {
    for unit in [Unit::Inch, Unit::Millimetre] {
        let written = format!("\u{a0}{}", unit.words());
        if let Some(rest) = text.strip_prefix(&written)
            && !rest.starts_with(char::is_alphanumeric)
        {
            return (Some(unit), rest);
        }
    }
    (None, text)
}
