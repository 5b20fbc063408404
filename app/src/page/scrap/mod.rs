//! What a scrap of paper is good for.

mod found;
mod kept;
mod search;

use foldwright_engine::length::{Length, read};
use foldwright_engine::plane::Size;
use leptos::prelude::*;

use super::page_title;
use crate::store::Store;
use found::Results;
use kept::KeptScraps;
use search::Search;

/// The size of a scrap as it is typed.
#[derive(Clone, Copy)]
struct Typed {
    width: RwSignal<String>,
    height: RwSignal<String>,
}

impl Typed {
    fn set(self, size: Size, store: Store) {
        let notation = store.settings().notation;
        self.width.set(notation.exact(size.width));
        self.height.set(notation.exact(size.height));
    }
}

/// A size goes in, and every recipe comes up that can be cut from it.
#[component]
pub(crate) fn Scrap() -> impl IntoView {
    page_title(|| String::from("From a scrap"));
    let store = expect_context::<Store>();
    let typed = Typed {
        width: RwSignal::default(),
        height: RwSignal::default(),
    };
    let unit = move || store.settings().unit();
    let side = move |typed: RwSignal<String>| {
        let length = read(&typed.get(), unit()).ok()?;
        (length > Length::ZERO).then_some(length)
    };
    let scrap = Memo::new(move |_| {
        Some(Size {
            width: side(typed.width)?,
            height: side(typed.height)?,
        })
    });
    let search = Search::new(store, scrap);
    let example = move || match unit() {
        foldwright_engine::length::Unit::Inch => ("such as 8 1/2", "such as 5 3/4"),
        foldwright_engine::length::Unit::Millimetre => ("such as 200", "such as 145"),
    };
    let side_field = move |label: &'static str, typed: RwSignal<String>, example: &'static str| {
        let wrong = move || {
            let text = typed.get();
            if text.trim().is_empty() {
                return None;
            }
            match read(&text, unit()) {
                Err(wrong) => Some(wrong.to_string()),
                Ok(length) if length <= Length::ZERO => {
                    Some("A scrap is larger than nothing.".to_owned())
                }
                Ok(_) => None,
            }
        };
        view! {
            <label class="field">
                <span>{label}</span>
                <input
                    type="text"
                    autocomplete="off"
                    enterkeyhint="done"
                    placeholder=example
                    aria-invalid=move || if wrong().is_some() { "true" } else { "false" }
                    prop:value=typed
                    on:input=move |event| typed.set(event_target_value(&event))
                />
                <span class="wrong" aria-live="polite">{wrong}</span>
            </label>
        }
    };
    view! {
        <section class="page scrap">
            <h1>"What can I make from this scrap?"</h1>
            <p class="lead">
                "Measure it with the print upright. Your recipes and the folds to start from that \
                 can be cut from it come up, those first that change least. None is made larger \
                 than it is."
            </p>
            <div class="scrap-size" role="group" aria-label="The scrap">
                {move || side_field("Across", typed.width, example().0)}
                <span class="scrap-times" aria-hidden="true">"×"</span>
                {move || side_field("Up", typed.height, example().1)}
            </div>
            <KeptScraps typed scrap/>
            <Results search/>
        </section>
    }
}
