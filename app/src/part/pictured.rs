//! A drawing beside words that say the same.

use foldwright_engine::draw::Written;
use leptos::prelude::*;

/// A drawing that screen readers pass over.
#[component]
pub(crate) fn Pictured(
    drawn: Written,
    /// How it is set.
    class: &'static str,
) -> impl IntoView {
    view! {
        <svg
            class=class
            viewBox=drawn.view_box.clone()
            aria-hidden="true"
            focusable="false"
            inner_html=drawn.inside()
        ></svg>
    }
}
