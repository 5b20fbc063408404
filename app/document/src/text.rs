//! Texts that merge letter by letter. Each stands beside the object under the
//! path of its field; where an older writer has put a whole text into the
//! object, that is shown with it until somebody writes on.

use yrs::{
    Any, GetString as _, Map as _, Out, ReadTxn as _, Text as _, TextRef, Transact as _,
    TransactionMut,
};

use crate::document::{Document, OBJECT, document, encoded};

/// Before the path, in the name of a text among what the document holds.
const TEXT: &str = "text/";

/// Part of a text that is replaced: from, to, and by what. In bytes, at the
/// borders of letters.
type Splice<'a> = (usize, usize, &'a str);

impl Document {
    /// The texts that were ever written, by path.
    pub(crate) fn texts(&self) -> Vec<(String, String)> {
        let paths: Vec<String> = {
            let transaction = self.doc.transact();
            let roots = transaction.root_refs();
            roots
                .filter_map(|(name, _)| name.strip_prefix(TEXT).map(str::to_owned))
                .collect()
        };
        let read = |path: String| {
            let text = self.text(&path);
            let text = text.get_string(&self.doc.transact());
            (path, text)
        };
        paths.into_iter().map(read).collect()
    }

    /// The text at a path.
    pub(crate) fn text(&self, path: &str) -> TextRef {
        self.doc.get_or_insert_text(format!("{TEXT}{path}"))
    }

    /// The whole text that an older writer has put into the object.
    pub(crate) fn whole(&self, path: &str) -> Option<String> {
        let object = self.doc.get_or_insert_map(OBJECT);
        match object.get(&self.doc.transact(), path) {
            Some(Out::Any(Any::String(whole))) => Some((*whole).to_owned()),
            _ => None,
        }
    }

    /// Puts the whole text of an older writer in the place of an empty one.
    /// Whoever does this does the very same, so that two who do it at once put
    /// it there once. Returns the change to send.
    pub(crate) fn take_over(&self, path: &str, whole: &str) -> Option<Vec<u8>> {
        let text = self.text(path).get_string(&self.doc.transact());
        if !text.is_empty() || whole.is_empty() {
            return None;
        }
        // FNV-1a of 64 bits (Fowler, Noll, Vo).
        let bytes = path.bytes().chain([0]).chain(whole.bytes());
        let hash = bytes.fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
            (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
        });
        let scratch = document(hash);
        let text = scratch.get_or_insert_text(format!("{TEXT}{path}"));
        let update = encoded(&scratch, |transaction| text.push(transaction, whole))?;
        // A change made a moment ago can be read.
        self.take_in(&update).ok().map(|()| update)
    }
}

/// What there is to read of a text, where an older writer may have put a whole
/// one beside it.
pub(crate) fn joined(text: &str, whole: Option<&str>) -> String {
    match whole {
        None => text.to_owned(),
        Some(whole) if text.contains(whole) => text.to_owned(),
        Some(whole) if whole.contains(text) => whole.to_owned(),
        Some(whole) => format!("{text}\n\n{whole}"),
    }
}

/// Takes in what an older writer put beside a text, as it is shown.
pub(crate) fn take_in(text: &TextRef, transaction: &mut TransactionMut<'_>, whole: Option<&str>) {
    let now = text.get_string(transaction);
    if whole.is_some() && !now.is_empty() {
        change(text, transaction, &now, &joined(&now, whole));
    }
}

/// Makes the change from `old` to `new` in a text that may have become another
/// than `old` meanwhile: what others wrote stays.
pub(crate) fn change(text: &TextRef, transaction: &mut TransactionMut<'_>, old: &str, new: &str) {
    let now = text.get_string(transaction);
    let at = |from: usize, to: usize| halves(now.get(from..to).unwrap_or_default());
    for (from, to, by) in splices(&now, old, new) {
        if from < to {
            text.remove_range(transaction, at(0, from), at(from, to));
        }
        if !by.is_empty() {
            text.insert(transaction, at(0, from), by);
        }
    }
}

