//! A line as numbers, words with what they tell, and marks.

use std::ops::Range;

use super::sense::{Aside, Kind, Language, Sense, sense};
use crate::length::{Bit, Figure, Written, scan};

/// What stands at a place of a line.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Token {
    /// A number that may be a measure.
    Number(Figure),
    /// A number that is none, and what it is.
    Aside(Aside),
    /// Digits that can't be read, and why.
    Odd(String),
    /// A word, and what it tells.
    Word(String, Option<Sense>),
    /// Anything else.
    Mark(char),
}

/// A token and where it stands, in bytes from the start of its line.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Placed {
    pub(super) token: Token,
    pub(super) at: Range<usize>,
}

impl Placed {
    /// What the word here tells.
    pub(super) fn sense(&self) -> Option<Sense> {
        match &self.token {
            Token::Word(_, sense) => *sense,
            Token::Mark('×' | '*') => Some(Sense::By),
            Token::Mark('@') => Some(Sense::At),
            Token::Mark('&' | '+') => Some(Sense::And),
            _ => None,
        }
    }

    /// The number here that may be a measure.
    pub(super) fn figure(&self) -> Option<Figure> {
        match self.token {
            Token::Number(figure) => Some(figure),
            _ => None,
        }
    }
}

/// A line taken apart, and the languages its words belong to.
pub(super) fn tokens(line: &str) -> (Vec<Placed>, Vec<Language>) {
    let mut languages = Vec::new();
    let mut placed = Vec::new();
    for found in scan(line) {
        let token = match found.bit {
            Bit::Number(figure) => Token::Number(figure),
            Bit::Odd(why) => Token::Odd(why),
            Bit::Mark(mark) => Token::Mark(mark),
            Bit::Word(word) => {
                let known = sense(&word);
                // Short words belong to several languages.
                languages.extend(
                    known
                        .filter(|_| word.chars().count() > 2)
                        .map(|(_, language)| language),
                );
                Token::Word(word, known.map(|(sense, _)| sense))
            }
        };
        placed.push(Placed {
            token,
            at: found.at,
        });
    }
    prepositions(line, &mut placed);
    for place in 0..placed.len() {
        if let Some(aside) = aside(&placed, place)
            && let Some(found) = placed.get_mut(place)
        {
            found.token = Token::Aside(aside);
        }
    }
    (placed, languages)
}

/// "in" behind a number is no unit before "half" or "two".
fn prepositions(line: &str, placed: &mut [Placed]) {
    for place in 0..placed.len() {
        let next = placed.get(place + 1).and_then(Placed::sense);
        let halves = matches!(next, Some(Sense::Half | Sense::Many(_)));
        if let Some(Placed {
            token: Token::Number(figure),
            at,
        }) = placed.get_mut(place)
            && halves
            && line.get(at.clone()).is_some_and(|it| it.ends_with(" in"))
        {
            figure.unit = None;
            at.end = at.end.saturating_sub(3);
        }
    }
}

/// What a number is where it is no measure.
fn aside(placed: &[Placed], place: usize) -> Option<Aside> {
    let here = placed.get(place)?;
    let figure = here.figure()?;
    let before = place.checked_sub(1).and_then(|place| placed.get(place));
    let after = placed.get(place + 1);
    let mark = |it: Option<&Placed>| match it.map(|it| &it.token) {
        Some(Token::Mark(mark)) => Some(*mark),
        _ => None,
    };
    let is_currency = |mark: Option<char>| matches!(mark, Some('$' | '€' | '£' | '¥'));
    if is_currency(mark(before)) || (figure.unit.is_none() && is_currency(mark(after))) {
        return Some(Aside::Price);
    }
    if figure.unit.is_some() {
        return None;
    }
    match mark(after) {
        Some('%' | '°' | 'º') => return Some(Aside::Other),
        Some(':') if place + 2 < placed.len() => {
            let digits = placed
                .get(place + 2)
                .is_some_and(|it| it.figure().is_some() && it.at.start == placed[place + 1].at.end);
            if digits && here.at.end == placed[place + 1].at.start {
                return Some(Aside::Time);
            }
        }
        _ => {}
    }
    match mark(before) {
        Some('#' | '№' | '°') => return Some(Aside::Numbering),
        Some(':') if matches!(placed.get(place.wrapping_sub(2)), Some(it) if it.token == Token::Aside(Aside::Time)) =>
        {
            return Some(Aside::Time);
        }
        _ => {}
    }
    if figure.stop.is_none()
        && let Some(Sense::Behind(aside)) = after.and_then(Placed::sense)
    {
        return Some(aside);
    }
    match before.and_then(Placed::sense) {
        Some(Sense::Before(aside)) => return Some(aside),
        Some(Sense::Behind(Aside::Date)) => return Some(Aside::Date),
        _ => {}
    }
    let whole = figure.whole()?;
    let before_sense = before.and_then(Placed::sense);
    if (1900..=2100).contains(&whole) && before_sense != Some(Sense::By) {
        return Some(Aside::Date);
    }
    match after.and_then(Placed::sense) {
        Some(Sense::Sheet | Sense::Envelope) if before_sense != Some(Sense::By) => {
            return Some(Aside::Count);
        }
        _ => {}
    }
    // The number of a line: 1. or 1) or (1) before words.
    let opens = place == 0 || (place == 1 && matches!(mark(before), Some('(' | '[')));
    let closed = figure.stop == Some('.') || matches!(mark(after), Some(')' | ']' | ':'));
    (opens && closed && after.is_some() && whole < 100).then_some(Aside::Numbering)
}

/// What is in a size before it is known what its numbers measure.
pub(super) fn written_unit(figure: Figure) -> Option<Written> {
    figure.unit.or(figure.is_fraction.then_some(Written::Inch))
}

/// Whether a word may be the name of a piece: a letter or two.
pub(super) fn is_label(placed: &[Placed], place: usize) -> bool {
    matches!(
        (placed.get(place).map(|it| &it.token), placed.get(place + 1).map(|it| &it.token)),
        (Some(Token::Word(word, _)), Some(Token::Mark(':'))) if word.chars().count() <= 2
    )
}

/// Whether a kind of piece outweighs another word for the same piece.
pub(super) fn firmer(now: Option<Kind>, other: Kind) -> Kind {
    match (now, other) {
        (Some(kind), Kind::Card | Kind::Strip) if kind != Kind::Card => kind,
        (Some(Kind::Base), _) => Kind::Base,
        _ => other,
    }
}
