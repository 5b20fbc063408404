//! Counts that add up: what several people take or bring at once.

use std::collections::BTreeMap;

use yrs::{Any, Map as _, Out, Transact as _};

use crate::document::{Document, encoded, whole, writer};
use crate::path;

const COUNTS: &str = "counts";

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
        encoded(&self.doc, |transaction| {
            counts.insert(transaction, key, Any::from(had.saturating_add(by)));
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
            if let [path::Step::Item(name, _)] = &steps[..] {
                let sum: &mut i64 = sums.entry(name.clone()).or_default();
                *sum = sum.saturating_add(number(&any));
            }
        }
        sums
    }
}

fn number(any: &Any) -> i64 {
    match any {
        Any::Number(number) => whole(*number).unwrap_or(0),
        _ => 0,
    }
}
