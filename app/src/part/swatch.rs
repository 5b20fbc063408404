//! A small square of a paper.

use foldwright_engine::draw::Motif;
use foldwright_engine::paper::SideLook;
use leptos::prelude::*;

use crate::album::address;

/// A side of a paper as it looks: photographed, or in its colour with one of
/// its motifs. What it is called
/// stands beside it.
#[component]
pub(crate) fn Swatch(
    /// The side.
    #[prop(into)]
    look: Signal<Option<SideLook>>,
) -> impl IntoView {
    let colour = move || look.get().map(|look| look.colour.to_string());
    let photo = move || {
        let from = address(look.get()?.photo?)?;
        Some(view! {
            <image href=from width="100%" height="100%" preserveAspectRatio="xMidYMid slice"/>
        })
    };
    let motif = move || {
        let (Motif { path, pitch }, class) = Motif::of_side(look.get()?)?;
        let [width, height] = pitch;
        Some(view! {
            <svg
                viewBox=format!("0 0 {width} {height}")
                width="100%"
                height="100%"
                preserveAspectRatio="xMidYMid slice"
            >
                <path class=class d=path></path>
            </svg>
        })
    };
    view! {
        <svg class="swatch" aria-hidden="true" focusable="false">
            <rect width="100%" height="100%" fill=colour></rect>
            {motif}
            {photo}
        </svg>
    }
}
