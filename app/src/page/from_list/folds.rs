//! The ways the base may fold, where the list leaves it open.

use foldwright_engine::card::work_out;
use foldwright_engine::draw::{edge_on, svg};
use foldwright_engine::faces::View;
use foldwright_engine::reading::{Folding, FoldingKey, Read};
use foldwright_engine::seen::state_seen;
use leptos::prelude::*;

use super::Desk;
use crate::album::address;
use crate::part::{Miniature, Pictured, heard};
use crate::spoken::{speaker, texts};
use crate::store::Store;

/// A picture of each way to fold, to choose from; nothing where the list leaves
/// no doubt.
#[component]
pub(super) fn Folds(
    desk: Desk,
    /// Called with the way that is chosen.
    choose: impl Fn(FoldingKey) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    // The pictures stay while only the choice changes, and the focus with them.
    let foldings = Memo::new(move |_| desk.read.with(|read| read.foldings.clone()));
    let asks = Memo::new(move |_| desk.read.with(Read::asks_for_folds));
    let folded = Memo::new(move |_| desk.read.with(|read| read.folded));
    let each = move || {
        let foldings = foldings.get().into_iter().enumerate();
        foldings
            .map(|(at, folding)| {
                let key = folding.key.clone();
                view! {
                    <label class="fold-choice">
                        <input
                            type="radio"
                            name="list-folds"
                            prop:checked=move || folded.get() == at
                            on:change=move |_| choose(key.clone())
                        />
                        <Picture folding at/>
                    </label>
                }
            })
            .collect_view()
    };
    view! {
        <Show when=move || asks.get()>
            <fieldset class="fold-choices">
                <legend>{texts().begin.which_way}</legend>
                <p class="quiet">{texts().begin.list_gives_scores}</p>
                {each}
            </fieldset>
        </Show>
    }
}

/// The closed card, and the same from its edge, a little open.
#[component]
fn Picture(folding: Folding, at: usize) -> impl IntoView {
    let store = expect_context::<Store>();
    let Folding {
        form, why, recipe, ..
    } = folding;
    let say = speaker(&recipe);
    let (words, why) = (say.form(form), say.suggests(why));
    let card = work_out(&recipe, &untrack(move || store.settings()).tools());
    let closed = state_seen(&card, 0, View::Front).map(|seen| say.state(&seen));
    let closed = closed.unwrap_or_default();
    let edge = svg(&edge_on(&recipe, &card), &format!("edge-{at}"), &address);
    view! {
        <span class="fold-figure">
            <Miniature recipe card name=format!("fold-{at}")/>
            <Pictured drawn=edge class="fold-edge"/>
        </span>
        <span class="fold-text">
            <span class="suggestion-words">{words}</span>
            <span class="suggestion-evidence">{why}</span>
            <span class="visually-hidden">{heard(texts().begin.closed_is(&closed))}</span>
        </span>
    }
}
