//! The finished cards of a workshop, where there is no recipe yet.

use foldwright_engine::card::work_out;
use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use crate::folds::FoldWords;
use crate::notice::Notice;
use crate::part::{InSpace, heard};
use crate::samples::SAMPLES;
use crate::spoken::{first, language, texts};
use crate::store::Store;

/// All of them, until they are put away.
#[component]
pub(crate) fn Samples() -> impl IntoView {
    let store = expect_context::<Store>();
    let say = language().samples();
    let notation = store.settings().notation;
    let made = SAMPLES.iter().filter_map(|sample| {
        let recipe = sample.recipe(say, notation).ok()?;
        Some(view! { <OneSample recipe name=sample.fold/> })
    });
    let put_away = move |_| {
        store.set_settings(|settings| settings.samples_away = true);
        let undo = move || store.set_settings(|settings| settings.samples_away = false);
        store
            .notices()
            .show(Notice::plain(say.are_away).with(first().undo, undo));
    };
    view! {
        <section class="samples" aria-label=say.from_workshop>
            <h2>{say.from_workshop}</h2>
            <p class="lead">{say.six_finished}</p>
            <ul class="tiles starters">{made.collect_view()}</ul>
            <button type="button" class="button quiet" on:click=put_away>{say.put_away}</button>
        </section>
    }
}

/// One of them. Opened it is the maker's own, to be changed.
#[component]
fn OneSample(recipe: Recipe, name: &'static str) -> impl IntoView {
    let store = expect_context::<Store>();
    let settings = store.settings();
    let card = work_out(&recipe, &settings.tools());
    let size = settings
        .notation
        .size(card.finished.width, card.finished.height);
    let (title, about, shown) = (recipe.name.clone(), recipe.about.clone(), recipe.clone());
    let kept = StoredValue::new(recipe);
    let navigate = StoredValue::new(use_navigate());
    let open = move |place: &str| {
        if let Some(id) = kept.with_value(|recipe| store.put(recipe)) {
            navigate.with_value(|navigate| {
                navigate(&format!("/{place}/{id}"), NavigateOptions::default());
            });
        }
    };
    view! {
        <li class="tile">
            <button class="tile-link" data-sample=name on:click=move |_| open("recipe")>
                <span class="tile-figure"><InSpace recipe=shown card name=format!("s{name}")/></span>
                <FoldWords name=title.clone() about size=heard(size).into_any()/>
            </button>
            <button
                type="button"
                class="button"
                aria-label=format!("{}: {title}", texts().desk.to_the_bench)
                on:click=move |_| open("bench")
            >
                {texts().desk.to_the_bench}
            </button>
        </li>
    }
}
