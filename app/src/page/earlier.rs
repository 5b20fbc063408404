//! What a recipe was before.

use foldwright_document::Past;
use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use super::{page_title, recipe_in_address};
use crate::notice::{Notice, Notices};
use crate::part::{Small, moment, worked_out};
use crate::store::Store;
use crate::sync::Syncing;

/// The states that are kept of the recipe the address names.
#[component]
pub(crate) fn Earlier() -> impl IntoView {
    page_title(|| String::from("What it was before"));
    let store = expect_context::<Store>();
    let syncing = expect_context::<Syncing>();
    let id = recipe_in_address();
    let past = Memo::new(move |_| syncing.past(&id.get()));
    let name = move || {
        let recipe = store.read(&id.get());
        recipe.map(|recipe| recipe.name).unwrap_or_default()
    };
    view! {
        <section class="page">
            <h1>"What it was before"</h1>
            <p class="lead">
                {name} ": a state is kept before each spell of work on it, several of the last \
                 day and one a day before. Going back keeps the present state here too."
            </p>
            <Show
                when=move || past.with(|past| !past.is_empty())
                fallback=|| view! { <p class="quiet">"It has always been as it is."</p> }
            >
                <ul class="tiles">
                    <For
                        each=move || past.get()
                        key=|(past, _)| past.key.clone()
                        children=move |(past, recipe)| view! { <OneState past recipe id/> }
                    />
                </ul>
            </Show>
        </section>
    }
}

#[component]
fn OneState(past: Past, recipe: Recipe, id: Memo<String>) -> impl IntoView {
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let navigate = use_navigate();
    let settings = store.settings();
    let card = worked_out(&recipe, settings.tools());
    let notation = recipe.notation;
    let size = move || {
        card.with(|card| {
            let finished = card.as_ref().map(|card| card.finished);
            finished.map(|finished| notation.size(finished.width, finished.height))
        })
    };
    let when = moment(past.at);
    let by = if past.by.is_empty() {
        String::new()
    } else {
        format!("· until changed on {}", past.by)
    };
    let figure = format!("e{}", past.at);
    let label = format!("Go back to {when}");
    let shown = recipe.clone();
    let name = recipe.name.clone();
    let back = move |_| {
        let (id, earlier) = (id.get_untracked(), recipe.clone());
        let present = store.read(&id);
        store.change(&id, |recipe| *recipe = earlier);
        let text = "The recipe is as it was. Its present state is kept with the others.";
        let notice = Notice::plain(text);
        notices.show(match present {
            Some(present) => {
                let id = id.clone();
                notice.with("Undo", move || {
                    store.change(&id, |recipe| recipe.clone_from(&present));
                })
            }
            None => notice,
        });
        navigate(&format!("/recipe/{id}"), NavigateOptions::default());
    };
    view! {
        <li class="tile">
            <button class="tile-link" aria-label=label on:click=back>
                <span class="tile-figure"><Small recipe=shown card name=figure/></span>
                <span class="tile-text">
                    <span class="tile-name">{when}</span>
                    <span class="tile-about">{name}</span>
                    <span class="tile-size">{size} " " {by}</span>
                </span>
            </button>
        </li>
    }
}
