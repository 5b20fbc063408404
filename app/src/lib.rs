//! The Foldwright app: pages and parts over the fold engine.

use leptos::prelude::*;

pub mod api;

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    view! {
        <main data-ready="true">
            <h1>"Foldwright"</h1>
            <p>"Folded cards, worked out from your own paper."</p>
        </main>
    }
}
