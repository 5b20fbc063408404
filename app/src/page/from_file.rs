//! The way in for recipes that come as files.

use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;
use web_sys::File;

use crate::fetched::{Fetching, NOT_FETCHED};
use crate::notice::{Notice, Notices};
use crate::store::Store;

/// The largest file that is read. Our own bound: several times what a browser
/// keeps for one site.
const MOST_BYTES: f64 = 40e6;

fn too_large(name: &str, bytes: f64) -> String {
    let megabytes = |bytes: f64| (bytes / 1e6).ceil();
    format!(
        "{name}: This file has {} MB, and no file of recipes has more than {}. Choose another one.",
        megabytes(bytes),
        megabytes(MOST_BYTES)
    )
}

/// Takes in recipes from files.
#[component]
pub(crate) fn FromFile() -> impl IntoView {
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let fetching = expect_context::<Fetching>();
    let field = NodeRef::<html::Input>::new();
    let chosen = move |_| {
        let Some(field) = field.get() else { return };
        let files: Vec<File> = field
            .files()
            .map(|files| {
                (0..files.length())
                    .filter_map(|place| files.get(place))
                    .collect()
            })
            .unwrap_or_default();
        // So that the same file can be chosen again.
        field.set_value("");
        spawn_local(async move {
            let Ok(pages) = fetching.pages().await else {
                notices.show(Notice::warning("import", NOT_FETCHED));
                return;
            };
            for file in files {
                let name = file.name();
                if file.size() > MOST_BYTES {
                    notices.show(Notice::warning("import", too_large(&name, file.size())));
                    continue;
                }
                let text = JsFuture::from(file.text()).await;
                let text = text.ok().and_then(|text| text.as_string());
                let syncing = fetching.syncing();
                notices.show((pages.take_in)(store, syncing, &name, text.as_deref()));
            }
        });
    };
    view! {
        <label class="button quiet file">
            <input
                node_ref=field
                class="visually-hidden"
                type="file"
                accept=".json,application/json"
                multiple
                on:change=chosen
            />
            "Add from a file"
        </label>
    }
}
