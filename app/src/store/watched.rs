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
        self.touched.add(key.to_owned());
        Ok(())
    }

    fn remove(&self, key: &str) {
        self.port.remove(key);
        self.touched.add(key.to_owned());
    }

    fn keys(&self) -> Vec<String> {
        self.port.keys()
    }
}
