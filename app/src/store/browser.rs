//! The browser's own storage, as a place for texts.

use gloo_storage::{LocalStorage, Storage as _};

use super::port::{Memory, Port, Refused};

/// What the browser keeps for this address.
struct Browser;

/// The browser's storage; where it has none or forbids it, a memory that
/// lasts until the page is left. Says whether what is kept will last.
pub(super) fn port() -> (Box<dyn Port>, bool) {
    let storage = web_sys::window().and_then(|window| window.local_storage().ok().flatten());
    match storage {
        Some(_) => (Box::new(Browser), true),
        None => (Box::new(Memory::default()), false),
    }
}

// Texts are read and written raw: a text that cannot be understood must still
// be kept as it is.
impl Port for Browser {
    fn read(&self, key: &str) -> Option<String> {
        LocalStorage::raw().get_item(key).ok().flatten()
    }

    fn write(&self, key: &str, text: &str) -> Result<(), Refused> {
        LocalStorage::raw()
            .set_item(key, text)
            .map_err(|_| Refused::Full)
    }

    fn remove(&self, key: &str) {
        LocalStorage::delete(key);
    }

    fn keys(&self) -> Vec<String> {
        let storage = LocalStorage::raw();
        (0..LocalStorage::length())
            .filter_map(|place| storage.key(place).ok().flatten())
            .collect()
    }
}
