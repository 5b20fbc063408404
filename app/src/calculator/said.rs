//! What came of the last change, in words.

use leptos::prelude::*;

use super::desk::{Desk, Outcome, after_frames};
use crate::part::told;
use crate::spoken::texts;

/// Tells what moved, or why nothing did, and offers to free what is pinned.
#[component]
pub(super) fn Said() -> impl IntoView {
    let desk = Desk::here();
    let outcome = RwSignal::new(desk.outcome.get_untracked());
    after_frames(
        move || desk.outcome.track(),
        move || {
            if let Some(now) = desk.outcome.try_get_untracked() {
                outcome.try_set(now);
            }
        },
    );
    let now = move || {
        match outcome.get() {
        Outcome::Quiet => ().into_any(),
        Outcome::Made { placed, moved } => view! {
            <div class="said">
                {placed.into_iter().map(|words| view! { <p>{told(words)}</p> }).collect_view()}
                {if moved.is_empty() {
                    view! { <p>{texts().desk.nothing_else_moved}</p> }.into_any()
                } else {
                    view! {
                        <p>{texts().desk.moved_with_it}</p>
                        <ul class="moved">
                            {moved.into_iter().map(|words| view! { <li>{told(words)}</li> }).collect_view()}
                        </ul>
                    }
                    .into_any()
                }}
            </div>
        }
        .into_any(),
        Outcome::Refused { words, pinned } => view! {
            <div class="said refusal">
                <p>{told(words)}</p>
                {pinned
                    .into_iter()
                    .map(|(measure, name)| {
                        let free = move |_| {
                            desk.edit(Some(measure), |recipe| recipe.pin(measure, false));
                        };
                        view! {
                            <button type="button" class="button" on:click=free>
                                {texts().desk.free(&name)}
                            </button>
                        }
                    })
                    .collect_view()}
            </div>
        }
        .into_any(),
    }
    };
    view! { <div class="said-board" aria-live="polite">{now}</div> }
}
