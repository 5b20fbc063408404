//! All recipes.

use leptos::either::Either;
use leptos::prelude::*;

use super::forgets::{Forgets, Nudge, Room};
use super::from_file::FromFile;
use super::page_title;
use super::share::ShareIt;
use crate::notice::{Notice, Notices};
use crate::part::{Chosen, Icon, Rename, Small, Symbol, worked_out};
use crate::store::{Record, Store, recipe_id, save_file};

/// From so many recipes on, a search field helps more than it stands in the
/// way. Our own bound: about a phone screen of them.
const MANY: usize = 5;

/// The list of recipes.
#[component]
pub(crate) fn Recipes() -> impl IntoView {
    page_title(|| String::from("Recipes"));
    let store = expect_context::<Store>();
    let recipes = Memo::new(move |_| store.recipes());
    let sought = RwSignal::new(String::new());
    let chosen = RwSignal::new(None::<(String, String)>);
    let none = move || recipes.with(Vec::is_empty);
    let found = Memo::new(move |_| {
        let sought = sought.get();
        let mut found = recipes.get();
        found.retain(|(_, record)| matches(record, &sought));
        found
    });
    let export = move |_| {
        let all = recipes.get_untracked();
        let all: Vec<_> = all.into_iter().map(|(_, record)| record.recipe).collect();
        save_file(&all);
        store.backed_up();
    };
    view! {
        <section class="page recipes">
            <div class="page-head">
                <h1>"Recipes"</h1>
                <a class="button primary wide-only" href="/new">
                    <Icon symbol=Symbol::Add/>
                    "New recipe"
                </a>
            </div>
            <Forgets/>
            <Nudge/>
            <Room/>
            <Show when=move || !none()>
                <Show when=move || { recipes.with(Vec::len) >= MANY }>
                    <label class="field search">
                        <span class="visually-hidden">"Search the recipes"</span>
                        <Icon symbol=Symbol::Search/>
                        <input
                            type="search"
                            placeholder="Search"
                            prop:value=sought
                            on:input:target=move |event| sought.set(event.target().value())
                        />
                    </label>
                </Show>
                <ul class="tiles">
                    <For
                        each=move || found.get()
                        key=|(id, record)| (id.clone(), record.stamp)
                        children=move |(id, record)| view! { <Tile id record chosen/> }
                    />
                </ul>
                <p class="quiet" role="status">
                    {move || {
                        found
                            .with(Vec::is_empty)
                            .then(|| format!("No recipe is called “{}”.", sought.get().trim()))
                    }}
                </p>
            </Show>
            <NotWhole/>
            <footer class="page-foot">
                <a class="button quiet" href="/list">"Type in measures you have"</a>
                <a class="button quiet" href="/scrap">"What can I make from a scrap?"</a>
                <a class="button quiet" href="/paper">"Paper at hand"</a>
                <FromFile/>
                <Show when=move || !none()>
                    <button class="button quiet" on:click=export>"Download all"</button>
                </Show>
            </footer>
            <More chosen/>
        </section>
    }
}

/// The recipes that can't be read whole.
#[component]
fn NotWhole() -> impl IntoView {
    let store = expect_context::<Store>();
    let asides = Memo::new(move |_| {
        let mut asides = store.asides();
        asides.retain(|aside| recipe_id(aside.name()).is_some());
        asides
    });
    view! {
        <ul class="rows">
            <For
                each=move || asides.get()
                key=|aside| aside.key.clone()
                children=|aside| {
                    let title = aside.title().map(|title| format!("“{title}”"));
                    let title = title.unwrap_or_else(|| String::from("A recipe"));
                    view! {
                        <li>
                            <a class="row" href="/settings">
                                {title}
                                " can't be read whole. See what can be done."
                            </a>
                        </li>
                    }
                }
            />
        </ul>
    }
}

