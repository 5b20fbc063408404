//! A recipe of a list, worked out.

use std::time::Duration;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;

use super::InSpace;

/// A recipe worked out, a moment later: a list of them is there at once, and can
/// be used while its cards come one after the other.
pub(crate) fn worked_out(recipe: &Recipe, tools: Tools) -> RwSignal<Option<Card>> {
    let card = RwSignal::new(None);
    let recipe = recipe.clone();
    let work = move || {
        // The list may be gone by now.
        if card.try_get_untracked().is_some() {
            card.try_set(Some(work_out(&recipe, &tools)));
        }
    };
    set_timeout(work, Duration::ZERO);
    card
}

/// The card small, partly open on its table, once it is worked out.
#[component]
pub(crate) fn Small(
    /// The recipe.
    recipe: Recipe,
    /// The same worked out.
    card: RwSignal<Option<Card>>,
    /// What no other figure on the page is called: letters and digits.
    name: String,
) -> impl IntoView {
    move || {
        let card = card.get()?;
        Some(view! { <InSpace recipe=recipe.clone() card name=name.as_str()/> })
    }
}
