//! Who last decided what. Beside each value that somebody changed stands an
//! entry of theirs, which the next one who changes it takes away. Two that
//! stand side by side were written without knowing of each other: an entry of
//! the object has but one of their values then.

use std::collections::BTreeSet;

use serde_json::Value;
use yrs::{Any, Map as _, MapRef, Out, ReadTxn, Transact as _, TransactionMut};

use crate::address;
use crate::document::{DEEPEST, Document, any, json, whole};
use crate::path;
use crate::write::{Change, Op};

pub(crate) const SAID: &str = "said";
pub(crate) const MADE: &str = "made";

/// The most entries that are kept; the oldest goes first. Our own bound, above
/// what one device changes before it hears of the others.
const MOST: usize = 200;

/// Who changes an object.
pub struct Hand<'a> {
    /// When, in milliseconds since 1970 by the clock of the device.
    pub at: u64,
    /// The device's name.
    pub by: &'a str,
    /// What tells the whole that comes of it from others, as far as its parts
    /// must go together.
    pub mark: &'a str,
    /// Whether a change was meant, rather than followed from one that was:
    /// where in the object it is (as in [`Said::address`]), and the value.
    pub meant: &'a dyn Fn(&str, &Value) -> bool,
}

/// What somebody decided.
#[derive(Debug, Clone, PartialEq)]
pub struct Said {
    /// Its name among the others.
    pub key: String,
    /// Of what: `measures/3.value` is the field `value` of the item 3 of the
    /// list `measures`, `relations/` some item of a list whose items have no
    /// id.
    pub address: String,
    /// When, in milliseconds since 1970 by the clock of the device.
    pub at: u64,
    /// The device's name.
    pub by: String,
    /// Whether it was given the value, rather than taken away.
    pub there: bool,
    /// The value, or what was taken away.
    pub value: Value,
}

/// What is to be kept of a change.
pub(crate) struct ToTell {
    said: MapRef,
    made: MapRef,
    gone: Vec<String>,
    new: Vec<(String, Any)>,
    marks: Vec<String>,
    mark: Option<String>,
}

impl ToTell {
    pub(crate) fn write(&self, transaction: &mut TransactionMut<'_>) {
        for key in &self.gone {
            self.said.remove(transaction, key);
        }
        for (key, entry) in &self.new {
            self.said.insert(transaction, key.as_str(), entry.clone());
        }
        for mark in &self.marks {
            self.made.remove(transaction, mark);
        }
        if let Some(mark) = &self.mark {
            self.made.insert(transaction, mark.as_str(), true);
        }
    }
}

impl Document {
    /// What was decided and not yet changed by one who knew of it, the last
    /// first. Of two entries about the same, neither knew of the other.
    pub fn said(&self) -> Vec<Said> {
        let map = self.doc.get_or_insert_map(SAID);
        read(&map, &self.doc.transact())
    }

    /// The marks of the wholes that somebody made. Where what the document
    /// holds is none of them, it came together of several.
    pub fn made(&self) -> BTreeSet<String> {
        let map = self.doc.get_or_insert_map(MADE);
        let transaction = self.doc.transact();
        map.keys(&transaction).map(str::to_owned).collect()
    }

    /// The paths of all that was given a value by one who may not have known
    /// that it was deleted.
    pub(crate) fn changed_paths(&self) -> Vec<String> {
        let map = self.doc.get_or_insert_map(SAID);
        let transaction = self.doc.transact();
        let there = |out: &Out| matches!(out, Out::Any(Any::Array(parts)) if matches!(parts.get(2), Some(Any::Bool(true))));
        map.iter(&transaction)
            .filter(|(_, out)| there(out))
            .filter_map(|(key, _)| path_in(key).map(str::to_owned))
            .collect()
    }

    /// What is to be kept of a change made of these, which leads to `new`.
    pub(crate) fn telling(
        &mut self,
        hand: &Hand<'_>,
        ops: &[Op],
        changes: &[Change],
        new: &Value,
    ) -> ToTell {
        let [said, made] = [SAID, MADE].map(|name| self.doc.get_or_insert_map(name));
        let mut touched = BTreeSet::new();
        let mut removed = Vec::new();
        for op in ops {
            let (path, there) = match op {
                Op::Set(path, _) | Op::Text(path, ..) => (path, true),
                Op::Unset(path) => (path, false),
                Op::Item(path, _, there, _) => (path, *there),
            };
            touched.insert(path.as_str());
            if !there {
                removed.push(format!("{path}."));
            }
        }
        let old = self.said();
        let meant = |change: &&Change| (hand.meant)(&path::address(&change.path), &change.value);
        let meant: Vec<&Change> = changes.iter().filter(meant).collect();
        let outdated = |said: &&Said| {
            let path = path_in(&said.key).unwrap_or_default();
            let concerned = touched.contains(path)
                || removed.iter().any(|above| path.starts_with(above.as_str()));
            // What is written as it was decided, without being decided anew, is
            // still their decision.
            let anew = meant.iter().any(|change| change.path == path);
            concerned && (anew || !address::is_so(new, said))
        };
        let (gone, stays): (Vec<&Said>, Vec<&Said>) = old.iter().partition(outdated);
        let mut entries = Vec::new();
        for change in &meant {
            let said = Said {
                key: format!("{}|{}", change.path, self.draw.unique()),
                address: String::new(),
                at: hand.at,
                by: hand.by.to_owned(),
                there: change.there,
                value: change.value.clone(),
            };
            entries.push((said.key.clone(), entry(&said)));
        }
        let room = MOST.saturating_sub(entries.len());
        let gone = gone.iter().chain(stays.iter().skip(room));
        let gone = gone.map(|said| said.key.clone()).collect();
        let known = self.made();
        let mark = hand.mark.to_owned();
        ToTell {
            said,
            made,
            gone,
            new: entries,
            marks: known.iter().filter(|it| **it != mark).cloned().collect(),
            mark: (!known.contains(&mark)).then_some(mark),
        }
    }
}

/// An entry as a document keeps it.
pub(crate) fn entry(said: &Said) -> Any {
    Any::from(vec![
        Any::from(i64::try_from(said.at).unwrap_or(i64::MAX)),
        Any::from(said.by.as_str()),
        Any::Bool(said.there),
        any(&said.value),
    ])
}

/// The entries of a map, the last first.
pub(crate) fn read(map: &MapRef, transaction: &impl ReadTxn) -> Vec<Said> {
    let mut all: Vec<Said> = map
        .iter(transaction)
        .filter_map(|(key, out)| {
            let Out::Any(Any::Array(parts)) = out else {
                return None;
            };
            let [
                Any::Number(at),
                Any::String(by),
                Any::Bool(there),
                value,
                ..,
            ] = &parts[..]
            else {
                return None;
            };
            Some(Said {
                address: path::address(path_in(key)?),
                key: key.to_owned(),
                at: u64::try_from(whole(*at)?).ok()?,
                by: (**by).to_owned(),
                there: *there,
                value: json(value, DEEPEST)?,
            })
        })
        .collect();
    all.sort_by(|one, other| (other.at, &other.key).cmp(&(one.at, &one.key)));
    all
}

/// The path in the key of an entry.
fn path_in(key: &str) -> Option<&str> {
    Some(key.rsplit_once('|')?.0)
}
