//! What falls off a strip where cuts part it, and which part is kept.

use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{EditError, PieceId};
use foldwright_engine::words;
use leptos::html;
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::pick::brought;
use super::problems::ProblemList;

/// The parts that fall off, each with a button that keeps it; nothing where
/// cuts part nothing.
#[component]
pub(super) fn Fallen(of: Option<PieceId>) -> impl IntoView {
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
            <h2>"What falls off"</h2>
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
                        "Keep the rest, as it is now"
                    </button>
                </div>
            </Show>
        </Show>
    }
}

fn keep(desk: Desk, of: Option<PieceId>, part: Option<usize>) {
    let spot = desk.recipe.with_untracked(|recipe| {
        desk.card
            .with_untracked(|card| card.laid.keeping(recipe, of, part))
    });
    desk.edit(None, |recipe| {
        recipe.keep_part(of, spot.ok_or(EditError::NoPanel)?)
    });
}

#[component]
fn FallenRow(of: Option<PieceId>, part: usize) -> impl IntoView {
    let desk = Desk::here();
    let about = move || {
        desk.recipe.with(|recipe| {
            desk.card
                .with(|card| words::fallen_words(recipe, card, of, part).unwrap_or_default())
        })
    };
    let place = Place::Fallen { of, part };
    let row = NodeRef::<html::Li>::new();
    brought(move || row.get().map(Into::into), move || place);
    view! {
        <li node_ref=row class="layer brought" tabindex="-1">
            <div class="layer-body">
                <p>{about}</p>
                <button
                    type="button"
                    class="button"
                    aria-label=move || format!("Keep this part, {}", about())
                    on:click=move |_| keep(desk, of, Some(part))
                >
                    "Keep this part"
                </button>
            </div>
        </li>
    }
}
