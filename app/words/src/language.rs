//! The languages, and which of them a reader asks for.

use crate::{English, German, Tongue};

/// A language in which everything is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Language {
    /// English, and what is spoken where nothing else is asked for.
    #[default]
    English,
    /// German.
    German,
}

impl Language {
    /// Every language, the one first that is spoken where none is asked for.
    pub const ALL: [Self; 2] = [Self::English, Self::German];

    /// Its language tag (BCP 47), as the `lang` attribute of HTML has it.
    pub const fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
        }
    }

    /// What its speakers call it.
    pub const fn own_name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::German => "Deutsch",
        }
    }

    /// Its sentences.
    pub fn tongue(self) -> &'static dyn Tongue {
        match self {
            Self::English => &English,
            Self::German => &German,
        }
    }

    /// The language of a tag, or else of the nearest less special one: German
    /// for `de-CH-1996` (lookup, RFC 4647 §3.4). Case does not matter.
    pub fn of_tag(tag: &str) -> Option<Self> {
        let mut range = tag.trim();
        loop {
            let is = |language: &Self| language.tag().eq_ignore_ascii_case(range);
            if let Some(language) = Self::ALL.into_iter().find(is) {
                return Some(language);
            }
            range = range.rsplit_once('-')?.0;
            // A single letter or digit only introduces what followed it.
            if let Some((before, last)) = range.rsplit_once('-')
                && last.len() == 1
            {
                range = before;
            }
        }
    }

    /// The language that a list asks for most, as in the field
    /// `Accept-Language` (RFC 9110 §12.5.4); `None` where it asks for none of
    /// ours. What is no language range, or no weight, is passed over.
    pub fn accepted(list: &str) -> Option<Self> {
        let mut ranges: Vec<(&str, u16)> = list.split(',').filter_map(weighed).collect();
        let named = |language: &Self| {
            let mut ranges = ranges.iter();
            ranges.any(|(range, _)| range.eq_ignore_ascii_case(language.tag()))
        };
        // "*" stands for what no other range names.
        let other = Self::ALL.into_iter().find(|language| !named(language));
        ranges.retain(|(_, weight)| *weight > 0);
        // Of equals the first stays first.
        ranges.sort_by_key(|(_, weight)| std::cmp::Reverse(*weight));
        let mut ranges = ranges.into_iter();
        ranges.find_map(|(range, _)| match range {
            "*" => other,
            range => Self::of_tag(range),
        })
    }
}

/// One range of a list with its weight in thousandths.
fn weighed(part: &str) -> Option<(&str, u16)> {
    let (range, weight) = match part.split_once(';') {
        None => (part.trim(), 1000),
        Some((range, weight)) => (range.trim(), thousandths(weight.trim())?),
    };
    let sound = |range: &str| {
        let mut subtags = range.split('-');
        subtags.all(|subtag| {
            (1..=8).contains(&subtag.len()) && subtag.bytes().all(|it| it.is_ascii_alphanumeric())
        })
    };
    (range == "*" || sound(range)).then_some((range, weight))
}

/// A weight of at most three decimals: `q=0.8` is 800.
fn thousandths(weight: &str) -> Option<u16> {
    let (name, value) = weight.split_once('=')?;
    if !name.eq_ignore_ascii_case("q") {
        return None;
    }
    let (whole, part) = value.split_once('.').unwrap_or((value, ""));
    if part.len() > 3 || !part.bytes().all(|it| it.is_ascii_digit()) {
        return None;
    }
    let part: u16 = format!("{part:0<3}").parse().ok()?;
    match whole {
        "0" => Some(part),
        "1" if part == 0 => Some(1000),
        _ => None,
    }
}
