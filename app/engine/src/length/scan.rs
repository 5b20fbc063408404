//! Lengths where they stand among words.

use std::ops::Range;

use super::lexeme::{Height, Lexeme, Token, lexemes};
use super::read::{Number, Reader, Written, begins_number};
use super::{Length, ReadProblem, Unit};

/// A number in a text, with its unit where it has one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Figure {
    number: Number,
    /// The unit behind it.
    pub(crate) unit: Option<Written>,
    /// Whether it has a fraction bar or a fraction of one character.
    pub(crate) is_fraction: bool,
    /// Its decimal mark, where digits follow it.
    pub(crate) decimal: Option<char>,
    /// Whether a point or a comma stands right behind it.
    pub(crate) stop: Option<char>,
}

impl Figure {
    /// The length it is when its unit is this one; `None` where it is longer
    /// than a length may be.
    pub(crate) fn length(self, unit: Written) -> Option<Length> {
        let units = self.number.times(unit.units());
        (units.abs() <= Length::LIMIT.units().into()).then(|| Length::saturated(units))
    }

    /// The number itself, where it is whole.
    pub(crate) fn whole(self) -> Option<u32> {
        let whole = self.number.under == 1 && !self.is_fraction && self.decimal.is_none();
        u32::try_from(self.number.over).ok().filter(|_| whole)
    }
}

/// Why digits that stand in a text are no length.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Odd {
    /// They can't be read as one.
    NoLength(ReadProblem),
    /// They look like a date.
    Date,
    /// They are a fraction of one or more, with no whole number before it.
    Improper,
    /// They measure an area.
    Area,
}

/// Something that stands in a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Bit {
    /// A number.
    Number(Figure),
    /// Digits that are no length, and why.
    Odd(Odd),
    /// A word in lower case, or a name such as A4.
    Word(String),
    /// Anything else.
    Mark(char),
}

/// A bit and where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Scanned {
    /// What it is.
    pub(crate) bit: Bit,
    /// Where, in bytes from the start of the text.
    pub(crate) at: Range<usize>,
}

/// Everything that stands in a text, in order.
pub(crate) fn scan(text: &str) -> Vec<Scanned> {
    let lexemes = stops_apart(lexemes(text), text);
    let bytes: Vec<usize> = text.char_indices().map(|(at, _)| at).collect();
    let byte = |index: usize| bytes.get(index).copied().unwrap_or(text.len());
    let mut found = Vec::new();
    let mut ahead = lexemes.as_slice();
    while let Some(first) = ahead.first() {
        let (bit, used) = next(ahead, text, &byte);
        let last = ahead.get(used.saturating_sub(1)).unwrap_or(first);
        let at = byte(first.at.start)..byte(last.at.end);
        found.push(Scanned { bit, at });
        ahead = ahead.get(used..).unwrap_or_default();
    }
    found
}

/// Parts the point or comma behind a number from it: a number that is followed
/// by no more digits is not a decimal one. Numbers in a row with a comma between
/// each two, as in 3,6,9, are parted too, and so are a unit and the x behind it.
fn stops_apart(lexemes: Vec<Lexeme>, text: &str) -> Vec<Lexeme> {
    let characters: Vec<char> = text.chars().collect();
    let mut apart = Vec::with_capacity(lexemes.len());
    for mut lexeme in lexemes {
        let typed = characters.get(lexeme.at.clone()).unwrap_or_default();
        if matches!(lexeme.token, Token::Digits(_, Height::Plain)) && is_row(typed) {
            apart.extend(row(&lexeme, typed));
            continue;
        }
        if let Token::Word(word) = &lexeme.token
            && let Some(parts) = unit_and_by(word, &lexeme)
        {
            apart.extend(parts);
            continue;
        }
        let run = match &mut lexeme.token {
            Token::Digits(run, Height::Plain) if run.len() > 1 => run,
            _ => {
                apart.push(lexeme);
                continue;
            }
        };
        let whole = run.trim_end_matches('.').len();
        let stops = run.len() - whole;
        run.truncate(whole);
        let end = lexeme.at.end - stops;
        let stop = Lexeme {
            token: Token::Digits(".".to_owned(), Height::Plain),
            at: end..lexeme.at.end,
            spaced: false,
        };
        lexeme.at.end = end;
        if whole > 0 {
            apart.push(lexeme);
        }
        if stops > 0 {
            apart.push(stop);
        }
    }
    apart
}

