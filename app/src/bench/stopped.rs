//! What is said before anything is cut when the card cannot be made.

use leptos::prelude::*;

use super::table::Table;

/// What is wrong, and the way to the recipe.
#[component]
pub(super) fn Stopped(
    /// Set when the maker wants to see the steps all the same.
    warned: RwSignal<bool>,
) -> impl IntoView {
    let table = Table::here();
    let problems = move || {
        table.blocking.with(|stops| {
            let problems = stops.iter().map(|problem| {
                view! {
                    <li>
                        <p class="stop-what">{problem.what.clone()}</p>
                        <p>{problem.why.clone()}</p>
                        <p>{problem.remedy.clone()}</p>
                    </li>
                }
            });
            problems.collect_view()
        })
    };
    view! {
        <section class="stopped">
            <h1>"Don't cut yet"</h1>
            <p>"As the recipe stands, this card can't be made."</p>
            <ul class="stops">{problems}</ul>
            <div class="stopped-ways">
                <a class="button primary bench-way" href=table.recipe_address()>"Put the recipe right"</a>
                <button type="button" class="button bench-way" on:click=move |_| warned.set(true)>
                    "Show the steps all the same"
                </button>
            </div>
        </section>
    }
}
