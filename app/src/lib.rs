//! The Foldwright app: pages and parts over the fold engine.

use leptos::prelude::*;

pub mod api;

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    view! { <main>"Foldwright"</main> }
}
