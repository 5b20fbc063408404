//! What a recipe was before, and what was decided about it and gave way.

use foldwright_document::{Past, Said};
use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use super::one_recipe::CannotOpen;
use super::{page_title, recipe_in_address};
use crate::notice::{Notice, Notices};
use crate::part::{Small, heard, moment, told, worked_out};
use crate::spoken::{aloud, first, speaker_without_recipe, texts};
use crate::store::{NotLoaded, Store};
use crate::sync::Syncing;
use crate::sync::gave_way::{carried, differences, gone, restored, words};

/// The states that are kept of the recipe the address names.
#[component]
pub(crate) fn Earlier() -> impl IntoView {
    page_title(|| String::from(texts().list.earlier_versions));
    let store = expect_context::<Store>();
    let syncing = expect_context::<Syncing>();
    let id = recipe_in_address();
    let past = Memo::new(move |_| syncing.past(&id.get()));
    let is_known = Memo::new(move |_| {
        store.track_recipes();
        past.with(|past| !past.is_empty()) || store.read(&id.get()).is_some()
    });
    let unknown = || view! { <CannotOpen why=NotLoaded::Missing/> };
    view! {
        <Show when=move || is_known.get() fallback=unknown>
            <Versions id past/>
        </Show>
    }
}

#[component]
fn Versions(id: Memo<String>, past: Memo<Vec<(Past, Recipe)>>) -> impl IntoView {
    let store = expect_context::<Store>();
    let name = move || {
        let recipe = store.read(&id.get());
        recipe.map(|recipe| recipe.name).unwrap_or_default()
    };
    view! {
        <section class="page">
            <h1>{texts().list.earlier_versions}</h1>
            <p class="lead">
                {move || texts().keep.versions_are_kept(&name())}
            </p>
            <GaveWay id/>
            <Show
                when=move || past.with(|past| !past.is_empty())
                fallback=|| view! { <p class="quiet">{texts().keep.always_so}</p> }
            >
                <ul class="tiles earlier">
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
            let say = speaker_without_recipe(notation).with_exact();
            finished.map(|finished| told(say.short_size(finished)))
        })
    };
    let when = moment(past.at);
    let by = if past.by.is_empty() {
        String::new()
    } else {
        texts().keep.until_changed_on(&past.by)
    };
    let figure = format!("e{}", past.at);
    let label = texts().keep.go_back(&when);
    let shown = recipe.clone();
    let name = recipe.name.clone();
    let earlier = recipe.clone();
    let back = move |_| {
        let (id, earlier) = (id.get_untracked(), recipe.clone());
        let present = store.read(&id);
        // What was made since was made.
        store.change(&id, |recipe| {
            let runs = std::mem::take(&mut recipe.runs);
            recipe.clone_from(&earlier);
            recipe.runs = runs;
        });
        let text = texts().keep.is_as_it_was;
        let notice = Notice::plain(text);
        notices.show(match present {
            Some(present) => {
                let id = id.clone();
                notice.with(first().undo, move || {
                    store.change(&id, |recipe| {
                        // What has come from elsewhere meanwhile stays.
                        if let Some(before) = carried(&earlier, recipe, &present) {
                            *recipe = before;
                        }
                    });
                })
            }
            None => notice,
        });
        navigate(&format!("/recipe/{id}"), NavigateOptions::default());
    };
    let shown_by = label.clone();
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
            <OneThing earlier id label=shown_by/>
        </li>
    }
}

/// What was decided and gave way to what somebody else decided at the same
/// time, each to be taken back by itself.
#[component]
fn GaveWay(id: Memo<String>) -> impl IntoView {
    let syncing = expect_context::<Syncing>();
    let lost = Memo::new(move |_| syncing.lost(&id.get()));
    view! {
        <Show when=move || lost.with(|lost| !lost.is_empty())>
            <section>
                <h2>{texts().keep.what_gave_way}</h2>
                <p class="quiet">
                    {texts().keep.decided_otherwise}
                </p>
                <ul class="rows">
                    <For
                        each=move || lost.get()
                        key=|said| said.key.clone()
                        children=move |said| view! { <Use said id/> }
                    />
                </ul>
            </section>
        </Show>
    }
}

/// The numbers, names and notes of an earlier version that are others now.
#[component]
fn OneThing(earlier: Recipe, id: Memo<String>, label: String) -> impl IntoView {
    let store = expect_context::<Store>();
    let open = RwSignal::new(false);
    let differences = move || {
        let present = store.read(&id.get()).filter(|_| open.get());
        present.map(|present| {
            let differences = differences(&earlier, &present);
            if differences.is_empty() {
                let text = texts().keep.same_now;
                return view! { <p class="quiet">{text}</p> }.into_any();
            }
            let each = differences.into_iter();
            let each = each.map(|said| view! { <Use said id/> });
            view! { <ul class="rows">{each.collect_view()}</ul> }.into_any()
        })
    };
    view! {
        <details class="one-thing" on:toggle=move |_| open.update(|open| *open = !*open)>
            <summary aria-label=texts().keep.one_thing_of(&label)>{texts().keep.one_thing}</summary>
            {differences}
        </details>
    }
}

/// One decision, and the way to use it.
#[component]
fn Use(said: Said, id: Memo<String>) -> impl IntoView {
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let present = store.read(&id.get_untracked());
    let what = present.map(|present| words(&present, &said));
    let what = what.unwrap_or_default();
    let about = match (said.at, said.by.as_str()) {
        (0, _) => String::new(),
        (at, "") => moment(at),
        (at, by) => format!("{by}, {}", moment(at)),
    };
    let label = aloud(&texts().keep.use_what(&what));
    let take = move |_| {
        let id = id.get_untracked();
        let Some(present) = store.read(&id) else {
            return;
        };
        match restored(&present, &said) {
            Ok(recipe) => {
                let gone = gone(&present, &recipe);
                let (now, undo) = (recipe.clone(), id.clone());
                store.change(&id, move |kept| *kept = recipe);
                let back = move || {
                    store.change(&undo, |kept| {
                        if let Some(before) = carried(&now, kept, &present) {
                            *kept = before;
                        }
                    });
                };
                let text = if gone.is_empty() {
                    texts().keep.is_so_now.to_owned()
                } else {
                    texts().keep.is_so_without(&gone.join(", "))
                };
                notices.show(Notice::plain(text).with(first().undo, back));
            }
            Err(why) => notices.show(Notice::warning("restore", why)),
        }
    };
    view! {
        <li class="decision">
            <span>{heard(&what)} <span class="quiet">" " {about}</span></span>
            <button type="button" class="button" aria-label=label on:click=take>{texts().keep.use_this}</button>
        </li>
    }
}