/// The unit and the x of 105mmx148mm, each by itself.
fn unit_and_by(word: &str, lexeme: &Lexeme) -> Option<[Lexeme; 2]> {
    let unit = word.strip_suffix('x')?;
    Written::from_word(unit)?;
    let between = lexeme.at.start + unit.chars().count();
    let part = |word: &str, at: Range<usize>, spaced: bool| Lexeme {
        token: Token::Word(word.to_owned()),
        at,
        spaced,
    };
    Some([
        part(unit, lexeme.at.start..between, lexeme.spaced),
        part("x", between..lexeme.at.end, false),
    ])
}

/// Whether these are whole numbers with commas between them, three or more.
fn is_row(typed: &[char]) -> bool {
    let numbers = typed.split(|it| *it == ',');
    numbers.clone().count() > 2
        && numbers
            .into_iter()
            .all(|number| !number.is_empty() && number.iter().all(char::is_ascii_digit))
}

/// The numbers of a row and the commas between them, each by itself.
fn row(lexeme: &Lexeme, typed: &[char]) -> Vec<Lexeme> {
    let mut parts: Vec<Lexeme> = Vec::new();
    for (index, character) in (lexeme.at.start..).zip(typed) {
        let is_comma = *character == ',';
        let digit = if is_comma { '.' } else { *character };
        match parts.last_mut() {
            Some(Lexeme {
                token: Token::Digits(run, _),
                at,
                ..
            }) if !is_comma && run != "." => {
                run.push(digit);
                at.end = index + 1;
            }
            _ => parts.push(Lexeme {
                token: Token::Digits(digit.to_string(), Height::Plain),
                at: index..index + 1,
                spaced: lexeme.spaced && parts.is_empty(),
            }),
        }
    }
    parts
}

/// What stands first, and how many lexemes it takes.
fn next(ahead: &[Lexeme], text: &str, byte: &impl Fn(usize) -> usize) -> (Bit, usize) {
    let Some(first) = ahead.first() else {
        return (Bit::Mark(' '), 1);
    };
    let rest = ahead.get(1..).unwrap_or_default();
    match &first.token {
        Token::Word(word) => match rest.first() {
            // A name such as A4; an x before a number is no part of one, nor is
            // what says how a number is measured.
            Some(Lexeme {
                token: Token::Digits(digits, Height::Plain),
                spaced: false,
                ..
            }) if !matches!(
                word.as_str(),
                "x" | "by" | "mal" | "par" | "op" | "por" | "ø" | "w" | "h"
            ) && Written::from_word(word).is_none()
                && !digits.starts_with('.') =>
            {
                (
                    Bit::Word(format!("{word}{}", digits.trim_end_matches('.'))),
                    2,
                )
            }
            _ => (Bit::Word(word.clone()), 1),
        },
        token if begins_number(token) => number(ahead, text, byte),
        Token::Rounded => match rest.first() {
            Some(next) if !next.spaced && begins_number(&next.token) => {
                let (_, used) = number(rest, text, byte);
                (Bit::Odd(Odd::NoLength(ReadProblem::Rounded)), 1 + used)
            }
            _ => (Bit::Mark(mark(ahead, text, byte).unwrap_or(' ')), 1),
        },
        _ => (Bit::Mark(mark(ahead, text, byte).unwrap_or(' ')), 1),
    }
}

