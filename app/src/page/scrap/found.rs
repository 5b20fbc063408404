//! What was found, each to be opened with one tap.

use foldwright_engine::card::{closed_size, work_out};
use foldwright_engine::refit::given_up_words;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use super::search::{Found, From, Search, Stands};
use crate::part::Miniature;
use crate::store::Store;

/// So many are shown at first, and so many more each time. Our own bound: two
/// screens of a laptop.
const SHOWN: usize = 24;

/// Everything found, the least compromise first.
#[component]
pub(super) fn Results(search: Search) -> impl IntoView {
    let most = RwSignal::new(SHOWN);
    Effect::new(move || {
        search.scrap();
        most.set(SHOWN);
    });
    let count = move || search.found.with(Vec::len);
    let told = move || match search.stands.get() {
        Stands::Idle => String::new(),
        Stands::Looking(done, all) => format!("Looking at {done} of {all} …"),
        Stands::Done(all) => match count() {
            0 => format!("None of {all} can be cut from it."),
            1 => format!("1 of {all} can be cut from it."),
            found => format!("{found} of {all} can be cut from it."),
        },
    };
    let shown = move || {
        let most = most.get();
        search
            .found
            .with(|found| found.iter().take(most).cloned().collect::<Vec<_>>())
    };
    view! {
        <p class="scrap-told" role="status">{told}</p>
        <ul class="tiles starters" aria-busy=move || matches!(search.stands.get(), Stands::Looking(..)).to_string()>
            <For
                each=shown
                key=|found| (found.from.clone(), found.fit.wish.sheet.map(|sheet| sheet.size))
                children=|found| view! { <OneFound found/> }
            />
        </ul>
        <Show when=move || { count() > most.get() }>
            <button type="button" class="button" on:click=move |_| most.update(|most| *most = most.saturating_add(SHOWN))>
                "Show more"
            </button>
        </Show>
    }
}

#[component]
fn OneFound(found: Found) -> impl IntoView {
    let store = expect_context::<Store>();
    let navigate = use_navigate();
    let tools = untrack(|| store.settings().tools());
    let Found { from, recipe, fit } = found;
    let after = fit.refit.recipe.clone();
    let card = work_out(&after, &tools);
    let size = after
        .notation
        .size(fit.refit.finished.width, fit.refit.finished.height);
    let envelope = match fit.envelope {
        Some(envelope) => format!("goes into {}", envelope.name),
        None => "no standard envelope takes it".to_owned(),
    };
    let was = closed_size(&recipe);
    let cost = if fit.refit.changes.is_empty() {
        "As it is.".to_owned()
    } else if was == fit.refit.finished {
        "The same size, with other lengths inside.".to_owned()
    } else {
        let was = recipe.notation.size(was.width, was.height);
        format!("Instead of {was}.")
    };
    let given_up = given_up_words(&recipe, &fit.wish, &fit.refit);
    let (owner, name) = match &from {
        From::Own(id) => ("Your recipe", format!("scrap{id}")),
        From::Starter(id) => ("A fold to start from", format!("scrap{id}")),
    };
    let title = recipe.name.clone();
    let begin = move |_| {
        let mut new = after.clone();
        new.add_to_name(" from a scrap");
        new.copies = 1;
        if let Some(id) = store.put(&new) {
            navigate(&format!("/recipe/{id}"), NavigateOptions::default());
        }
    };
    let figure = fit.refit.recipe.clone();
    view! {
        <li class="tile">
            <button type="button" class="tile-link" on:click=begin>
                <span class="tile-figure"><Miniature recipe=figure card name/></span>
                <span class="tile-text">
                    <span class="tile-name">{title}</span>
                    <span class="tile-about">{size}", "{envelope}</span>
                    <span class="tile-size">{cost}" "{given_up.join(" ")}</span>
                    <span class="tile-size">{owner}</span>
                </span>
            </button>
        </li>
    }
}
