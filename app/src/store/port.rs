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
}

/// Keeps texts until the page is left.
#[derive(Debug, Default)]
pub struct Memory {
    texts: Mutex<BTreeMap<String, String>>,
    /// The most characters it takes; `None` for no bound.
    room: Option<usize>,
}

impl Memory {
    /// A memory that takes so many characters, keys included.
    pub fn with_room(room: usize) -> Self {
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
        let taken: usize = others.map(|(held, text)| held.len() + text.len()).sum();
        if self
            .room
            .is_some_and(|room| taken + key.len() + text.len() > room)
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
