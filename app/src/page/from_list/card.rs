//! The card that the list makes.

use foldwright_engine::card::work_out;
use foldwright_words::fault;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use super::Desk;
use crate::part::{Miniature, told};
use crate::spoken::{language, naming, speaker, texts};
use crate::store::Store;

/// Its picture, and the button that keeps it.
#[component]
pub(super) fn FoundCard(desk: Desk) -> impl IntoView {
    let store = expect_context::<Store>();
    let navigate = use_navigate();
    let recipe = Memo::new(move |_| {
        let taken = desk.taken();
        desk.read.with(|read| read.into_recipe(&taken, naming()))
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
            let words = speaker(&recipe).whole(&card.facts());
            let size = speaker(&recipe).with_exact().short_size(card.finished);
            let name = recipe.name.clone();
            let found = view! {
                <div class="list-card">
                    <div class="tile-figure"><Miniature recipe card name="list"/></div>
                    <div class="list-card-text">
                        <p class="tile-name">{name}</p>
                        <p class="tile-size">{told(texts().begin.closed(&size))}</p>
                        <p class="visually-hidden">{words}</p>
                        <button
                            type="button"
                            class="button primary"
                            on:click=move |event| make.with_value(|make| make(event))
                        >
                            {texts().begin.make_recipe}
                        </button>
                    </div>
                </div>
            };
            Some(found.into_any())
        }
        Some(recipe) => {
            let faults = recipe.check().into_iter();
            let faults = faults.map(|it| {
                let words = fault(language(), &recipe, &it);
                view! { <p class="read-wrong">{words}</p> }
            });
            Some(faults.collect_view().into_any())
        }
        None => any().then(|| {
            view! {
                <p class="quiet">
                    {texts().begin.card_comes_up}
                </p>
            }
            .into_any()
        }),
    }
}