/// Whether a recipe's name or description has every word that is sought.
fn matches(record: &Record, sought: &str) -> bool {
    let text = format!("{} {}", record.recipe.name, record.recipe.about).to_lowercase();
    sought
        .to_lowercase()
        .split_whitespace()
        .all(|word| text.contains(word))
}

/// One recipe in the list.
#[component]
fn Tile(id: String, record: Record, chosen: RwSignal<Option<(String, String)>>) -> impl IntoView {
    let store = expect_context::<Store>();
    let recipe = record.recipe;
    let card = worked_out(&recipe, store.settings().tools());
    let notation = recipe.notation;
    let size = move || {
        card.with(|card| match card {
            None => String::from("\u{a0}"),
            Some(card) if card.folded.is_none() => String::from("does not fold flat yet"),
            Some(card) => notation.size(card.finished.width, card.finished.height),
        })
    };
    let name = recipe.name.clone();
    let shown = name.clone();
    let label = format!("More for {name}");
    let address = format!("/recipe/{id}");
    let figure = format!("m{id}");
    view! {
        <li class="tile">
            <a class="tile-link" href=address>
                <span class="tile-figure"><Small recipe card name=figure/></span>
                <span class="tile-text">
                    <span class="tile-name">{shown}</span>
                    <span class="tile-size">{size}</span>
                </span>
            </a>
            <button
                class="button icon tile-more"
                aria-label=label
                aria-haspopup="dialog"
                on:click=move |_| chosen.set(Some((id.clone(), name.clone())))
            >
                <Icon symbol=Symbol::More/>
            </button>
        </li>
    }
}

/// What can be done with one recipe of the list.
#[component]
fn More(chosen: RwSignal<Option<(String, String)>>) -> impl IntoView {
    let sharing = RwSignal::new(false);
    Effect::new(move || {
        if chosen.with(Option::is_none) {
            sharing.set(false);
        }
    });
    let title = move |(_, name): (String, String)| {
        if sharing.get() {
            format!("Share “{name}”")
        } else {
            name
        }
    };
    let inside = move |(id, name): (String, String), open| {
        if sharing.get() {
            Either::Left(view! { <ShareIt id/> })
        } else {
            Either::Right(view! { <Choices id name open sharing/> })
        }
    };
    view! { <Chosen chosen title inside/> }
}

#[component]
fn Choices(
    id: String,
    name: String,
    open: RwSignal<bool>,
    sharing: RwSignal<bool>,
) -> impl IntoView {
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let bench = format!("/bench/{id}");
    let earlier = format!("/earlier/{id}");
    let id = StoredValue::new(id);
    let rename = move |new: String| {
        store.change(&id.get_value(), |recipe| recipe.name = new);
        open.set(false);
    };
    let of_store = move || {
        let recipes = store.recipes();
        let mut recipes = recipes.into_iter();
        recipes.find(|(other, _)| *other == id.get_value())
    };
    let duplicate = move |_| {
        if let Some((_, record)) = untrack(of_store) {
            let mut copy = record.recipe;
            copy.add_to_name(" (copy)");
            if store.put(&copy).is_some() {
                notices.show(Notice::plain(format!("“{}” is there too.", copy.name)));
            }
        }
        open.set(false);
    };
    let export = move |_| {
        if let Some((_, record)) = untrack(of_store) {
            save_file(&[record.recipe]);
        }
        open.set(false);
    };
    let delete = move |_| {
        store.delete(&id.get_value());
        open.set(false);
    };
    view! {
        <Rename name longest=120 rename/>
        <ul class="rows">
            <li><a class="row" href=bench>"To the bench"</a></li>
            <li><button class="row" on:click=move |_| sharing.set(true)>"Share by link"</button></li>
            <li><button class="row" on:click=duplicate>"Duplicate"</button></li>
            <li><a class="row" href=earlier>"Earlier versions"</a></li>
            <li><button class="row" on:click=export>"Download as a file"</button></li>
            <li><button class="row danger" on:click=delete>"Delete"</button></li>
        </ul>
    }
}
