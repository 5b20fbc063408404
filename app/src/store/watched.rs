//! A place for texts that notes which of them have changed.

use std::collections::BTreeSet;
use std::sync::{Arc, Mutex, PoisonError};

use super::port::{Port, Refused};

/// The keys of texts that have changed, for those who want to know.
#[derive(Debug, Clone, Default)]
pub(super) struct Touched(Arc<Mutex<BTreeSet<String>>>);

impl Touched {
    pub(super) fn add(&self, key: String) {
        self.keys().insert(key);
    }

    /// The keys since the last time.
    pub(super) fn take(&self) -> BTreeSet<String> {
        std::mem::take(&mut self.keys())
    }

    fn keys(&self) -> std::sync::MutexGuard<'_, BTreeSet<String>> {
        // A set is whole after each of the calls above, whoever panicked.
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// A place whose changes are noted.
pub(super) struct Watched {
    pub(super) port: Box<dyn Port>,
    pub(super) touched: Touched,
}

impl Port for Watched {
    fn read(&self, key: &str) -> Option<String> {
        self.port.read(key)
    }

    fn write(&self, key: &str, text: &str) -> Result<(), Refused> {
        self.port.write(key, text)?;
        self.touch(key);
        Ok(())
    }

    fn remove(&self, key: &str) {
        self.port.remove(key);
        self.touch(key);
    }

    fn keys(&self) -> Vec<String> {
        self.port.keys()
    }

    fn changed_elsewhere(&self) {
        self.port.changed_elsewhere();
    }

    fn has(&self, key: &str) -> bool {
        self.port.has(key)
    }

    fn head(&self, key: &str) -> Option<String> {
        self.port.head(key)
    }

    fn taken_by(&self, key: &str) -> u64 {
        self.port.taken_by(key)
    }

    fn hides(&self, key: &str) -> bool {
        self.port.hides(key)
    }

    fn hidden(&self) -> Vec<String> {
        self.port.hidden()
    }
}

impl Watched {
    /// Notes a change of something that is to be seen.
    fn touch(&self, key: &str) {
        if !self.port.hides(key) {
            self.touched.add(key.to_owned());
        }
    }
}
