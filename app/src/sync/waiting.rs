//! How long this device has known that something is deleted, or used by nobody, before
//! it is erased for everybody.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::store::{Port, versioned};

/// Where it is kept how long deleted recipes are known.
pub(super) const DELETED: &str = "foldwright/deleted";
/// Where it is kept how long photographs are known that no recipe uses.
pub(super) const UNUSED: &str = "foldwright/unused";
const DAY: u64 = 24 * 60 * 60 * 1000;
/// For how long what was deleted can be brought back, in milliseconds.
pub(super) const RECOVERABLE: u64 = 30 * DAY;
/// The most that counts between two looks, in milliseconds.
const STRIDE: u64 = 7 * DAY;

/// Something deleted.
#[derive(Serialize, Deserialize)]
struct Known {
    /// When, by the clock of the device that did it.
    at: u64,
    /// For how long this device has known, in milliseconds.
    waited: u64,
}

/// What this device knows to be deleted.
#[derive(Default, Serialize, Deserialize)]
struct Waiting {
    /// When it last looked, by its own clock.
    looked: u64,
    known: BTreeMap<String, Known>,
}

/// Looks at what is deleted, each with the time of its deletion, and tells
/// what of it has been known here for longer than it can be brought back. How long that
/// is, is kept under `key`.
///
/// No clock is believed. The time of a deletion is another device's, so that
/// only the time since this device first heard of it counts; and of that at
/// most a week between two looks, so that a clock that is wrong once, ahead or
/// behind, hurries things by a week at worst. Who looks less often than once a
/// week waits longer. What was brought back and deleted again starts anew.
pub(super) fn look(
    port: &dyn Port,
    key: &str,
    deleted: &BTreeMap<String, u64>,
    now: u64,
) -> Vec<String> {
    let text = port.read(key);
    let before = text.as_deref().and_then(versioned::body);
    let before = before.and_then(|body| Waiting::deserialize(body).ok());
    let before = before.unwrap_or_default();
    let passed = now.saturating_sub(before.looked).min(STRIDE);
    let known = deleted.iter().map(|(name, at)| {
        let known = before.known.get(name).filter(|known| known.at == *at);
        let waited = known.map_or(0, |known| known.waited.saturating_add(passed));
        (name.clone(), Known { at: *at, waited })
    });
    let after = Waiting {
        looked: now,
        known: known.collect(),
    };
    if after.known.is_empty() {
        port.remove(key);
    } else {
        // Without room the time that has passed counts the next time.
        let _ = port.write(key, &versioned::text(&after));
    }
    let known = after.known.into_iter();
    known
        .filter(|(_, known)| known.waited > RECOVERABLE)
        .map(|(name, _)| name)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{DAY, DELETED, UNUSED, look};
    use crate::store::{Memory, Port as _};

    #[test]
    fn only_time_that_was_lived_through_counts() {
        let port = Memory::default();
        let deleted = [("recipe/a".to_owned(), 5)].into();
        let start = 1_000 * DAY;
        // A year ahead and back again.
        for now in [start, start + 365 * DAY, start] {
            assert!(look(&port, DELETED, &deleted, now).is_empty());
        }
        // A week is lost to that; the rest has to pass.
        let rest = 23;
        for day in 1..=rest {
            assert!(
                look(&port, DELETED, &deleted, start + day * DAY).is_empty(),
                "{day}"
            );
        }
        let last = start + rest * DAY + 1;
        assert_eq!(look(&port, DELETED, &deleted, last), ["recipe/a"]);
        // Deleted once more, it is all to be waited for again.
        let again = [("recipe/a".to_owned(), 6)].into();
        assert!(look(&port, DELETED, &again, last + DAY).is_empty());
        assert!(look(&port, DELETED, &again, last + 2 * DAY).is_empty());
        assert!(look(&port, DELETED, &[].into(), last).is_empty());
        // What is unused is counted by itself.
        assert!(look(&port, UNUSED, &again, last).is_empty());
        assert_eq!(port.read(DELETED), None);
    }

    #[test]
    fn a_clock_that_starts_in_another_century_hurries_nothing() {
        let port = Memory::default();
        let deleted = [("recipe/a".to_owned(), 0)].into();
        assert!(look(&port, DELETED, &deleted, 0).is_empty());
        let now = 20_000 * DAY;
        assert!(look(&port, DELETED, &deleted, now).is_empty());
        assert!(look(&port, DELETED, &deleted, now + DAY).is_empty());
    }
}
