//! A line as numbers, words with what they tell, and marks.

use std::ops::Range;

use super::lexicon::{axis, sense};
use super::sense::{Aside, Axis, Form, Kind, Language, Sense};
use crate::length::{Bit, Figure, Odd, Written, scan};

/// What stands at an index of a line.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Token {
    /// A number that may be a measure.
    Number(Figure),
    /// A number that is no measure, and what it is.
    Aside(Aside, Figure),
    /// Digits that can't be read, and why.
    Odd(Odd),
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
    /// What a number here measures, where a word beside it says so.
    pub(super) axis: Option<Axis>,
}

impl Placed {
    /// What the word here tells.
    pub(super) fn sense(&self) -> Option<Sense> {
        match &self.token {
            Token::Word(_, sense) => *sense,
            Token::Mark('×' | '*' | '✕' | '✖' | '⨯') => Some(Sense::By),
            Token::Mark('⌀' | '∅') => Some(Sense::Shape(Form::Round)),
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

    /// The word here.
    fn word(&self) -> Option<&str> {
        match &self.token {
            Token::Word(word, _) => Some(word),
            _ => None,
        }
    }

    /// The mark here.
    pub(super) fn mark(&self) -> Option<char> {
        match self.token {
            Token::Mark(mark) => Some(mark),
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
            Bit::Word(word) => Token::Word(word, None),
        };
        placed.push(Placed {
            token,
            at: found.at,
            axis: None,
        });
    }
    let mut placed = joined(placed);
    for found in &mut placed {
        if let Token::Word(word, told) = &mut found.token
            && let Some((sense, language)) = sense(word)
        {
            *told = Some(sense);
            // Short words belong to several languages.
            languages.extend((word.chars().count() > 2).then_some(language));
        }
    }
    all_round(&mut placed);
    prepositions(line, &mut placed);
    areas(&mut placed);
    axes(&mut placed);
    for index in 0..placed.len() {
        if let Some(aside) = aside(&placed, index)
            && let Some(found) = placed.get_mut(index)
            && let Some(figure) = found.figure()
        {
            found.token = Token::Aside(aside, figure);
        }
    }
    (placed, languages)
}

/// Words that belong together, such as passe-partout, z-fold or gate fold, as
/// one.
fn joined(placed: Vec<Placed>) -> Vec<Placed> {
    let mut whole: Vec<Placed> = Vec::new();
    for next in placed {
        let hyphened = matches!(whole.last(), Some(it) if it.mark() == Some('-'));
        let first = whole.len().checked_sub(1 + usize::from(hyphened));
        let together = first.and_then(|first| {
            let before = whole.get(first)?;
            let both = format!("{}-{}", before.word()?, next.word()?);
            sense(&both).map(|_| (first, both))
        });
        match together {
            Some((first, both)) => {
                whole.truncate(first + 1);
                if let Some(before) = whole.last_mut() {
                    before.token = Token::Word(both, None);
                    before.at.end = next.at.end;
                }
            }
            None => whole.push(next),
        }
    }
    whole
}

/// "all round" names no shape.
fn all_round(placed: &mut [Placed]) {
    for index in 1..placed.len() {
        let all = placed
            .get(index - 1)
            .is_some_and(|it| it.word() == Some("all"));
        if let Some(Placed {
            token: Token::Word(_, told @ Some(Sense::Shape(Form::Round))),
            ..
        }) = placed.get_mut(index)
            && all
        {
            *told = Some(Sense::Filler);
        }
    }
}

/// "3 sq in" is no length.
fn areas(placed: &mut [Placed]) {
    for index in 0..placed.len() {
        let squared = placed.get(index + 1).and_then(Placed::sense)
            == Some(Sense::Shape(Form::Square))
            && placed
                .get(index + 2)
                .and_then(Placed::word)
                .is_some_and(|word| Written::from_word(word).is_some());
        if squared
            && let Some(found) = placed.get_mut(index)
            && found.figure().is_some()
        {
            found.token = Token::Odd(Odd::Area);
        }
    }
}

/// Gives numbers what the words beside them say they measure, as in
/// 4 1/4 W x 5 1/2 H, and takes these words away. A size with two such words
/// needs nothing between its numbers.
fn axes(placed: &mut Vec<Placed>) {
    let behind = Beside::all(placed, |index| index.checked_sub(1));
    let before = Beside::all(placed, |index| {
        let next = placed.get(index + 1).and_then(Placed::mark);
        Some(index + 1 + usize::from(matches!(next, Some(':' | '='))))
    });
    let found = if before.len() > behind.len() {
        before
    } else {
        behind
    };
    let in_size = |beside: &Beside| {
        let by = |index: Option<usize>| {
            index
                .and_then(|index| placed.get(index))
                .and_then(Placed::sense)
                == Some(Sense::By)
        };
        let ends = [beside.number, beside.word];
        by(ends.iter().min().and_then(|first| first.checked_sub(1)))
            || by(ends.iter().max().map(|last| last + 1))
    };
    if found.len() < 2 && !found.iter().any(in_size) {
        return;
    }
    for beside in &found {
        if let Some(number) = placed.get_mut(beside.number) {
            number.axis = Some(beside.axis);
        }
    }
    let words: Vec<usize> = found.iter().map(|beside| beside.word).collect();
    let mut index = 0;
    placed.retain(|_| {
        index += 1;
        !words.contains(&(index - 1))
    });
    for index in 1..placed.len() {
        pair(placed, index);
    }
}

/// A word for a direction and the number it stands beside, by their indices.
struct Beside {
    word: usize,
    number: usize,
    axis: Axis,
}

impl Beside {
    fn all(placed: &[Placed], number: impl Fn(usize) -> Option<usize>) -> Vec<Self> {
        let words = placed.iter().enumerate();
        words
            .filter_map(|(word, it)| {
                let axis = axis(it.word()?)?;
                let number = number(word)?;
                placed.get(number)?.figure()?;
                Some(Self { word, number, axis })
            })
            .collect()
    }
}

/// Puts "by" between two numbers beside each other that measure different
/// directions.
fn pair(placed: &mut Vec<Placed>, index: usize) {
    let between = placed
        .get(index)
        .filter(|it| matches!(it.mark(), Some(',' | ';' | '/')) || it.sense() == Some(Sense::And));
    let before = index.checked_sub(1).and_then(|before| placed.get(before));
    let after = placed.get(index + usize::from(between.is_some()));
    let (Some(before), Some(after)) = (before, after) else {
        return;
    };
    let (Some(a), Some(b)) = (before.axis, after.axis) else {
        return;
    };
    if a == b {
        return;
    }
    let by = Placed {
        token: Token::Mark('×'),
        at: before.at.end..before.at.end,
        axis: None,
    };
    if between.is_some() {
        if let Some(between) = placed.get_mut(index) {
            *between = by;
        }
    } else {
        placed.insert(index, by);
    }
}

/// "in" behind a number is no unit before "half" or "two".
fn prepositions(line: &str, placed: &mut [Placed]) {
    for index in 0..placed.len() {
        let next = placed.get(index + 1).and_then(Placed::sense);
        let halves = matches!(next, Some(Sense::Half | Sense::Many(_)));
        if let Some(Placed {
            token: Token::Number(figure),
            at,
            ..
        }) = placed.get_mut(index)
            && halves
            && line.get(at.clone()).is_some_and(|it| it.ends_with(" in"))
        {
            figure.unit = None;
            at.end = at.end.saturating_sub(3);
        }
    }
}

/// What a number is where it is no measure.
fn aside(placed: &[Placed], index: usize) -> Option<Aside> {
    let here = placed.get(index)?;
    let figure = here.figure()?;
    let before = index.checked_sub(1).and_then(|index| placed.get(index));
    let after = placed.get(index + 1);
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
        Some(':') if index + 2 < placed.len() => {
            let digits = placed
                .get(index + 2)
                .is_some_and(|it| it.figure().is_some() && it.at.start == placed[index + 1].at.end);
            if digits && here.at.end == placed[index + 1].at.start {
                return Some(Aside::Time);
            }
        }
        _ => {}
    }
    match mark(before) {
        Some('#' | '№' | '°') => return Some(Aside::Numbering),
        Some(':') if matches!(placed.get(index.wrapping_sub(2)), Some(it) if matches!(it.token, Token::Aside(Aside::Time, _))) =>
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
    let opens = index == 0 || (index == 1 && matches!(mark(before), Some('(' | '[')));
    let closed = figure.stop == Some('.') || matches!(mark(after), Some(')' | ']' | ':'));
    (opens && closed && after.is_some() && whole < 100).then_some(Aside::Numbering)
}

/// What is in a size before it is known what its numbers measure.
pub(super) fn written_unit(figure: Figure) -> Option<Written> {
    figure.unit.or(figure.is_fraction.then_some(Written::Inch))
}

/// Whether a word may be the name of a piece: a letter or two.
pub(super) fn is_label(placed: &[Placed], index: usize) -> bool {
    matches!(
        (placed.get(index).map(|it| &it.token), placed.get(index + 1).map(|it| &it.token)),
        (Some(Token::Word(word, _)), Some(Token::Mark(':'))) if word.chars().count() <= 2
    )
}

/// Whether a kind of piece outweighs another word for the same piece.
pub(super) fn firmer(now: Option<Kind>, other: Kind) -> Kind {
    match (now, other) {
        (Some(kind), Kind::Card | Kind::Strip) if kind != Kind::Card => kind,
        // A focal mat is seen first too.
        (Some(kind @ (Kind::Base | Kind::Focal)), _) => kind,
        _ => other,
    }
}
