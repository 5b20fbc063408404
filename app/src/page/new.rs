//! Beginning a recipe.

use foldwright_engine::card::work_out;
use foldwright_engine::recipe::{Starter, starters};
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use super::page_title;
use crate::part::Miniature;
use crate::store::Store;

/// The folds to start from.
#[component]
pub(crate) fn New() -> impl IntoView {
    page_title(|| String::from("New recipe"));
    view! {
        <section class="page">
            <h1>"Choose a fold"</h1>
            <p class="lead">
                "Each is a recipe like any other: every measure, fold and paper can be changed \
                 afterwards."
            </p>
            <p class="lead">
                <a href="/list" class="button">"Or type in measures you have"</a>
            </p>
            <ul class="tiles starters">
                {starters().iter().map(|starter| view! { <Begin starter/> }).collect_view()}
            </ul>
        </section>
    }
}

/// One of them.
#[component]
fn Begin(starter: &'static Starter) -> impl IntoView {
    let store = expect_context::<Store>();
    let navigate = use_navigate();
    let settings = store.settings();
    let recipe = starter.recipe_in(settings.notation);
    let card = work_out(&recipe, &settings.tools());
    let size = settings
        .notation
        .size(card.finished.width, card.finished.height);
    let name = recipe.name.clone();
    let shown = recipe.clone();
    let begin = move |_| {
        if let Some(id) = store.put(&recipe) {
            navigate(&format!("/recipe/{id}"), NavigateOptions::default());
        }
    };
    view! {
        <li class="tile">
            <button class="tile-link" data-starter=starter.id.as_str() on:click=begin>
                <span class="tile-figure"><Miniature recipe=shown card name=starter.id.as_str()/></span>
                <span class="tile-text">
                    <span class="tile-name">{name}</span>
                    <span class="tile-about">{starter.about.as_str()}</span>
                    <span class="tile-size">{size}</span>
                </span>
            </button>
        </li>
    }
}
