//! Splits a typed length into digits, fractions, signs and units.

use std::ops::Range;

/// How the digits of a run are set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Height {
    Plain,
    Raised,
    Lowered,
}

/// One meaningful bit of the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Token {
    /// A run of decimal digits, brought to plain ones. A plain run may hold
    /// decimal marks, brought to points.
    Digits(String, Height),
    /// A fraction in one character.
    Vulgar(u8, u8),
    /// `⅟`, which waits for its denominator.
    OneOver,
    /// A fraction bar.
    Bar,
    Plus,
    /// A minus; one that `joins` may be the hyphen of a mixed number.
    Minus {
        joins: bool,
    },
    /// A run of letters in lower case, without the full stop of a short form.
    Word(String),
    /// The double stroke of inches.
    DoubleStroke,
    /// The single stroke of feet.
    Stroke,
    /// What is written by a number that is rounded: a raised plus or minus behind
    /// it, or "less than" before it.
    Rounded,
    /// Anything that has no place in a length.
    Strange(char),
}

/// A token and where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Lexeme {
    pub(super) token: Token,
    /// Counted in characters from the start of the text.
    pub(super) at: Range<usize>,
    /// Whether space stands before it.
    pub(super) spaced: bool,
}

pub(super) fn lexemes(text: &str) -> Vec<Lexeme> {
    let mut found: Vec<Lexeme> = Vec::new();
    let mut spaced = false;
    for (index, c) in text.chars().enumerate() {
        if is_space(c) {
            spaced = true;
            continue;
        }
        let at = index..index + 1;
        let before = found.last_mut().filter(|_| !spaced);
        if let Some(last) = before
            && grows(&mut last.token, c)
        {
            last.at.end = at.end;
        } else {
            found.push(Lexeme {
                token: token(c),
                at,
                spaced,
            });
        }
        spaced = false;
    }
    found
}

/// Adds a character to the token before it, if it belongs there.
fn grows(last: &mut Token, c: char) -> bool {
    match (last, token(c)) {
        (Token::Digits(run, height), Token::Digits(digit, next)) if *height == next => {
            run.push_str(&digit);
            true
        }
        (Token::Word(run), Token::Word(letter)) => {
            run.push_str(&letter);
            true
        }
        // The full stop of a short form, as in "3 in."
        (Token::Word(_), _) => c == '.',
        (last @ Token::Stroke, Token::Stroke) => {
            *last = Token::DoubleStroke;
            true
        }
        _ => false,
    }
}

/// White space, and characters that are there but cannot be seen.
fn is_space(c: char) -> bool {
    c.is_whitespace() || matches!(c, '\u{200B}'..='\u{200F}' | '\u{2060}' | '\u{FEFF}')
}

fn token(c: char) -> Token {
    if let Some((digit, height)) = digit(c) {
        return Token::Digits(digit.into(), height);
    }
    if let Some((over, under)) = vulgar(c) {
        return Token::Vulgar(over, under);
    }
    match c {
        '⅟' => Token::OneOver,
        '/' | FRACTION_SLASH | '\u{2215}' | '\u{FF0F}' => Token::Bar,
        '.' | ',' => Token::Digits('.'.into(), Height::Plain),
        '+' | '\u{FF0B}' => Token::Plus,
        // The minus sign proper is never a hyphen.
        '\u{2212}' => Token::Minus { joins: false },
        '-' | '\u{2010}'..='\u{2015}' | '\u{FF0D}' => Token::Minus { joins: true },
        '"' | '″' | '“' | '”' | '„' | '\u{FF02}' => Token::DoubleStroke,
        '\'' | '′' | '‘' | '’' => Token::Stroke,
        OVER | UNDER | '<' => Token::Rounded,
        letter if letter.is_alphabetic() => Token::Word(letter.to_lowercase().collect()),
        other => Token::Strange(other),
    }
}

/// The bar of a fraction of raised and lowered figures.
pub(super) const FRACTION_SLASH: char = '\u{2044}';
/// The tick behind a number that is a little less than the length.
pub(super) const OVER: char = '⁺';
/// The tick behind a number that is a little more than the length.
pub(super) const UNDER: char = '⁻';

const RAISED: &str = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const LOWERED: &str = "₀₁₂₃₄₅₆₇₈₉";

fn digit(c: char) -> Option<(char, Height)> {
    let within = |digits: &str| ('0'..='9').zip(digits.chars()).find(|&(_, set)| set == c);
    if c.is_ascii_digit() {
        return Some((c, Height::Plain));
    }
    within(RAISED)
        .map(|(plain, _)| (plain, Height::Raised))
        .or_else(|| within(LOWERED).map(|(plain, _)| (plain, Height::Lowered)))
}

/// A plain digit at a height; anything else as it is.
pub(super) fn at_height(digit: char, height: Height) -> char {
    let set = match height {
        Height::Plain => return digit,
        Height::Raised => RAISED,
        Height::Lowered => LOWERED,
    };
    let mut digits = ('0'..='9').zip(set.chars());
    let found = digits.find(|&(plain, _)| plain == digit);
    found.map_or(digit, |(_, set)| set)
}

/// The fractions Unicode has characters for.
const VULGAR: [(char, u8, u8); 19] = [
    ('½', 1, 2),
    ('⅓', 1, 3),
    ('⅔', 2, 3),
    ('¼', 1, 4),
    ('¾', 3, 4),
    ('⅕', 1, 5),
    ('⅖', 2, 5),
    ('⅗', 3, 5),
    ('⅘', 4, 5),
    ('⅙', 1, 6),
    ('⅚', 5, 6),
    ('⅐', 1, 7),
    ('⅛', 1, 8),
    ('⅜', 3, 8),
    ('⅝', 5, 8),
    ('⅞', 7, 8),
    ('⅑', 1, 9),
    ('⅒', 1, 10),
    ('↉', 0, 3),
];

fn vulgar(c: char) -> Option<(u8, u8)> {
    let found = VULGAR.iter().find(|(character, ..)| *character == c);
    found.map(|&(_, over, under)| (over, under))
}

/// The character of a fraction.
pub(super) fn character_of(over: u64, under: u64) -> Option<char> {
    let is = |&&(_, of, by): &&(char, u8, u8)| (u64::from(of), u64::from(by)) == (over, under);
    VULGAR.iter().find(is).map(|&(character, ..)| character)
}
