//! The card that the list makes.

use foldwright_engine::card::work_out;
use foldwright_engine::words::card_in_words;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use super::Desk;
use crate::part::Miniature;
use crate::store::Store;

/// Its picture, and the button that keeps it.
#[component]
pub(super) fn FoundCard(desk: Desk) -> impl IntoView {
    let store = expect_context::<Store>();
    let navigate = use_navigate();
    let recipe = Memo::new(move |_| {
        let taken = desk.taken();
        desk.read.with(|read| read.into_recipe(&taken))
    });
    let make = move |_| {
        if let Some(recipe) = recipe.get_untracked()
            && let Some(id) = store.put(&recipe)
        {
            navigate(&format!("/recipe/{id}"), NavigateOptions::default());
        }
    };
    let make = StoredValue::new_local(make);
    let any = move || desk.read.with(|read| !read.lines.is_empty());
    move || match recipe.get() {
        Some(recipe) if recipe.check().is_empty() => {
            let card = work_out(&recipe, &store.settings().tools());
            let words = card_in_words(&recipe, &card);
            let size = recipe
                .notation
                .size(card.finished.width, card.finished.height);
            let name = recipe.name.clone();
            let found = view! {
                <div class="list-card">
                    <div class="tile-figure"><Miniature recipe card name="list"/></div>
                    <div class="list-card-text">
                        <p class="tile-name">{name}</p>
                        <p class="tile-size">{format!("{size} closed")}</p>
                        <p class="visually-hidden">{words}</p>
                        <button
                            type="button"
                            class="button primary"
                            on:click=move |event| make.with_value(|make| make(event))
                        >
                            "Make it a recipe"
                        </button>
                    </div>
                </div>
            };
            Some(found.into_any())
        }
        Some(recipe) => {
            let faults = recipe.check().into_iter();
            let faults =
                faults.map(|fault| view! { <p class="read-wrong">{fault.to_string()}</p> });
            Some(faults.collect_view().into_any())
        }
        None => any().then(|| {
            view! {
                <p class="quiet">
                    "A card comes up as soon as a line gives a size, such as 5 1/2 x 8 1/2."
                </p>
            }
            .into_any()
        }),
    }
}
