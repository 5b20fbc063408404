//! Handing the maker a file.

use leptos::prelude::document;
use web_sys::wasm_bindgen::{JsCast as _, JsValue};
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url, js_sys::Array};

/// Offers a text as a file to keep.
pub(crate) fn download(name: &str, text: &str) {
    download_parts(name, &Array::of1(&JsValue::from_str(text)));
}

/// The same with a text that comes in parts.
pub(crate) fn download_parts(name: &str, parts: &Array) {
    // Each of these can only fail where there is no page to click in.
    let _ = offered(name, parts);
}

fn offered(name: &str, parts: &Array) -> Result<(), JsValue> {
    let kind = BlobPropertyBag::new();
    kind.set_type("application/octet-stream");
    let blob = Blob::new_with_str_sequence_and_options(parts, &kind)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let link: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(name);
    link.click();
    Url::revoke_object_url(&address)
}
