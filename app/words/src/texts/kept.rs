//! How the texts of a language are kept: one behind the other, and told apart when
//! the language is first spoken. A field for each would take more room in what a
//! browser loads than the order in which they stand.

use std::str::Split;
use std::sync::OnceLock;

use super::Texts;

/// What closes a text.
const END: char = '\0';

/// All texts of a language as they are loaded.
pub(crate) struct Kept {
    /// Those without arms of their own, in the order of the fields.
    pub(super) one_behind_the_other: &'static str,
    /// The others.
    pub(super) with_arms: Texts,
    pub(super) told_apart: OnceLock<Box<Texts>>,
}

impl Kept {
    /// Each text by its name.
    pub(crate) fn texts(&'static self) -> &'static Texts {
        self.told_apart.get_or_init(|| {
            let mut all = Box::new(self.with_arms);
            let mut texts = self.one_behind_the_other.split(END);
            all.tell_apart(&mut texts);
            all
        })
    }
}

/// Texts that are to be told apart.
pub(super) type Following = Split<'static, char>;

/// Gives each field the text that follows.
// Much less code than where each area does it by itself.
#[inline(never)]
pub(super) fn tell_apart(fields: &mut [&mut &'static str], texts: &mut Following) {
    for (field, text) in fields.iter_mut().zip(texts) {
        **field = text;
    }
}

/// How long texts are one behind the other.
pub(super) const fn length(areas: &[&[&str]]) -> usize {
    let mut length = 0;
    let mut area = 0;
    while area < areas.len() {
        let mut place = 0;
        while place < areas[area].len() {
            length += areas[area][place].len() + END.len_utf8();
            place += 1;
        }
        area += 1;
    }
    length
}

/// Texts one behind the other.
pub(super) const fn behind_each_other<const LENGTH: usize>(areas: &[&[&str]]) -> [u8; LENGTH] {
    let mut all = [END as u8; LENGTH];
    let mut to = 0;
    let mut area = 0;
    while area < areas.len() {
        let mut place = 0;
        while place < areas[area].len() {
            let text = areas[area][place].as_bytes();
            let mut at = 0;
            while at < text.len() {
                all[to] = text[at];
                at += 1;
                to += 1;
            }
            to += END.len_utf8();
            place += 1;
        }
        area += 1;
    }
    all
}

/// The same as a text.
#[expect(clippy::panic, reason = "only the compiler reads them")]
pub(super) const fn read(bytes: &'static [u8]) -> &'static str {
    match str::from_utf8(bytes) {
        Ok(text) => text,
        Err(_) => panic!("whole texts are a text"),
    }
}

/// A text, if it has every hole that can be filled, and no other.
pub(super) const fn with_holes(text: &'static str, holes: &[&str]) -> &'static str {
    let bytes = text.as_bytes();
    let mut filled = 0;
    let mut at = 0;
    while at < bytes.len() {
        if bytes[at] == b'{' {
            filled |= 1 << which(bytes, at + 1, holes);
        }
        at += 1;
    }
    assert!(filled + 1 == 1 << holes.len(), "a text lacks a hole");
    text
}

/// Which hole begins in a text there.
#[expect(clippy::panic, reason = "only the compiler looks for it")]
const fn which(text: &[u8], from: usize, holes: &[&str]) -> usize {
    let mut hole = 0;
    while hole < holes.len() {
        let name = holes[hole].as_bytes();
        let mut at = 0;
        while at < name.len() && text[from + at] == name[at] {
            at += 1;
        }
        if at == name.len() && text[from + at] == b'}' {
            return hole;
        }
        hole += 1;
    }
    panic!("a text has a hole that nothing fills")
}
