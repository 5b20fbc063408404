//! A recipe from a list of measures, as it stands in a binder.

mod card;
mod folds;
mod lines;
mod suggestions;

use std::collections::BTreeMap;
use std::time::Duration;

use foldwright_engine::reading::{FoldingKey, Read, read_folded};
use leptos::prelude::*;

use super::page_title;
use crate::notice::{Notice, Notices};
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
    /// What the maker said to a suggestion, by its words, so that an answer
    /// outlasts further typing.
    answers: RwSignal<BTreeMap<String, bool>>,
}

impl Desk {
    /// Whether each suggestion is taken. Tracks.
    fn taken(self) -> Vec<bool> {
        let answers = self.answers.get();
        self.read.with(|read| {
            let each = read.proposals.iter();
            each.map(|it| answers.get(&it.relation).copied().unwrap_or(it.accepted))
                .collect()
        })
    }
}

/// A list goes in, and a recipe comes out.
#[component]
pub(crate) fn FromList() -> impl IntoView {
    page_title(|| String::from("From a list"));
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let usual = move || untrack(move || store.settings().notation);
    let typed = RwSignal::new(store.list());
    // Which way the maker chose to fold, which outlasts further typing.
    let chosen = RwSignal::new(None::<FoldingKey>);
    let read_again = move |text: &str| {
        chosen.with_untracked(|chosen| read_folded(text, usual(), chosen.as_ref()))
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
        notices.show(Notice::plain("The list is cleared.").with("Undo", move || {
            store.set_list(&before);
            if typed.try_set(before.clone()).is_none() {
                look();
            }
        }));
    };
    let is_empty = move || typed.with(|typed| typed.trim().is_empty());
    view! {
        <section class="page from-list">
            <h1>"From measures you have"</h1>
            <p class="lead">
                "Type or paste a list as it stands in your binder, one piece a line. It is read as \
                 you go and kept on this device."
            </p>
            <div class="list-desk">
                <div class="list-typed">
                    <label class="field">
                        <span>"Your list"</span>
                        <textarea
                            rows="7"
                            autocapitalize="off"
                            autocomplete="off"
                            spellcheck="false"
                            placeholder="base 5 1/2 x 8 1/2, score at 4 1/4\nmat 4 x 5 1/4"
                            aria-describedby="list-assumed"
                            prop:value=typed
                            on:input=move |event| set(event_target_value(&event))
                        ></textarea>
                    </label>
                    <p class="list-assumed" id="list-assumed" aria-live="polite">
                        {move || desk.read.with(|read| read.assumed.clone())}
                    </p>
                    <Show when=move || !is_empty()>
                        <button type="button" class="button quiet" on:click=clear>"Clear the list"</button>
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
