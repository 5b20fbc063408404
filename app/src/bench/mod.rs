//! The bench: a recipe step by step at the table.

use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;

/// The steps of one recipe, one a screen.
#[component]
pub fn Bench(
    /// The recipe; every change is saved by whoever gave it.
    recipe: RwSignal<Recipe>,
    /// Its name in the store and in addresses.
    id: String,
) -> impl IntoView {
    view! {
        <h1>{move || recipe.with(|recipe| recipe.name.clone())}</h1>
        <a class="button" href=format!("/recipe/{id}")>"Back to the recipe"</a>
    }
}
