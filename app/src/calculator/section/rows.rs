//! The parts of one kind, a row for each.

use std::hash::Hash;

use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;

use super::super::desk::Desk;

/// A row for each part, by its lasting name. A row on its way out has nothing to show any
/// more.
#[component]
pub(super) fn Rows<T>(
    /// How the list looks.
    class: &'static str,
    /// The parts in the order they are.
    ids: impl Fn(&Recipe) -> Vec<T> + Send + Sync + 'static,
    /// What is shown of one.
    row: impl Fn(T) -> AnyView + Clone + Send + 'static,
) -> impl IntoView
where
    T: Copy + Eq + Hash + Send + Sync + 'static,
{
    let desk = Desk::here();
    let ids = Memo::new(move |_| desk.recipe.with(&ids));
    view! {
        <ol class=class>
            <For each=move || ids.get() key=|id| *id children=row/>
        </ol>
    }
}
