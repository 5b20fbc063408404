//! What the numbers suggest, to take or to leave.

use foldwright_engine::reading::ProposalKey;
use leptos::prelude::*;

use super::Desk;
use crate::part::heard;
use crate::spoken::{speaker, speaker_without_recipe, texts};

/// A suggestion as it is said.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
struct Told {
    key: ProposalKey,
    relation: String,
    evidence: String,
    accepted: bool,
}

/// All suggestions, each with its evidence.
#[component]
pub(super) fn Suggestions(desk: Desk) -> impl IntoView {
    let each = move || {
        desk.read.with(|read| {
            let folding = read.foldings.get(read.folded);
            let say = folding.map_or_else(
                || speaker_without_recipe(read.notation),
                |folding| speaker(&folding.recipe),
            );
            let proposals = read.proposals.iter();
            let told = proposals.map(|it| Told {
                key: it.key.clone(),
                relation: say.suggestion(&it.is),
                evidence: say.evidence(&it.evidence),
                accepted: it.accepted,
            });
            told.collect::<Vec<_>>()
        })
    };
    let any = move || desk.read.with(|read| !read.proposals.is_empty());
    view! {
        <Show when=any>
            <h2 id="suggestions">{texts().begin.what_numbers_say}</h2>
            <p class="quiet">
                {texts().begin.ticked_will_hold}
            </p>
            <ul class="suggestions" aria-labelledby="suggestions">
                <For
                    each
                    key=Told::clone
                    children=move |it| view! { <Suggestion it desk/> }
                />
            </ul>
        </Show>
    }
}

#[component]
fn Suggestion(it: Told, desk: Desk) -> impl IntoView {
    let key = it.key;
    let usual = it.accepted;
    let taken = {
        let key = key.clone();
        move || {
            desk.answers
                .with(|answers| answers.get(&key).copied().unwrap_or(usual))
        }
    };
    let answer = move |event| {
        let taken = event_target_checked(&event);
        desk.answers.update(|answers| {
            answers.insert(key.clone(), taken);
        });
    };
    view! {
        <li>
            <label class="suggestion">
                <input type="checkbox" prop:checked=taken on:change=answer/>
                <span>
                    <span class="suggestion-words">{heard(it.relation)}</span>
                    <span class="suggestion-evidence">{heard(it.evidence)}</span>
                </span>
            </label>
        </li>
    }
}
