//! What the numbers suggest, to take or to leave.

use foldwright_engine::reading::Proposal;
use leptos::prelude::*;

use super::Desk;

/// All suggestions, each with its evidence.
#[component]
pub(super) fn Suggestions(desk: Desk) -> impl IntoView {
    let each = move || desk.read.with(|read| read.proposals.clone());
    let any = move || desk.read.with(|read| !read.proposals.is_empty());
    view! {
        <Show when=any>
            <h2 id="suggestions">"What the numbers say"</h2>
            <p class="quiet">
                "What is ticked will still hold when the card is made in another size."
            </p>
            <ul class="suggestions" aria-labelledby="suggestions">
                <For
                    each
                    key=|it| (it.relation.clone(), it.evidence.clone(), it.accepted)
                    children=move |it| view! { <Suggestion it desk/> }
                />
            </ul>
        </Show>
    }
}

#[component]
fn Suggestion(it: Proposal, desk: Desk) -> impl IntoView {
    let name = it.relation.clone();
    let usual = it.accepted;
    let taken = {
        let name = name.clone();
        move || {
            desk.answers
                .with(|answers| answers.get(&name).copied().unwrap_or(usual))
        }
    };
    let answer = move |event| {
        let taken = event_target_checked(&event);
        desk.answers.update(|answers| {
            answers.insert(name.clone(), taken);
        });
    };
    view! {
        <li>
            <label class="suggestion">
                <input type="checkbox" prop:checked=taken on:change=answer/>
                <span>
                    <span class="suggestion-words">{it.relation}</span>
                    <span class="suggestion-evidence">{it.evidence}</span>
                </span>
            </label>
        </li>
    }
}
