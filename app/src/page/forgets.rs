//! Warnings that recipes may be lost with the browser.

use leptos::prelude::*;

use crate::spoken::{first, texts};
use crate::store::Store;

/// Says that recipes are lost with the page, where the browser forbids storage.
#[component]
pub(crate) fn Forgets() -> impl IntoView {
    let store = expect_context::<Store>();
    view! {
        <Show when=move || !store.lasts()>
            <p class="callout warning">
                {first().not_kept_here}
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
    let taken = store.room_taken();
    move || {
        let taken = taken.get().filter(|taken| *taken >= NEARLY_FULL)?;
        Some(view! { <p class="callout warning">{texts().list.nearly_full(taken)}</p> })
    }
}

/// From so many recipes on it is a pity to lose them. Our own bound.
const SEVERAL: usize = 5;

/// Reminds of a copy from time to time, where recipes are in this browser only.
#[component]
pub(crate) fn Nudge() -> impl IntoView {
    let store = expect_context::<Store>();
    let calm = store.calm();
    let due = Memo::new(move |_| {
        calm.track();
        let many = untrack(|| store.count()) >= SEVERAL;
        many && store.lasts() && store.member().is_none() && store.backup_is_due()
    });
    view! {
        <Show when=move || due.get()>
            <p class="callout">
                {texts().list.only_in_this_browser} " "
                <a href="/devices">{texts().list.bring_in_device}</a> "."
            </p>
        </Show>
    }
}