/// What the change from `old` to `new` makes of `now`, which `old` has become
/// meanwhile.
pub fn typed_into(now: &str, old: &str, new: &str) -> String {
    let mut typed = now.to_owned();
    for (from, to, by) in splices(now, old, new) {
        typed.replace_range(from..to, by);
    }
    typed
}

/// The same as parts of `now`, to be replaced one after the other.
fn splices<'a>(now: &str, old: &'a str, new: &'a str) -> Vec<Splice<'a>> {
    let (from, to, by) = splice(old, new);
    // What others have put in the place of part of it stays.
    let (start, end, theirs) = splice(old, now);
    let moved = |place: usize| place - end + start + theirs.len();
    let mut splices = Vec::new();
    if to > end {
        splices.push((moved(from.max(end)), moved(to), ""));
    }
    if from < to.min(start) {
        splices.push((from, to.min(start), ""));
    }
    let place = if from <= start {
        from
    } else if from >= end {
        moved(from)
    } else {
        start + theirs.len()
    };
    splices.push((place, place, by));
    splices
}

/// How many halves of letters a text has in UTF-16, by which the documents
/// count: the library loses count of bytes where a change from elsewhere parts
/// a letter.
fn halves(text: &str) -> u32 {
    u32::try_from(text.encode_utf16().count()).unwrap_or(u32::MAX)
}

/// Takes all of a text away.
pub(crate) fn clear(text: &TextRef, transaction: &mut TransactionMut<'_>) {
    let length = halves(&text.get_string(transaction));
    if length > 0 {
        text.remove_range(transaction, 0, length);
    }
}

/// The one part of `old` that is another in `new`.
fn splice<'a>(old: &str, new: &'a str) -> Splice<'a> {
    let alike = old.chars().zip(new.chars());
    let before: usize = alike
        .take_while(|(one, other)| one == other)
        .map(|(one, _)| one.len_utf8())
        .sum();
    let rest = new.get(before..).unwrap_or_default();
    let alike = old.get(before..).unwrap_or_default();
    let alike = alike.chars().rev().zip(rest.chars().rev());
    let after: usize = alike
        .take_while(|(one, other)| one == other)
        .map(|(one, _)| one.len_utf8())
        .sum();
    let by = rest.get(..rest.len() - after).unwrap_or_default();
    (before, old.len() - after, by)
}

#[cfg(test)]
mod tests {
    use yrs::{GetString as _, Text as _, Transact as _};

    use super::{change, joined, splice, typed_into};
    use crate::document::document;

    #[test]
    fn what_differs_is_found_at_the_borders_of_letters() {
        assert_eq!(splice("score", "scores"), (5, 5, "s"));
        assert_eq!(splice("aa", "aaa"), (2, 2, "a"));
        assert_eq!(splice("süß", "sß"), (1, 3, ""));
        assert_eq!(splice("aé", "aè"), (1, 3, "è"));
        assert_eq!(splice("", "x"), (0, 0, "x"));
    }

    #[test]
    fn a_change_leaves_what_others_wrote_meanwhile() {
        let after = |old: &str, now: &str, new: &str| {
            let doc = document(1);
            let text = doc.get_or_insert_text("t");
            let mut transaction = doc.transact_mut();
            text.push(&mut transaction, now);
            change(&text, &mut transaction, old, new);
            let after = text.get_string(&transaction);
            assert_eq!(typed_into(now, old, new), after);
            after
        };
        assert_eq!(
            after("blue card", "blue card, wide", "the blue card"),
            "the blue card, wide"
        );
        assert_eq!(
            after("blue card", "navy blue card", "blue cards"),
            "navy blue cards"
        );
        assert_eq!(after("blue card", "blue wide card", ""), "wide ");
        assert_eq!(after("ab", "axb", "aüb"), "aüxb");
        assert_eq!(after("same", "same", "same"), "same");
    }

    #[test]
    fn a_whole_text_beside_it_is_shown_once() {
        assert_eq!(joined("blue", None), "blue");
        assert_eq!(joined("blue card", Some("blue")), "blue card");
        assert_eq!(joined("blue", Some("blue card")), "blue card");
        assert_eq!(joined("blue", Some("wide")), "blue\n\nwide");
    }
}
