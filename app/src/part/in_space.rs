//! A small figure of a card partly open on its table.

use std::time::Duration;

use foldwright_engine::card::Card;
use foldwright_engine::draw::{svg, told_apart};
use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;

use super::Pictured;
use crate::album::address;

/// The card partly open on its table, from where it is told from others best.
/// It is drawn a moment later, so that a list of them is there at once.
#[component]
pub(crate) fn InSpace(
    /// The recipe.
    recipe: Recipe,
    /// The same worked out.
    card: Card,
    /// What no other figure on the page is called: letters and digits.
    #[prop(into)]
    name: String,
) -> impl IntoView {
    let drawn = RwSignal::new(None);
    let draw = move || {
        // The list may be gone by now.
        if drawn.try_get_untracked().is_some() {
            drawn.try_set(Some(told_apart(&recipe, &card)));
        }
    };
    set_timeout(draw, Duration::ZERO);
    // A photograph of its paper may come later.
    move || {
        let drawn = drawn.with(|drawing| Some(svg(drawing.as_ref()?, &name, &address)))?;
        Some(view! {
            <Pictured drawn=drawn class="in-space"/>
        })
    }
}
