//! The warning of a browser that keeps nothing.

use leptos::prelude::*;

use crate::store::Store;

/// Says that recipes are lost with the page, where the browser forbids storage.
#[component]
pub(crate) fn Forgets() -> impl IntoView {
    let store = expect_context::<Store>();
    view! {
        <Show when=move || !store.lasts()>
            <p class="callout warning">
                "This browser does not let Foldwright keep anything. Download your recipes \
                 before you leave the page."
            </p>
        </Show>
    }
}
