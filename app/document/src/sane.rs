//! Whether bytes are a change of a document of ours, before they are decoded.
//! The decoder follows nested values as deep as they go and makes room for as
//! many things as it is told of; a few bytes could so bring a process down.
//!
//! The form is that of Yjs updates, version 1. Our documents are maps of plain
//! values, and texts: nested types and the like are refused.

use std::collections::BTreeMap;

use crate::document::{DEEPEST, MOST_WRITERS, Malformed};

/// The most that clocks may count to. Below what the decoder counts with.
const MOST: u64 = 1 << 30;

/// Kinds of content, as the encoding numbers them.
const GARBAGE: u8 = 0;
const DELETED: u8 = 1;
const BINARY: u8 = 3;
const STRING: u8 = 4;
const ANY: u8 = 8;
const SKIP: u8 = 10;

/// What an update goes on from: up to which clock of each writer a document
/// must have everything before it can take the update in.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Needs {
    before: BTreeMap<u64, u64>,
    /// What the update brings itself, from which clock to which.
    brings: BTreeMap<u64, (u64, u64)>,
}

impl Needs {
    /// Which clock of which writer.
    pub(crate) fn iter(&self) -> impl Iterator<Item = (u64, u64)> {
        let beyond = self.before.iter().filter(|(writer, clock)| {
            let brought = self.brings.get(writer);
            brought.is_none_or(|(_, end)| **clock > *end)
        });
        let beyond = beyond.map(|(writer, clock)| (*writer, *clock));
        let begins = self.brings.iter();
        beyond.chain(begins.map(|(writer, (begin, _))| (*writer, *begin)))
    }

    /// Whether the update itself brings nothing.
    pub(crate) fn bring_nothing(&self) -> bool {
        self.brings.is_empty()
    }

    /// The update speaks of the clocks of a writer before `end`.
    fn speaks_of(&mut self, writer: u64, end: u64) {
        let known = self.before.entry(writer).or_default();
        *known = end.max(*known);
    }
}

/// Refuses what is no update, or none of ours.
pub(crate) fn update(bytes: &[u8]) -> Result<Needs, Malformed> {
    let mut rest = Rest(bytes);
    let mut needs = Needs::default();
    for _ in 0..rest.count()? {
        let structs = rest.count()?;
        let writer = rest.writer()?;
        let begin = rest.number()?;
        let mut clock = begin;
        for _ in 0..structs {
            clock = clock.saturating_add(rest.item(&mut needs)?);
            if clock > MOST {
                return Err(Malformed);
            }
        }
        let brought = needs.brings.entry(writer).or_insert((begin, clock));
        *brought = (begin.min(brought.0), clock.max(brought.1));
    }
    for _ in 0..rest.count()? {
        let writer = rest.writer()?;
        for _ in 0..rest.count()? {
            let end = rest.number()?.saturating_add(rest.number()?);
            if end > MOST {
                return Err(Malformed);
            }
            needs.speaks_of(writer, end);
        }
    }
    rest.end().map(|()| needs)
}

/// Refuses what is no state vector.
pub(crate) fn state(bytes: &[u8]) -> Result<(), Malformed> {
    let mut rest = Rest(bytes);
    for _ in 0..rest.count()? {
        rest.writer()?;
        if rest.number()? > MOST {
            return Err(Malformed);
        }
    }
    rest.end()
}

/// What is still to be read.
struct Rest<'a>(&'a [u8]);

