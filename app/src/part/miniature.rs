//! A small figure of the closed card.

use foldwright_engine::card::Card;
use foldwright_engine::draw::{state, svg};
use foldwright_engine::faces::View;
use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;

use super::Pictured;
use crate::album::address;

/// The closed card seen from the front, to be told from others at a glance.
#[component]
pub fn Miniature(
    /// The recipe.
    recipe: Recipe,
    /// The same worked out.
    card: Card,
    /// What no other figure on the page is called: letters and digits.
    #[prop(into)]
    name: String,
) -> impl IntoView {
    let drawing = state(&recipe, &card, 0, View::Front);
    // A photograph of its paper may come later.
    move || {
        let drawn = svg(&drawing, &name, &address);
        view! { <Pictured drawn=drawn class="miniature"/> }
    }
}
