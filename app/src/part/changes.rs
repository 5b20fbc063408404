//! What a card was and what it becomes.

use foldwright_engine::card::Card;
use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;

use super::{Miniature, told};
use crate::spoken::{speaker, texts};

/// A length that becomes another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Changed {
    /// What the maker calls it.
    pub name: String,
    /// What it was.
    pub from: String,
    /// What it becomes.
    pub to: String,
    /// Why, where it is known.
    pub why: String,
}

/// What changes, one below the other: "mat height 5 1/4 → 5 1/8 in".
#[component]
pub fn Changes(
    /// What changes.
    changes: Vec<Changed>,
) -> impl IntoView {
    let mut said = String::new();
    let rows = changes.into_iter().map(|changed| {
        // The same reason is given once.
        let why = (changed.why != said).then_some(changed.why);
        if let Some(why) = &why {
            said.clone_from(why);
        }
        view! {
            <li>
                <span class="change-name">{changed.name}</span>
                <span class="change-lengths">
                    <span class="change-from">{told(changed.from)}</span>
                    <span aria-hidden="true">" → "</span>
                    <span class="visually-hidden">" " {texts().parts.becomes} " "</span>
                    <b>{told(changed.to)}</b>
                </span>
                <span class="change-why">{why.map(told)}</span>
            </li>
        }
    });
    view! { <ul class="changes">{rows.collect_view()}</ul> }
}

/// The closed card before and after, beside each other.
#[component]
pub fn BeforeAfter(
    /// As it was.
    before: (Recipe, Card),
    /// As it becomes.
    after: (Recipe, Card),
    /// What no other figure on the page is called: letters and digits.
    #[prop(into)]
    name: String,
) -> impl IntoView {
    let one = |(recipe, card): (Recipe, Card), of: &str, word: &'static str| {
        let size = speaker(&recipe).with_exact().short_size(card.finished);
        view! {
            <figure class="closed">
                <span class="closed-figure on-table">
                    <Miniature recipe card name=format!("{name}{of}")/>
                </span>
                <figcaption>{word}" "<b>{told(size)}</b></figcaption>
            </figure>
        }
    };
    let texts = &texts().parts;
    view! {
        <div class="before-after">
            {one(before, "before", texts.before)} {one(after, "after", texts.after)}
        </div>
    }
}
