//! A drawing in which nothing can be taken hold of.

use leptos::prelude::*;

use super::picture::Picture;

/// Shows a picture where there is one; the words beside it say the same.
#[component]
pub(super) fn Still(
    /// The picture, made whenever what it shows changes.
    #[prop(into)]
    picture: Signal<Option<Picture>>,
) -> impl IntoView {
    let part = move |part: fn(&Picture) -> String| {
        picture.with(|picture| picture.as_ref().map_or_else(String::new, part))
    };
    view! {
        <svg class="still" aria-hidden="true" focusable="false" viewBox=move || part(|picture| picture.drawn.view_box.clone())>
            <g inner_html=move || part(|picture| picture.drawn.inside())></g>
        </svg>
    }
}
