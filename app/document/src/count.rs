//! Counts that add up: what several people take or bring at once.

use std::collections::BTreeMap;

use yrs::{Any, Map as _, Out, Transact as _};

use crate::document::{Document, whole, writer};
use crate::path;

pub(crate) const COUNTS: &str = "counts";

/// Before a writer's number: how much of what they added no longer counts.
const CLEARED: char = '-';

impl Document {
    /// Adds `by` to the count of `name`; take away with less than nothing.
    /// Returns the change to send.
    pub fn add(&mut self, name: &str, by: i64) -> Option<Vec<u8>> {
        // Each writer has an entry of its own, so that no two ever meet.
        let key = path::item(&path::field("", name), &writer(&self.doc).to_string());
        let counts = self.doc.get_or_insert_map(COUNTS);
        let had = match counts.get(&self.doc.transact(), &key) {
            Some(Out::Any(any)) => number(&any),
            _ => 0,
        };
        self.encoded(|transaction| {
            counts.insert(transaction, key, Any::from(had.saturating_add(by)));
        })
    }

    /// Sets the count of `name` to nothing, as far as it has come. What others
    /// add without knowing of it stays, and two that do this at once take
    /// nothing away twice. Returns the change to send.
    pub fn clear(&mut self, name: &str) -> Option<Vec<u8>> {
        let list = path::field("", name);
        let counts = self.doc.get_or_insert_map(COUNTS);
        let added: Vec<(String, i64)> = counts
            .iter(&self.doc.transact())
            .filter_map(|(key, out)| {
                let (of, writer) = key.split_once('/')?;
                let Out::Any(any) = out else { return None };
                let cleared = writer.starts_with(CLEARED);
                (of == list && !cleared).then(|| (cleared_key(&list, writer), number(&any)))
            })
            .collect();
        self.encoded(|transaction| {
            for (key, added) in added {
                let had = match counts.get(&*transaction, &key) {
                    Some(Out::Any(any)) => number(&any),
                    _ => 0,
                };
                if had != added {
                    counts.insert(transaction, key, Any::from(added));
                }
            }
        })
    }

    /// All counts.
    pub fn counts(&self) -> BTreeMap<String, i64> {
        let counts = self.doc.get_or_insert_map(COUNTS);
        let transaction = self.doc.transact();
        let mut sums = BTreeMap::new();
        for (key, out) in counts.iter(&transaction) {
            let (Some(steps), Out::Any(any)) = (path::steps(key), out) else {
                continue;
            };
            if let [path::Step::Item(name, writer)] = &steps[..] {
                let sum: &mut i64 = sums.entry(name.clone()).or_default();
                *sum = if writer.starts_with(CLEARED) {
                    sum.saturating_sub(number(&any))
                } else {
                    sum.saturating_add(number(&any))
                };
            }
        }
        sums
    }
}

fn cleared_key(list: &str, writer: &str) -> String {
    path::item(list, &format!("{CLEARED}{writer}"))
}

fn number(any: &Any) -> i64 {
    match any {
        Any::Number(number) => whole(*number).unwrap_or(0),
        _ => 0,
    }
}
