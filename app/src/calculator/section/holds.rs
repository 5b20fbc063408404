//! What holds between the numbers, and how much each matters.

use foldwright_engine::recipe::Holds;
use leptos::prelude::*;

use super::super::choice::Segments;
use super::super::desk::Desk;

/// The relations of the recipe, the most important first.
#[component]
pub(super) fn Holding() -> impl IntoView {
    let desk = Desk::here();
    let count = Memo::new(move |_| desk.recipe.with(|recipe| recipe.relations.len()));
    view! {
        <h2>"Rules kept"</h2>
        <p class="quiet">
            "Kept whenever a number moves. Rules marked “if possible” give way first, the lowest \
             first. To tie two numbers, tap one of them in the figure or on a tab."
        </p>
        <Show when=move || count.get() == 0>
            <p class="quiet">"Nothing but the sums of the panels and the places of the layers."</p>
        </Show>
        <ol class="panels holding">
            <For each=move || 0..count.get() key=|place| *place children=move |place| view! { <RelationRow place/> }/>
        </ol>
    }
}

#[component]
fn RelationRow(place: usize) -> impl IntoView {
    let desk = Desk::here();
    let words = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let relation = recipe.relations.get(place);
            relation.map_or_else(String::new, |relation| relation.words(recipe))
        })
    });
    let holds = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let relation = recipe.relations.get(place);
            relation.map_or(Holds::Must, |relation| relation.holds)
        })
    });
    let choose = move |wanted: Holds| {
        if wanted != holds.get_untracked() {
            desk.edit(None, |recipe| recipe.let_hold(place, wanted));
        }
    };
    let up = move |_| {
        desk.edit(None, |recipe| recipe.prefer(place));
    };
    let drop = move |_| {
        desk.edit(None, |recipe| recipe.untie(place));
    };
    view! {
        <li class="panel">
            <p>{words}</p>
            <Segments
                label="How much it matters"
                options=vec![(Holds::Must, "Always"), (Holds::Should, "If possible")]
                chosen=holds
                choose
            />
            <div class="actions">
                <button
                    type="button"
                    class="button quiet"
                    disabled=place == 0
                    aria-label=move || format!("Move up: {}", words.get())
                    on:click=up
                >
                    "Move up"
                </button>
                <button
                    type="button"
                    class="button quiet"
                    aria-label=move || format!("Remove: {}", words.get())
                    on:click=drop
                >
                    "Remove"
                </button>
            </div>
        </li>
    }
}
