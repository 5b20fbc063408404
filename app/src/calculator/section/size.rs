//! How large a layer is and how far from the edges of what carries it.

use foldwright_engine::recipe::{Layer, LayerId, MeasureId};
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::number::Number;
use crate::part::told;
use crate::spoken::{speaker, texts};

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
        Some(
            desk.recipe
                .with(|recipe| told(speaker(recipe).with_exact().short_size(size))),
        )
    };
    let own = move || {
        view! {
            <div class="numbers">
                <Number measure=of(|layer| layer.width) label=texts().shape.width/>
                <Number measure=of(|layer| layer.height) label=texts().shape.height/>
                <Number measure=of(|layer| layer.left) label=texts().shape.from_the_left/>
                <Number measure=of(|layer| layer.bottom) label=texts().shape.from_the_bottom/>
            </div>
        }
    };
    let carried = move || {
        view! {
            <p><b>{size}</b> <span class="quiet">{texts().shape.as_room_is_left}</span></p>
        }
    };
    view! { <Show when=move || !follows.get() fallback=carried>{own()}</Show> }
}
