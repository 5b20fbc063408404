//! What is said, in runs: for the eye, for the ear, and with the exact length
//! behind one that is rounded.
//!
//! A speaker that is asked for it marks each rounded length in its sentences with
//! the exact one, between the three characters Unicode has for what is written
//! beside a text (interlinear annotation). Such a text is for [`runs`] alone.

use crate::Tongue;
use crate::numerals::{by, figures};

const ANCHOR: char = '\u{FFF9}';
const SEPARATOR: char = '\u{FFFA}';
const TERMINATOR: char = '\u{FFFB}';

/// A stretch of what is said.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Run {
    /// What is seen.
    pub shown: String,
    /// What is heard, where that is not what is seen.
    pub aloud: Option<String>,
    /// The exact length, where what is seen is rounded.
    pub exact: Option<String>,
}

impl Run {
    /// A text that is heard as it is seen.
    pub fn plain(text: impl Into<String>) -> Self {
        Self {
            shown: text.into(),
            aloud: None,
            exact: None,
        }
    }
}

/// A rounded length with the exact one behind it.
pub(crate) fn with_exact(shown: &str, exact: &str) -> String {
    format!("{ANCHOR}{shown}{SEPARATOR}{exact}{TERMINATOR}")
}

/// Whether an exact length stands behind one in a text.
pub(crate) fn is_rounded(text: &str) -> bool {
    text.contains(ANCHOR)
}

/// A text in runs: what reads alike for eye and ear stays together.
pub fn runs(tongue: &dyn Tongue, text: &str) -> Vec<Run> {
    let mut all = Vec::new();
    let mut rest = text;
    while let Some((before, rounded)) = rest.split_once(ANCHOR)
        && let Some((inside, after)) = rounded.split_once(TERMINATOR)
        && let Some((shown, exact)) = inside.split_once(SEPARATOR)
    {
        all.extend(heard(tongue, before));
        let aloud = aloud(tongue, shown);
        all.push(Run {
            aloud: (aloud != shown).then_some(aloud),
            shown: shown.to_owned(),
            exact: Some(exact.to_owned()),
        });
        rest = after;
    }
    all.extend(heard(tongue, rest));
    all
}

/// A text as it is heard, with words where its numbers are hard to read aloud.
pub fn aloud(tongue: &dyn Tongue, text: &str) -> String {
    let runs = runs(tongue, text).into_iter();
    runs.map(|run| run.aloud.unwrap_or(run.shown)).collect()
}

/// A text for a voice: as it is heard, and with what screen readers know how to say
/// in words too, since voices read "4 in" and "3¾" in ways of their own.
pub fn voiced(tongue: &dyn Tongue, text: &str) -> String {
    let shown = runs(tongue, text).into_iter().map(|run| run.shown);
    let shown: String = shown.collect();
    let mut said = String::with_capacity(shown.len());
    let mut from = 0;
    for figure in figures(&shown) {
        said.extend(shown.get(from..figure.at.start));
        said.push_str(&tongue.aloud(&figure.amount));
        from = figure.at.end;
    }
    said.extend(shown.get(from..));
    said.replace('×', by(tongue.language()))
}

/// A text that has nothing behind it.
fn heard(tongue: &dyn Tongue, text: &str) -> Vec<Run> {
    let mut all = Vec::new();
    let mut from = 0;
    let spelled = figures(text).into_iter().filter(|it| it.is_spelled);
    for figure in spelled {
        all.extend(text.get(from..figure.at.start).map(Run::plain));
        from = figure.at.end;
        all.extend(text.get(figure.at).map(|shown| Run {
            aloud: Some(tongue.aloud(&figure.amount)),
            ..Run::plain(shown)
        }));
    }
    all.extend(text.get(from..).map(Run::plain));
    all.retain(|run| !run.shown.is_empty());
    all
}