fn number(ahead: &[Lexeme], text: &str, byte: &impl Fn(usize) -> usize) -> (Bit, usize) {
    let mut reader = Reader {
        ahead,
        end: 0,
        default: Unit::Millimetre,
    };
    let number = match reader.number() {
        Ok(number) => number,
        Err(why) => {
            let stop = mark(ahead, text, byte).filter(|it| matches!(it, '.' | ','));
            let alone = matches!(ahead, [first, ..] if first.token
                == Token::Digits(".".to_owned(), Height::Plain));
            let bit = match stop.filter(|_| alone) {
                Some(stop) => Bit::Mark(stop),
                None => Bit::Odd(Odd::NoLength(why.problem)),
            };
            return (bit, 1);
        }
    };
    let mut used = ahead.len() - reader.ahead.len();
    let taken = ahead.get(..used).unwrap_or_default();
    let bars = taken.iter().filter(|it| it.token == Token::Bar).count();
    if chained(reader.ahead) {
        while chained(ahead.get(used..).unwrap_or_default()) {
            used += 2;
        }
        return (Bit::Odd(Odd::Date), used);
    }
    if bars == 1 && used == 3 && number.over >= number.under {
        return (Bit::Odd(Odd::Improper), used);
    }
    if matches!(reader.ahead, [tick, ..] if !tick.spaced && tick.token == Token::Rounded) {
        return (Bit::Odd(Odd::NoLength(ReadProblem::Rounded)), used + 1);
    }
    let is_fraction = taken
        .iter()
        .any(|it| matches!(it.token, Token::Bar | Token::Vulgar(..) | Token::OneOver));
    let written = taken
        .last()
        .and_then(|last| text.get(byte(last.at.start)..byte(last.at.end)));
    let stop = mark(reader.ahead, text, byte)
        .filter(|_| matches!(reader.ahead, [next, ..] if !next.spaced));
    let mut figure = Figure {
        number,
        unit: None,
        is_fraction,
        decimal: written.and_then(|it| it.chars().find(|it| matches!(it, '.' | ','))),
        stop: stop.filter(|it| matches!(it, '.' | ',')),
    };
    used += unit(&mut figure, reader.ahead);
    let squared = matches!(ahead.get(used), Some(raised) if !raised.spaced
        && raised.token == Token::Digits("2".to_owned(), Height::Raised));
    if squared && figure.unit.is_some() {
        return (Bit::Odd(Odd::Area), used + 1);
    }
    (Bit::Number(figure), used)
}

/// The character that stands first.
fn mark(ahead: &[Lexeme], text: &str, byte: &impl Fn(usize) -> usize) -> Option<char> {
    let at = byte(ahead.first()?.at.start);
    text.get(at..)?.chars().next()
}

/// Whether a bar and a number follow without a gap, as in a date.
fn chained(ahead: &[Lexeme]) -> bool {
    matches!(ahead, [bar, number, ..] if bar.token == Token::Bar && !bar.spaced
        && matches!(number.token, Token::Digits(..)))
}

/// Takes the unit behind a number, and the inches behind feet; returns how many
/// lexemes it takes.
fn unit(figure: &mut Figure, ahead: &[Lexeme]) -> usize {
    // As in 6-inch.
    let hyphen = matches!(ahead, [hyphen, word, ..] if !hyphen.spaced && !word.spaced
        && hyphen.token == Token::Minus { joins: true } && matches!(word.token, Token::Word(_)));
    let skipped = usize::from(hyphen);
    let [first, rest @ ..] = ahead.get(skipped..).unwrap_or_default() else {
        return 0;
    };
    figure.unit = match &first.token {
        Token::DoubleStroke => Some(Written::Inch),
        Token::Stroke => Some(Written::Foot).filter(|_| {
            !first.spaced
                && !matches!(rest.first(), Some(it) if !it.spaced && matches!(it.token, Token::Word(_)))
        }),
        Token::Word(word) => Written::from_word(word),
        _ => None,
    };
    if figure.unit.is_none() {
        return 0;
    }
    if figure.unit == Some(Written::Foot) && rest.first().is_some_and(|it| begins_number(&it.token))
    {
        let mut reader = Reader {
            ahead: rest,
            end: 0,
            default: Unit::Inch,
        };
        let inches = reader.number().ok();
        let used = rest.len() - reader.ahead.len();
        if let (Some(inches), Some(Token::DoubleStroke)) =
            (inches, reader.ahead.first().map(|it| &it.token))
        {
            let feet = figure.number;
            figure.number = Number {
                over: (12 * feet.over)
                    .saturating_mul(inches.under)
                    .saturating_add(inches.over.saturating_mul(feet.under)),
                under: feet.under.saturating_mul(inches.under),
            };
            figure.unit = Some(Written::Inch);
            return skipped + 1 + used + 1;
        }
    }
    skipped + 1
}
