//! How large a layer is and how far from the edges of what carries it.

use foldwright_engine::recipe::{Layer, LayerId, MeasureId};
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::number::Number;

/// Its numbers; of one that takes the shape of what carries it what comes of
/// that.
#[component]
pub(super) fn LayerSize(id: LayerId) -> impl IntoView {
    let desk = Desk::here();
    // A layer on its way out is shown no more, but may still be asked for.
    let of = move |part: fn(&Layer) -> MeasureId| {
        Signal::derive(move || {
            desk.recipe
                .with(|recipe| recipe.layer(id).map_or(recipe.base.length, part))
        })
    };
    let follows = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let layer = recipe.layer(id);
            layer.is_some_and(Layer::follows)
        })
    });
    let size = move || {
        let size = desk
            .card
            .with(|card| Some(card.laid.layer(id)?.at.size()))?;
        Some(desk.notation().size(size.width, size.height))
    };
    let own = move || {
        view! {
            <div class="numbers">
                <Number measure=of(|layer| layer.width) label="Width"/>
                <Number measure=of(|layer| layer.height) label="Height"/>
                <Number measure=of(|layer| layer.left) label="From the left"/>
                <Number measure=of(|layer| layer.bottom) label="From the bottom"/>
            </div>
        }
    };
    let carried = move || {
        view! {
            <p><b>{size}</b> <span class="quiet">", as what carries it leaves room"</span></p>
        }
    };
    view! { <Show when=move || !follows.get() fallback=carried>{own()}</Show> }
}
