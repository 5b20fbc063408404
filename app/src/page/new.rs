//! Beginning a recipe.

use std::time::Duration;

use foldwright_engine::card::{Card, work_out};
use foldwright_engine::recipe::{Recipe, Starter};
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use super::page_title;
use crate::folds::{FoldWords, Folds, Tile};
use crate::part::{InSpace, heard};
use crate::spoken::{speaker, starting, texts};
use crate::stand_in::take_place;
use crate::store::Store;

/// The folds to start from.
#[component]
pub(crate) fn New() -> impl IntoView {
    page_title(|| String::from(texts().list.new_recipe));
    let folds = view! { <Folds tile/> };
    // After the pictures, which come a moment later in their order.
    set_timeout(take_place, Duration::ZERO);
    folds
}

/// One of them. It is found by what it is called, what is said of it, its size, its paper,
/// and the envelopes it goes into.
fn tile(starter: &'static Starter) -> Tile {
    let settings = expect_context::<Store>().settings();
    let recipe = starting(starter, settings.notation);
    let card = work_out(&recipe, &settings.tools());
    let say = speaker(&recipe);
    let envelopes = card.envelopes.iter();
    let envelopes = envelopes.map(|fit| say.envelope(fit.envelope));
    let paper = recipe.stock(recipe.base.stock);
    let paper = paper.map(|stock| stock.name.clone());
    let closed = card.finished;
    let size = settings.notation.size_in_names(closed.width, closed.height);
    let told = [recipe.name.clone(), recipe.about.clone(), size];
    let told_by = told.into_iter().chain(paper).chain(envelopes);
    let told_by = told_by.collect::<Vec<_>>().join(" ");
    Tile {
        view: view! { <Begin starter recipe card/> }.into_any(),
        told_by,
    }
}

/// Begins with one of them.
#[component]
fn Begin(starter: &'static Starter, recipe: Recipe, card: Card) -> impl IntoView {
    let store = expect_context::<Store>();
    let navigate = use_navigate();
    let notation = store.settings().notation;
    let size = notation.size(card.finished.width, card.finished.height);
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
