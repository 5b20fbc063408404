//! Progress at the bench as a document: what several people do for some cards
//! of a batch adds up. What was written before it did stands in the object
//! and counts with the rest.

use std::collections::{BTreeMap, BTreeSet};

use foldwright_document::{Document, together};
use serde::Deserialize as _;
use serde_json::{Map, Value};

use crate::store::Progress;

/// The field with the counts.
const DONE: &str = "done";

/// The progress in a document; `None` where there is none.
pub(super) fn read(document: &Document) -> Option<Progress> {
    let (object, _) = document.read();
    let mut progress = Progress::deserialize(object?).ok()?;
    for (step, count) in document.counts() {
        let base = progress.done.get(&step).copied();
        let sum = i64::from(base.unwrap_or(0)).saturating_add(count);
        if base.is_some() || sum > 0 {
            progress.done.insert(step, shown(sum));
        }
    }
    Some(progress)
}

/// Writes what has become of progress. Returns the change to
/// send.
pub(super) fn write(document: &mut Document, old: &Value, new: &Value) -> Option<Vec<u8>> {
    let [before, after] = [old, new].map(counts);
    let base = counts(&document.read().0.unwrap_or_default());
    let counted = document.counts();
    // The object keeps which steps were begun; and what stood in it stays.
    let bare = |value: &Value, of: &BTreeMap<String, i64>, none: Option<i64>| {
        let mut bare = value.clone();
        if let Some(object) = bare.as_object_mut() {
            let kept = of.keys().filter_map(|step| {
                let base = base.get(step).copied().or(none)?;
                Some((step.clone(), Value::from(base)))
            });
            object.insert(DONE.to_owned(), kept.collect::<Map<_, _>>().into());
        }
        bare
    };
    let (from, to) = (bare(old, &before, None), bare(new, &after, Some(0)));
    let mut changes: Vec<_> = document.write(&from, &to).into_iter().collect();
    let steps: BTreeSet<_> = before.keys().chain(after.keys()).collect();
    for step in steps {
        let Some(wanted) = after.get(step) else {
            changes.extend(document.clear(step));
            continue;
        };
        let there = base.get(step).copied().unwrap_or(0);
        let sum = there.saturating_add(counted.get(step).copied().unwrap_or(0));
        let seen = before.get(step).copied().unwrap_or(0);
        // What more were taken back than there are is made up for.
        let from = if i64::from(shown(sum)) == seen {
            sum
        } else {
            seen
        };
        if *wanted != from {
            changes.extend(document.add(step, wanted.saturating_sub(from)));
        }
    }
    together(changes)
}

fn counts(progress: &Value) -> BTreeMap<String, i64> {
    let done = progress.get(DONE).and_then(Value::as_object);
    let counts = done.into_iter().flatten();
    counts
        .filter_map(|(step, count)| Some((step.clone(), count.as_i64()?)))
        .collect()
}

/// A sum as it is shown: never below nothing.
fn shown(sum: i64) -> u32 {
    u32::try_from(sum.max(0)).unwrap_or(u32::MAX)
}
