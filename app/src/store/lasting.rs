//! Whether the browser keeps what is stored.

use leptos::prelude::window;
use wasm_bindgen_futures::JsFuture;
use web_sys::StorageManager;
use web_sys::js_sys::Promise;
use web_sys::wasm_bindgen::JsValue;

/// Whether it has promised to; nothing where it does not say.
pub(crate) async fn keeps() -> Option<bool> {
    answer(StorageManager::persisted).await
}

/// Asks it to promise, and tells whether it did.
pub(crate) async fn ask_to_keep() -> bool {
    answer(StorageManager::persist).await == Some(true)
}

/// What the browser's storage manager answers; nothing where it has none.
async fn answer(
    question: impl FnOnce(&StorageManager) -> Result<Promise, JsValue>,
) -> Option<bool> {
    let manager = window().navigator().storage();
    if !AsRef::<JsValue>::as_ref(&manager).is_truthy() {
        return None;
    }
    let asked = question(&manager).ok()?;
    JsFuture::from(asked).await.ok()?.as_bool()
}
