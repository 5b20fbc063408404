//! The way in for recipes that come as files.

use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::File;

use super::importing::Importing;
use crate::fetched::Fetching;
use crate::notice::{Notice, Notices};
use crate::spoken::first;
use crate::store::Store;

/// The largest file that is read. Our own bound: several times what a browser
/// keeps for one site.
const MOST_BYTES: f64 = 40e6;

fn too_large(name: &str, bytes: f64) -> String {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "no file has so many megabytes, nor fewer than none"
    )]
    let megabytes = |bytes: f64| (bytes / 1e6).ceil() as usize;
    first().too_large(name, megabytes(bytes), megabytes(MOST_BYTES))
}

/// Takes in recipes from files.
#[component]
pub(crate) fn FromFile() -> impl IntoView {
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let fetching = expect_context::<Fetching>();
    let importing = expect_context::<Importing>();
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
        if importing.is_busy() {
            notices.show(Notice::warning("import", first().adding_another));
            return;
        }
        spawn_local(async move {
            for file in files {
                let (name, bytes) = (file.name(), file.size());
                if bytes > MOST_BYTES {
                    notices.show(Notice::warning("import", too_large(&name, bytes)));
                    continue;
                }
                let Ok(take_in) = fetching.taking_in().await else {
                    notices.show(Notice::warning("import", first().not_fetched));
                    return;
                };
                let told = take_in(store, fetching, importing, file).await;
                notices.show(told);
            }
        });
    };
    view! {
        <label class="button quiet file">
            <input
                node_ref=field
                class="visually-hidden"
                type="file"
                accept=".json,.fold,application/json"
                multiple
                on:change=chosen
            />
            {first().add_from_file}
        </label>
    }
}
