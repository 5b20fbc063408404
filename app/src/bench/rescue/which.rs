//! Which of the steps so far came out different.

use foldwright_words::ToldFigure;
use leptos::prelude::*;

use super::{Lead, Rescuing, is_of_a_part, is_reached};
use crate::bench::place::Place;
use crate::bench::table::Table;
use crate::part::heard;
use crate::spoken::texts;

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
            let made = made.filter(|(_, step)| is_of_a_part(step));
            made.filter(|(number, _)| is_reached(table, *number, here))
                .map(|(_, step)| {
                    let key = step.key;
                    let told = table.told(step);
                    let numbers: Vec<_> = told.figures.iter().map(ToldFigure::whole).collect();
                    view! {
                        <li>
                            <button
                                type="button"
                                class="row which"
                                on:click=move |_| rescuing.ask(Some(key))
                            >
                                <span>{heard(told.title)}</span>
                                <span class="quiet">{heard(numbers.join(", "))}</span>
                            </button>
                        </li>
                    }
                })
                .collect_view()
        })
    });
    view! {
        <Lead words=texts().rescue.choose_made/>
        <ul class="rows">{rows}</ul>
    }
}
