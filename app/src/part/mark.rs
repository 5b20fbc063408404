//! Our mark.

use leptos::prelude::*;

/// Our mark: a strip in three panels, the creases in vermilion.
#[component]
pub fn Mark() -> impl IntoView {
    view! {
        <svg class="logo" viewBox="0 0 32 32" aria-hidden="true" focusable="false">
            <path class="logo-far" d="M3 10 12 5v17l-9 5z"></path>
            <path class="logo-near" d="M12 5l8 5v17l-8-5z"></path>
            <path class="logo-far" d="M20 10l9-5v17l-9 5z"></path>
            <path class="logo-crease" d="M12 4v19M20 9v19"></path>
        </svg>
    }
}
