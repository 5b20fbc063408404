//! One link, to be passed on.

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use foldwright_api::Link;
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;
use web_sys::wasm_bindgen::JsValue;

use crate::spoken::texts;

/// The link as text to copy and as a picture for a camera.
#[component]
pub(super) fn TheLink(link: Link) -> impl IntoView {
    let field = NodeRef::<html::Input>::new();
    let said = RwSignal::new("");
    let address = StoredValue::new(link.link.clone());
    let copy = move |_| {
        if let Some(field) = field.get_untracked() {
            field.select();
        }
        spawn_local(async move {
            let copied = copy(&address.get_value()).await;
            said.try_set(if copied {
                texts().share.copied
            } else {
                texts().share.not_copied
            });
        });
    };
    let picture = (!link.picture.is_empty()).then(|| {
        let picture = BASE64_STANDARD.encode(&link.picture);
        view! {
            <img
                class="share-picture"
                alt=texts().share.link_as_picture
                src=format!("data:image/svg+xml;base64,{picture}")
            />
        }
    });
    view! {
        <div class="share-link">
            <label class="field">
                <span>{texts().share.the_link}</span>
                <input node_ref=field type="text" readonly value=link.link/>
            </label>
            <button type="button" class="button" on:click=copy>{texts().share.copy_link}</button>
            <p class="quiet" role="status">{said}</p>
            {picture}
        </div>
    }
}

/// Whether a text could be put where pasting takes it from.
async fn copy(text: &str) -> bool {
    let clipboard = window().navigator().clipboard();
    // Missing where the address is neither localhost nor HTTPS.
    if !AsRef::<JsValue>::as_ref(&clipboard).is_truthy() {
        return false;
    }
    JsFuture::from(clipboard.write_text(text)).await.is_ok()
}
