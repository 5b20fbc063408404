//! Beginning a recipe.

use std::time::Duration;

use foldwright_engine::card::work_out;
use foldwright_engine::recipe::Starter;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use super::page_title;
use crate::folds::{FoldWords, Folds};
use crate::part::{InSpace, heard};
use crate::spoken::{starting, texts};
use crate::stand_in::take_place;
use crate::store::Store;

/// The folds to start from.
#[component]
pub(crate) fn New() -> impl IntoView {
    page_title(|| String::from(texts().list.new_recipe));
    let folds = view! { <Folds tile=|starter| view! { <Begin starter/> }.into_any()/> };
    // After the pictures, which come a moment later in their order.
    set_timeout(take_place, Duration::ZERO);
    folds
}

/// One of them.
#[component]
fn Begin(starter: &'static Starter) -> impl IntoView {
    let store = expect_context::<Store>();
    let navigate = use_navigate();
    let settings = store.settings();
    let recipe = starting(starter, settings.notation);
    let card = work_out(&recipe, &settings.tools());
    let size = settings
        .notation
        .size(card.finished.width, card.finished.height);
    let (name, about) = (recipe.name.clone(), recipe.about.clone());
    let shown = recipe.clone();
    let begin = move |_| {
        if let Some(id) = store.put(&recipe) {
            navigate(&format!("/recipe/{id}"), NavigateOptions::default());
        }
    };
    view! {
        <button class="tile-link" data-starter=starter.id.as_str() on:click=begin>
            <span class="tile-figure"><InSpace recipe=shown card name=starter.id.as_str()/></span>
            <FoldWords name about size=heard(size).into_any()/>
        </button>
    }
}
