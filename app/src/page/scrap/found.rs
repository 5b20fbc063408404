//! What was found, each to be opened with one tap.

use foldwright_engine::card::{closed_size, work_out};
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use super::search::{Found, From, Search, Stands};
use crate::part::{Miniature, heard};
use crate::spoken::{speaker, texts};
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
        Stands::Looking(done, all) => texts().begin.looking(done, all),
        Stands::Done(all) => texts().begin.can_be_cut(count(), all),
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
                {texts().list.show_more}
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
        Some(envelope) => texts().begin.goes_into(&speaker(&after).envelope(envelope)),
        None => texts().begin.no_envelope.to_owned(),
    };
    let was = closed_size(&recipe);
    let cost = if fit.refit.changes.is_empty() {
        texts().begin.as_it_is.to_owned()
    } else if was == fit.refit.finished {
        texts().begin.same_size.to_owned()
    } else {
        let was = recipe.notation.size(was.width, was.height);
        texts().begin.instead_of(&was)
    };
    let say = speaker(&after);
    let no_longer = fit.refit.no_longer(&recipe, &fit.wish);
    let no_longer: Vec<_> = no_longer.map(|it| say.no_longer(&it)).collect();
    let (owner, name) = match &from {
        From::Own(id) => (texts().begin.your_recipe, format!("scrap{id}")),
        From::Starter(id) => (texts().begin.a_fold, format!("scrap{id}")),
    };
    let title = recipe.name.clone();
    let begin = move |_| {
        let mut new = after.clone();
        new.add_to_name(texts().begin.from_a_scrap_name);
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
                    <span class="tile-about">{heard(size)}", "{envelope}</span>
                    <span class="tile-size">{heard(cost)}" "{heard(no_longer.join(" "))}</span>
                    <span class="tile-size">{owner}</span>
                </span>
            </button>
        </li>
    }
}
