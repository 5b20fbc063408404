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
    let part = move |part: fn(&Picture) -> &str| {
        picture.with(|picture| {
            picture
                .as_ref()
                .map_or_else(String::new, |picture| part(picture).to_owned())
        })
    };
    view! {
        <svg class="still" aria-hidden="true" focusable="false" viewBox=move || part(|picture| &picture.view_box)>
            <g inner_html=move || part(|picture| &picture.inner)></g>
        </svg>
    }
}
