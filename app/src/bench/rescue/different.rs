//! The way in: something came out different.

use foldwright_engine::steps::Kind;
use leptos::prelude::*;

use super::{Rescuing, is_of_a_part};
use crate::bench::table::Table;
use crate::spoken::texts;

/// The button on each step. At a step of cutting a part or of scoring it is about
/// that one; anywhere else it asks first which one.
#[component]
pub(in crate::bench) fn CameOutDifferent() -> impl IntoView {
    let table = Table::here();
    let rescuing = Rescuing::here();
    let here = Memo::new(move |_| {
        table.step.with(|step| {
            let step = step.as_ref()?;
            is_of_a_part(step).then_some(step.key)
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
            texts().rescue.this_came_out
        } else {
            texts().rescue.something_came_out
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