impl Rest<'_> {
    fn end(&self) -> Result<(), Malformed> {
        self.0.is_empty().then_some(()).ok_or(Malformed)
    }

    fn byte(&mut self) -> Result<u8, Malformed> {
        let (byte, rest) = self.0.split_first().ok_or(Malformed)?;
        self.0 = rest;
        Ok(*byte)
    }

    fn skip(&mut self, count: u64) -> Result<(), Malformed> {
        let count = usize::try_from(count).map_err(|_| Malformed)?;
        self.0 = self.0.get(count..).ok_or(Malformed)?;
        Ok(())
    }

    fn writer(&mut self) -> Result<u64, Malformed> {
        let writer = self.number()?;
        (writer <= MOST_WRITERS).then_some(writer).ok_or(Malformed)
    }

    /// A struct of somebody's that this one goes on from.
    fn earlier(&mut self, needs: &mut Needs) -> Result<(), Malformed> {
        let writer = self.writer()?;
        needs.speaks_of(writer, self.number()?.saturating_add(1));
        Ok(())
    }

    /// A number of seven bits a byte, the lowest first; none has more than 56.
    fn number(&mut self) -> Result<u64, Malformed> {
        let mut number = 0;
        for place in 0..8 {
            let byte = self.byte()?;
            number |= u64::from(byte & 0x7f) << (7 * place);
            if byte & 0x80 == 0 {
                return Ok(number);
            }
        }
        Err(Malformed)
    }

    /// How many things follow, each of which takes a byte at least.
    fn count(&mut self) -> Result<u64, Malformed> {
        let count = self.number()?;
        let bytes = u64::try_from(self.0.len()).map_err(|_| Malformed)?;
        if count <= bytes {
            Ok(count)
        } else {
            Err(Malformed)
        }
    }

    fn text(&mut self) -> Result<(), Malformed> {
        let length = self.number()?;
        self.skip(length)
    }

    /// Text that is part of a longer one; returns how many clocks it takes: one
    /// for each half of a letter in UTF-16.
    fn letters(&mut self) -> Result<u64, Malformed> {
        let length = usize::try_from(self.number()?).map_err(|_| Malformed)?;
        let (text, rest) = self.0.split_at_checked(length).ok_or(Malformed)?;
        self.0 = rest;
        let text = std::str::from_utf8(text).map_err(|_| Malformed)?;
        let clocks = u64::try_from(text.encode_utf16().count()).map_err(|_| Malformed)?;
        (clocks > 0).then_some(clocks).ok_or(Malformed)
    }

    /// A struct; returns how many clocks it takes.
    fn item(&mut self, needs: &mut Needs) -> Result<u64, Malformed> {
        let info = self.byte()?;
        let kind = info & 0x1f;
        if matches!(kind, GARBAGE | SKIP) {
            return self.number();
        }
        let (left, right) = (info & 0x80 != 0, info & 0x40 != 0);
        for _ in 0..u8::from(left) + u8::from(right) {
            self.earlier(needs)?;
        }
        if !left && !right {
            if self.number()? == 1 {
                self.text()?;
            } else {
                self.earlier(needs)?;
            }
            if info & 0x20 != 0 {
                self.text()?;
            }
        }
        match kind {
            DELETED => self.number(),
            BINARY => self.text().map(|()| 1),
            STRING => self.letters(),
            ANY => {
                let count = self.count()?;
                for _ in 0..count {
                    self.any(DEEPEST)?;
                }
                Ok(count)
            }
            _ => Err(Malformed),
        }
    }

    fn any(&mut self, deepest: usize) -> Result<(), Malformed> {
        let inner = deepest.checked_sub(1).ok_or(Malformed)?;
        match self.byte()? {
            // Undefined, null, and the two truth values.
            127 | 126 | 121 | 120 => Ok(()),
            // A whole number: a first byte with six bits, then seven each.
            125 => {
                for _ in 0..10 {
                    if self.byte()? & 0x80 == 0 {
                        return Ok(());
                    }
                }
                Err(Malformed)
            }
            124 => self.skip(4),
            123 | 122 => self.skip(8),
            // Text, and bytes.
            119 | 116 => self.text(),
            118 => {
                for _ in 0..self.count()? {
                    self.text()?;
                    self.any(inner)?;
                }
                Ok(())
            }
            117 => {
                for _ in 0..self.count()? {
                    self.any(inner)?;
                }
                Ok(())
            }
            _ => Err(Malformed),
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::{state, update};
    use crate::Document;
    use crate::document::DEEPEST;

    /// An update with one entry whose value is an array in an array, so deep.
    fn nested(depth: usize) -> Vec<u8> {
        let mut bytes = vec![1, 1, 5, 0, 0x28, 1, 1, b'm', 1, b'k', 1];
        for _ in 1..depth {
            bytes.extend([117, 1]);
        }
        bytes.extend([126, 0]);
        bytes
    }

    #[test]
    fn what_documents_write_is_sane() {
        let mut document = Document::new((1 << 53) - 1);
        let mut old = Value::Null;
        for round in 0..40 {
            let deep = json!({ "a": [1.5, -7, i64::MAX, "ä", null, { "b": [[true]] }] });
            let new = json!({ "name": format!("{round}"), "deep": deep, "odd": round % 2 });
            let change = document.write(&old, &new).unwrap_or_default();
            assert!(update(&change).is_ok(), "{round}");
            old = new;
        }
        document.add("7 9 x", -3);
        let seen = document.state();
        assert!(document.bury("recipe/a", 5, &seen).is_ok());
        let needs: Vec<_> = update(&document.bytes())
            .expect("an update")
            .iter()
            .collect();
        assert_eq!(
            needs,
            [((1 << 53) - 1, 0)],
            "a whole document goes on from nothing"
        );
        assert_eq!(state(&document.state()), Ok(()));
        for cut in 0..document.bytes().len() {
            assert!(update(&document.bytes()[..cut]).is_err(), "{cut}");
        }
    }

    #[test]
    fn a_change_needs_what_it_goes_on_from() {
        let mut one = Document::new(5);
        let first = one.write(&Value::Null, &json!({ "name": "Quay" }));
        let mut other = Document::open(9, &first.expect("a change")).expect("a document");
        let change = other.write(&json!({ "name": "Quay" }), &json!({ "name": "Pier" }));
        let needs = update(&change.expect("a change")).expect("an update");
        assert_eq!(needs.iter().collect::<Vec<_>>(), [(5, 1), (9, 0)]);
    }

    #[test]
    fn what_is_too_deep_is_refused() {
        assert!(update(&nested(DEEPEST)).is_ok());
        assert!(update(&nested(DEEPEST + 1)).is_err());
        assert!(update(&nested(400_000)).is_err());
        assert!(Document::new(1).apply(&nested(400_000)).is_err());
    }

    #[test]
    fn more_than_there_can_be_is_refused() {
        let many = [0xff, 0xff, 0xff, 0xff, 0x0f];
        assert!(update(&many).is_err());
        assert!(state(&many).is_err());
        assert!(Document::new(1).since(&many).is_err());
        // Garbage that takes all clocks there are.
        assert!(update(&[1, 1, 5, 0, 0, 0xff, 0xff, 0xff, 0xff, 0x7f, 0]).is_err());
    }
}
