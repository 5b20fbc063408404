//! What a store needs of the place that keeps its texts.

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

/// Why something is not kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refused {
    /// The place would not take it: it is full, or it keeps nothing at all.
    Full,
    /// It could not be read again.
    Unreadable,
}

/// Keeps texts under keys.
pub trait Port: Send + Sync {
    /// The text under a key.
    fn read(&self, key: &str) -> Option<String>;
    /// Puts a text under a key. When refused, the old one is still there.
    fn write(&self, key: &str, text: &str) -> Result<(), Refused>;
    /// Takes a text away.
    fn remove(&self, key: &str);
    /// All keys, in no particular order.
    fn keys(&self) -> Vec<String>;
    /// Somebody else has changed something, so that what is known of it no longer
    /// counts.
    fn changed_elsewhere(&self) {}
    /// Whether there is a text under a key.
    fn has(&self, key: &str) -> bool {
        self.read(key).is_some()
    }
    /// The first line of the text under a key, at no more cost than that.
    fn head(&self, key: &str) -> Option<String> {
        let text = self.read(key)?;
        text.split('\n').next().map(str::to_owned)
    }
    /// How much of the room a text takes with its key, in UTF-16 units.
    fn taken_by(&self, key: &str) -> u64 {
        self.read(key).map_or(0, |text| units(key) + units(&text))
    }
    /// Whether what is under a key is not to be seen yet.
    fn hides(&self, _key: &str) -> bool {
        false
    }
    /// The keys that are there and not to be seen yet.
    fn hidden(&self) -> Vec<String> {
        Vec::new()
    }
}

/// How many UTF-16 units a text has.
pub(super) fn units(text: &str) -> u64 {
    // Two for each letter that takes four bytes in UTF-8, and one for each other:
    // counting them one by one takes longer, and it is asked of all that is kept.
    let long = text.bytes().filter(|byte| *byte >= 0xf0).count();
    (text.chars().count() + long) as u64
}

/// Keeps texts until the page is left.
#[derive(Debug, Default)]
pub struct Memory {
    texts: Mutex<BTreeMap<String, String>>,
    /// The most UTF-16 units it takes; `None` for no bound.
    room: Option<u64>,
}

impl Memory {
    /// A memory that takes so many UTF-16 units, keys included.
    pub fn with_room(room: u64) -> Self {
        Self {
            texts: Mutex::default(),
            room: Some(room),
        }
    }

    fn texts(&self) -> std::sync::MutexGuard<'_, BTreeMap<String, String>> {
        // A map is whole after each of the calls below, whoever panicked.
        self.texts.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Port for Memory {
    fn read(&self, key: &str) -> Option<String> {
        self.texts().get(key).cloned()
    }

    fn write(&self, key: &str, text: &str) -> Result<(), Refused> {
        let mut texts = self.texts();
        let others = texts.iter().filter(|(held, _)| *held != key);
        let taken: u64 = others.map(|(held, text)| units(held) + units(text)).sum();
        if self
            .room
            .is_some_and(|room| taken + units(key) + units(text) > room)
        {
            return Err(Refused::Full);
        }
        texts.insert(key.to_owned(), text.to_owned());
        Ok(())
    }

    fn remove(&self, key: &str) {
        self.texts().remove(key);
    }

    fn keys(&self) -> Vec<String> {
        self.texts().keys().cloned().collect()
    }
}
