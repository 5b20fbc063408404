//! A recipe from a list of measures, as it stands in a binder.

mod card;
mod folds;
mod lines;
mod suggestions;

use std::collections::BTreeMap;
use std::time::Duration;

use foldwright_engine::reading::{FoldingKey, ProposalKey, Read, read_folded};
use leptos::prelude::*;

use super::page_title;
use crate::notice::{Notice, Notices};
use crate::spoken::{first, naming, speaker_without_recipe, texts};
use crate::store::Store;
use card::FoundCard;
use folds::Folds;
use lines::Lines;
use suggestions::Suggestions;

/// What the page knows of the list.
#[derive(Clone, Copy)]
struct Desk {
    /// What was read last.
    read: RwSignal<Read>,
    /// What the maker said to a suggestion, so that an answer outlasts further
    /// typing.
    answers: RwSignal<BTreeMap<ProposalKey, bool>>,
}

impl Desk {
    /// Whether each suggestion is taken. Tracks.
    fn taken(self) -> Vec<bool> {
        let answers = self.answers.get();
        self.read.with(|read| {
            let each = read.proposals.iter();
            each.map(|it| answers.get(&it.key).copied().unwrap_or(it.accepted))
                .collect()
        })
    }
}

/// A list goes in, and a recipe comes out.
#[component]
pub(crate) fn FromList() -> impl IntoView {
    page_title(|| String::from(texts().begin.from_a_list));
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let usual = move || untrack(move || store.settings().notation);
    let typed = RwSignal::new(store.list());
    // Which way the maker chose to fold, which outlasts further typing.
    let chosen = RwSignal::new(None::<FoldingKey>);
    let read_again = move |text: &str| {
        chosen.with_untracked(|chosen| read_folded(text, usual(), chosen.as_ref(), naming()))
    };
    let desk = Desk {
        read: RwSignal::new(typed.with_untracked(|typed| read_again(typed))),
        answers: RwSignal::default(),
    };
    let choose = move |key: FoldingKey| {
        chosen.set(Some(key));
        desk.read
            .set(typed.with_untracked(|typed| read_again(typed)));
    };
    let waiting = StoredValue::new(false);
    // The letters come first, what they mean right after.
    let look = move || {
        if waiting.get_value() {
            return;
        }
        waiting.set_value(true);
        request_animation_frame(move || {
            set_timeout(
                move || {
                    // The page may be gone by now.
                    if let Some(text) = typed.try_get_untracked() {
                        waiting.set_value(false);
                        desk.read.set(read_again(&text));
                    }
                },
                Duration::ZERO,
            );
        });
    };
    let set = move |text: String| {
        store.set_list(&text);
        typed.set(text);
        look();
    };
    let clear = move |_| {
        let before = typed.get_untracked();
        set(String::new());
        notices.show(
            Notice::plain(texts().begin.list_cleared).with(first().undo, move || {
                store.set_list(&before);
                if typed.try_set(before.clone()).is_none() {
                    look();
                }
            }),
        );
    };
    let is_empty = move || typed.with(|typed| typed.trim().is_empty());
    view! {
        <section class="page from-list">
            <h1>{texts().begin.from_measurements}</h1>
            <p class="lead">
                {texts().begin.type_or_paste}
            </p>
            <div class="list-desk">
                <div class="list-typed">
                    <label class="field">
                        <span>{texts().begin.your_list}</span>
                        <textarea
                            rows="7"
                            autocapitalize="off"
                            autocomplete="off"
                            spellcheck="false"
                            placeholder=texts().begin.list_example
                            aria-describedby="list-assumed"
                            prop:value=typed
                            on:input=move |event| set(event_target_value(&event))
                        ></textarea>
                    </label>
                    <p class="list-assumed" id="list-assumed" aria-live="polite">
                        {move || {
                            desk.read.with(|read| {
                                let say = speaker_without_recipe(read.notation);
                                read.assumed.map(|assumed| say.assumed(assumed))
                            })
                        }}
                    </p>
                    <Show when=move || !is_empty()>
                        <button type="button" class="button quiet" on:click=clear>{texts().begin.clear_list}</button>
                    </Show>
                </div>
                <div class="list-read">
                    <Lines desk/>
                    <Suggestions desk/>
                </div>
                <div class="list-made">
                    <Folds desk choose/>
                    <FoundCard desk/>
                </div>
            </div>
        </section>
    }
}
