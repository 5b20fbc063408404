//! What is said before a step that came out another way when a recipe was
//! brought together of changes made in several places.

use leptos::html;
use leptos::prelude::*;

use super::table::Table;

/// What was decided where and what became of it, and the way on.
#[component]
pub(super) fn Joined() -> impl IntoView {
    let table = Table::here();
    let heading = NodeRef::<html::H1>::new();
    heading.on_load(|heading| {
        request_animation_frame(move || {
            // Fails only for an element that is no longer in the page.
            let _ = heading.focus();
        });
    });
    let lines = move || {
        table.joined.with(|joined| {
            let lines = joined
                .iter()
                .flat_map(|joined| joined.decided.iter().chain(&joined.became));
            lines
                .map(|line| view! { <li>{line.clone()}</li> })
                .collect_view()
        })
    };
    view! {
        <section class="stopped">
            <h1 node_ref=heading tabindex="-1">"Look before you go on"</h1>
            <p>
                "This recipe was changed in several places at once, and this step is another one \
                 than before."
            </p>
            <ul class="stops">{lines}</ul>
            <div class="stopped-ways">
                <button type="button" class="button primary bench-way" on:click=move |_| table.look()>
                    "I have looked. Go on"
                </button>
                <a class="button bench-way" href=table.recipe_address()>"Open the recipe"</a>
            </div>
        </section>
    }
}
