//! The browser's own storage, as a place for texts.

use std::sync::{Mutex, MutexGuard, PoisonError};

use foldwright_engine::sorted::InOrder as _;
use gloo_storage::{LocalStorage, Storage as _};
use web_sys::js_sys::{Function, JsString, Reflect};
use web_sys::wasm_bindgen::{JsCast as _, JsValue};

use super::port::{Memory, Port, Refused, units};

/// What the browser keeps for this address.
#[derive(Default)]
struct Browser {
    /// The keys there are, in order, once they were asked for. Asking the browser
    /// for thousands takes long, and many things ask at the same time.
    keys: Mutex<Option<Vec<String>>>,
}

impl Browser {
    fn known(&self) -> MutexGuard<'_, Option<Vec<String>>> {
        self.keys.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// The browser's storage; where it has none or forbids it, a memory that
/// lasts until the page is left. Says whether what is kept will last.
pub(super) fn port() -> (Box<dyn Port>, bool) {
    let storage = web_sys::window().and_then(|window| window.local_storage().ok().flatten());
    match storage {
        Some(_) => (Box::<Browser>::default(), true),
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
            .map_err(|_| Refused::Full)?;
        if let Some(keys) = &mut *self.known()
            && let Err(place) = place_of(keys, key)
        {
            keys.insert(place, key.to_owned());
        }
        Ok(())
    }

    fn remove(&self, key: &str) {
        LocalStorage::delete(key);
        if let Some(keys) = &mut *self.known()
            && let Ok(place) = place_of(keys, key)
        {
            keys.remove(place);
        }
    }

    fn keys(&self) -> Vec<String> {
        let mut known = self.known();
        // Another tab's changes are heard of a little later than they are made.
        let count = LocalStorage::length();
        let keys = known.take().filter(|keys| keys.len() == count as usize);
        let keys = keys.unwrap_or_else(|| {
            let storage = LocalStorage::raw();
            let keys = (0..count).filter_map(|place| storage.key(place).ok().flatten());
            let mut keys: Vec<String> = keys.collect();
            keys.put_in_order();
            keys
        });
        known.insert(keys).clone()
    }

    fn changed_elsewhere(&self) {
        *self.known() = None;
    }

    fn taken_by(&self, key: &str) -> u64 {
        let text = there(&LocalStorage::raw(), key);
        text.map_or(0, |text| units(key) + u64::from(text.length()))
    }

    fn has(&self, key: &str) -> bool {
        there(&LocalStorage::raw(), key).is_some()
    }

    fn head(&self, key: &str) -> Option<String> {
        let text = there(&LocalStorage::raw(), key)?;
        let end = u32::try_from(text.index_of("\n", 0)).unwrap_or(text.length());
        Some(text.substring(0, end).into())
    }
}

/// Where a key stands among others, or would.
fn place_of(keys: &[String], key: &str) -> Result<usize, usize> {
    keys.binary_search_by(|known| known.as_str().cmp(key))
}

/// The browser's own text under a key.
fn there(storage: &web_sys::Storage, key: &str) -> Option<JsString> {
    let get = JsValue::from_str("getItem");
    let get: Function = Reflect::get(storage, &get).ok()?.dyn_into().ok()?;
    get.call1(storage, &key.into()).ok()?.dyn_into().ok()
}
