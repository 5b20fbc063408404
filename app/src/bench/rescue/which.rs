//! Which of the steps so far came out different.

use foldwright_engine::steps::Kind;
use leptos::prelude::*;

use super::{Lead, Rescuing, is_reached};
use crate::bench::place::Place;
use crate::bench::table::Table;

/// The steps of cutting and scoring up to here.
#[component]
pub(super) fn Which() -> impl IntoView {
    let table = Table::here();
    let rescuing = Rescuing::here();
    let here = untrack(|| match table.place.get() {
        Place::At(number) => Some(number),
        Place::Finish => None,
    });
    let rows = untrack(|| {
        table.steps.with(|steps| {
            let made = steps.iter().enumerate();
            let made = made.filter(|(_, step)| matches!(step.kind, Kind::Cut | Kind::Score));
            made.filter(|(number, _)| is_reached(table, *number, here))
                .map(|(_, step)| {
                    let key = step.key.clone();
                    let numbers: Vec<_> = step
                        .figures
                        .iter()
                        .map(|figure| figure.value.clone())
                        .collect();
                    view! {
                        <li>
                            <button
                                type="button"
                                class="row which"
                                on:click=move |_| rescuing.ask(Some(key.clone()))
                            >
                                <span>{step.title.clone()}</span>
                                <span class="quiet">{numbers.join(", ")}</span>
                            </button>
                        </li>
                    }
                })
                .collect_view()
        })
    });
    view! {
        <Lead words="Choose what you made."/>
        <ul class="rows">{rows}</ul>
    }
}
