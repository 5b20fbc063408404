//! The way in: something came out different.

use foldwright_engine::steps::Kind;
use leptos::prelude::*;

use super::Rescuing;
use crate::bench::table::Table;

/// The button on each step. At a step of cutting or scoring it is about that
/// one; anywhere else it asks first which one.
#[component]
pub(in crate::bench) fn CameOutDifferent() -> impl IntoView {
    let table = Table::here();
    let rescuing = Rescuing::here();
    let here = Memo::new(move |_| {
        table.step.with(|step| {
            let step = step.as_ref()?;
            matches!(step.kind, Kind::Cut | Kind::Score).then(|| step.key.clone())
        })
    });
    // Before anything is cut, nothing has come out.
    let begun = move || {
        table
            .step
            .with(|step| step.as_ref().is_none_or(|step| step.kind != Kind::Gather))
    };
    let words = move || {
        if here.with(Option::is_some) {
            "This came out different"
        } else {
            "Something came out different"
        }
    };
    view! {
        <Show when=begun>
            <button
                type="button"
                class="button bench-way came-out"
                aria-haspopup="dialog"
                on:click=move |_| rescuing.ask(here.get_untracked())
            >
                {words}
            </button>
        </Show>
    }
}
