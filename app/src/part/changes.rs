//! What a card was and what it becomes.

use foldwright_engine::card::Card;
use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;

use super::Miniature;

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
                    <span class="change-from">{changed.from}</span>
                    <span aria-hidden="true">" → "</span>
                    <span class="visually-hidden">" becomes "</span>
                    <b>{changed.to}</b>
                </span>
                <span class="change-why">{why}</span>
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
    let one = |(recipe, card): (Recipe, Card), word: &'static str| {
        let size = recipe
            .notation
            .size(card.finished.width, card.finished.height);
        view! {
            <figure class="closed">
                <span class="closed-figure on-mat">
                    <Miniature recipe card name=format!("{name}{word}")/>
                </span>
                <figcaption>{word}" "<b>{size}</b></figcaption>
            </figure>
        }
    };
    view! { <div class="before-after">{one(before, "before")}{one(after, "after")}</div> }
}
