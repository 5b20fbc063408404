//! What is said before anything is cut when the card cannot be made.

use leptos::prelude::*;

use super::table::Table;
use crate::part::told;
use crate::spoken::{speaker, texts};

/// What is wrong, and the way to the recipe.
#[component]
pub(super) fn Stopped(
    /// Set when the maker wants to see the steps all the same.
    warned: RwSignal<bool>,
) -> impl IntoView {
    let table = Table::here();
    let problems = move || {
        table.bare.with(|recipe| {
            let say = speaker(recipe).with_exact();
            table.blocking.with(|stops| {
                let problems = stops.iter().map(|problem| {
                    let stop = say.problem(problem);
                    view! {
                        <li>
                            <p class="stop-what">{told(stop.what)}</p>
                            <p>{told(stop.why)}</p>
                            <p>{told(stop.remedy)}</p>
                        </li>
                    }
                });
                problems.collect_view()
            })
        })
    };
    view! {
        <section class="stopped">
            <h1>{texts().bench.do_not_cut}</h1>
            <p>{texts().bench.cannot_be_made}</p>
            <ul class="stops">{problems}</ul>
            <div class="stopped-ways">
                <a class="button primary bench-way" href=table.recipe_address()>{texts().bench.put_right}</a>
                <button type="button" class="button bench-way" on:click=move |_| warned.set(true)>
                    {texts().bench.show_all_the_same}
                </button>
            </div>
        </section>
    }
}
