//! The first screen: the list of recipes before there is one.

use std::time::Duration;

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::forgets::Forgets;
use super::from_file::FromFile;
use super::page_title;
use crate::fetched::{Fetching, Page};
use crate::spoken::first;
use crate::store::Store;
use crate::sync::was_paired;

/// What all of this is for, the ways to a first recipe, and finished cards to look
/// into.
#[component]
pub(crate) fn Start() -> impl IntoView {
    page_title(|| first().recipes.to_owned());
    expect_context::<Fetching>().show();
    view! {
        <section class="page recipes">
            <div class="page-head">
                <h1>{first().recipes}</h1>
            </div>
            <Forgets/>
            <div class="empty">
                <svg class="empty-figure" viewBox="0 0 240 120" aria-hidden="true" focusable="false">
                    <g class="leaf">
                        <path class="sheet-far" d="M0 0h62v70h-62z"></path>
                        <g class="leaf">
                            <path class="sheet-near" d="M0 0h62v70h-62z"></path>
                            <path class="valley" d="M0 0v70"></path>
                            <g class="leaf">
                                <path class="sheet-far" d="M0 0h62v70h-62z"></path>
                                <path class="mountain" d="M0 0v70"></path>
                                <g class="leaf">
                                    <path class="sheet-near" d="M0 0h62v70h-62z"></path>
                                    <path class="valley" d="M0 0v70"></path>
                                </g>
                            </g>
                        </g>
                    </g>
                </svg>
                <ol class="job">
                    <li>{first().choose_a_fold}</li>
                    <li>{first().make_it_fit}</li>
                    <li>{first().follow_it}</li>
                </ol>
                <a class="button primary" href="/new">{first().choose_fold}</a>
            </div>
            <footer class="page-foot">
                <a class="button quiet" href="/list">{first().type_measurements}</a>
                <a class="button quiet" href="/scrap">{first().from_scrap}</a>
                <FromFile/>
                <a class="button quiet" href="/words">{first().words_of_trade}</a>
            </footer>
            <Shelf/>
        </section>
    }
}

/// How long after the page the code of the cards is asked for. Our own choice: the
/// page has been painted by then.
const PAUSE: Duration = Duration::from_millis(300);

/// The finished cards, as soon as their code is here. They stand last, so that nothing
/// moves as they come; where they can't be fetched, nothing is missed.
#[component]
fn Shelf() -> impl IntoView {
    let store = expect_context::<Store>();
    let fetching = expect_context::<Fetching>();
    let cards = RwSignal::new(None::<Page>);
    // Whoever is in a workshop has cards already, here or elsewhere.
    let away = Memo::new(move |_| {
        store.settings().samples_away || store.member().is_some() || was_paired()
    });
    if !away.get_untracked() {
        let fetch = move || {
            spawn_local(async move {
                if let Ok(page) = fetching.samples().await {
                    // A recipe may have come meanwhile.
                    cards.try_set(Some(page));
                }
            });
        };
        set_timeout(fetch, PAUSE);
    }
    move || cards.get().filter(|_| !away.get()).map(|page| page())
}
