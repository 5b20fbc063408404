//! Passing a file on through the system, to whatever the maker likes.

use leptos::prelude::window;
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::{Array, Reflect, Uint8Array};
use web_sys::wasm_bindgen::JsValue;
use web_sys::{File, FilePropertyBag, ShareData};

/// A file for the system; `None` where the browser passes none of its kind on.
pub(crate) fn to_hand_on(name: &str, kind: &str, bytes: &[u8]) -> Option<ShareData> {
    let navigator = window().navigator();
    // Missing in some browsers, and where the address is neither localhost nor HTTPS.
    let can = Reflect::get(&navigator, &JsValue::from_str("canShare"));
    can.ok().filter(JsValue::is_function)?;
    let of_kind = FilePropertyBag::new();
    of_kind.set_type(kind);
    let parts = Array::of1(&Uint8Array::from(bytes));
    let file = File::new_with_u8_array_sequence_and_options(&parts, name, &of_kind).ok()?;
    let data = ShareData::new();
    data.set_files(&Array::of1(&file));
    navigator.can_share_with_data(&data).then_some(data)
}

/// Lets the maker say where it goes.
pub(crate) async fn hand_on(data: &ShareData) {
    // Fails where somebody thinks better of it; the file is still offered.
    let _ = JsFuture::from(window().navigator().share_with_data(data)).await;
}
