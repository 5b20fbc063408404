//! Code that could not be fetched, and another try.

use leptos::prelude::*;

use crate::spoken::first;

/// Says that something is not here, and tries `again`.
#[component]
pub(crate) fn NotHere(again: impl Fn() + 'static) -> impl IntoView {
    view! {
        <p>{first().not_fetched}</p>
        <button type="button" class="button" on:click=move |_| again()>
            {first().try_again}
        </button>
    }
}
