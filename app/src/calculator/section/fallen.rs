//! What falls off a strip where cuts part it, and which part is kept.

use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{EditError, StripId};
use foldwright_engine::seen::fallen;
use leptos::html;
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::pick::brought;
use super::problems::ProblemList;
use crate::part::told;
use crate::spoken::{aloud, speaker, texts};

/// The parts that fall off, each with a button that keeps it; nothing where
/// cuts part nothing.
#[component]
pub(super) fn Fallen(of: StripId) -> impl IntoView {
    let desk = Desk::here();
    let count = Memo::new(move |_| {
        desk.card.with(|card| {
            let piece = card.laid.piece(of);
            piece.map_or(0, |piece| piece.fallen.len())
        })
    });
    let is_here =
        move |place: Place| matches!(place, Place::Fallen { of: other, .. } if other == of);
    let is_asked = Memo::new(move |_| {
        desk.card
            .with(|card| card.problems.iter().any(|problem| is_here(problem.place)))
    });
    view! {
        <Show when=move || { count.get() > 0 }>
            <h2>{texts().shape.what_falls_off}</h2>
            <ProblemList which=move |problem| is_here(problem.place) here=true
            />
            <ul class="layers">
                <For
                    each=move || 0..count.get()
                    key=|part| *part
                    children=move |part| view! { <FallenRow of part/> }
                />
            </ul>
            <Show when=move || is_asked.get()>
                <div class="actions">
                    <button type="button" class="button" on:click=move |_| keep(desk, of, None)>
                        {texts().shape.keep_the_rest}
                    </button>
                </div>
            </Show>
        </Show>
    }
}

fn keep(desk: Desk, of: StripId, part: Option<usize>) {
    let spot = desk.recipe.with_untracked(|recipe| {
        desk.card
            .with_untracked(|card| card.laid.keeping(recipe, of, part))
    });
    desk.edit(None, |recipe| {
        recipe.keep_part(of, spot.ok_or(EditError::NoPanel)?)
    });
}

#[component]
fn FallenRow(of: StripId, part: usize) -> impl IntoView {
    let desk = Desk::here();
    let about = move || {
        desk.recipe.with(|recipe| {
            let fallen = desk.card.with(|card| fallen(card, of, part));
            fallen.map_or_else(String::new, |fallen| {
                speaker(recipe).with_exact().fallen(&fallen)
            })
        })
    };
    let place = Place::Fallen { of, part };
    let row = NodeRef::<html::Li>::new();
    brought(move || row.get().map(Into::into), move || place);
    view! {
        <li node_ref=row class="layer brought" tabindex="-1">
            <div class="layer-body">
                <p>{move || told(about())}</p>
                <button
                    type="button"
                    class="button"
                    aria-label=move || aloud(&texts().shape.keep_part(&about()))
                    on:click=move |_| keep(desk, of, Some(part))
                >
                    {texts().shape.keep_this_part}
                </button>
            </div>
        </li>
    }
}
