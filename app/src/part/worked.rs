//! A recipe of a list, worked out.

use std::time::Duration;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::recipe::{Parts, Recipe};
use leptos::prelude::*;

use super::InSpace;

/// A card of more panels, layers and lines than this takes longer to work out
/// than a list of them may wait for. Our own bound: several times what the
/// starting folds have.
const MANY: usize = 24;

/// A recipe worked out; one of many parts a moment later, so that the list it
/// is in is there at once and can be used meanwhile.
pub(crate) fn worked_out(recipe: &Recipe, tools: Tools) -> RwSignal<Option<Card>> {
    let parts = [Parts::Panels, Parts::Layers, Parts::Lines, Parts::Cutouts];
    let parts: usize = parts.into_iter().map(|parts| parts.of(recipe)).sum();
    if parts <= MANY {
        return RwSignal::new(Some(work_out(recipe, &tools)));
    }
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
