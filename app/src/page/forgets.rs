//! Warnings that recipes may be lost with the browser.

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

/// From so full on room is spoken of, in hundredths. Our own bound.
const NEARLY_FULL: u64 = 80;

/// Says how full the browser's storage is, once it is nearly.
#[component]
pub(crate) fn Room() -> impl IntoView {
    let store = expect_context::<Store>();
    let taken = Memo::new(move |_| store.room_taken());
    view! {
        <Show when=move || { taken.get() >= NEARLY_FULL }>
            <p class="callout warning">
                "This browser's room for Foldwright is "
                {move || taken.get().min(100).to_string()}
                " % full. Download recipes you no longer need here, then delete them."
            </p>
        </Show>
    }
}

/// From so many recipes on it is a pity to lose them. Our own bound.
const SEVERAL: usize = 5;

/// Reminds of a copy from time to time, where recipes are in this browser only.
#[component]
pub(crate) fn Nudge() -> impl IntoView {
    let store = expect_context::<Store>();
    let due = Memo::new(move |_| {
        let many = store.recipes().len() >= SEVERAL;
        many && store.lasts() && store.member().is_none() && store.backup_is_due()
    });
    view! {
        <Show when=move || due.get()>
            <p class="callout">
                "These recipes are in this browser only, and there was no copy of them for a \
                 month. Download all below, or " <a href="/devices">"bring in another device"</a>
                "."
            </p>
        </Show>
    }
}
