//! What is put on the strip.

use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{LayerId, LayerKind, Seat};
use leptos::html;
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::pick::brought;
use super::from_svg::FromSvg;
use super::layer::OneLayer;
use super::row_head::RowHead;
use super::seat::{SeatChoice, seats};
use super::white_backs::WhiteBacks;
use crate::part::heard;
use crate::spoken::{naming, speaker, texts};

/// The layers in the order they are put on, and buttons to add more.
#[component]
pub(crate) fn Layers() -> impl IntoView {
    let desk = Desk::here();
    let ids = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let layers = recipe.layers.iter();
            layers.map(|layer| layer.id).collect::<Vec<_>>()
        })
    });
    let options = Memo::new(move |_| seats(desk, None));
    let wanted = RwSignal::new(None::<Seat>);
    // A seat that is gone, or none yet: what is seen first.
    let seat = Memo::new(move |_| {
        let wanted = wanted.get();
        options.with(|options| {
            let kept = options.iter().find(|it| Some(it.seat) == wanted);
            kept.or(options.first()).map(|it| it.seat)
        })
    });
    let add = move |kind: LayerKind| {
        let Some(seat) = seat.get_untracked() else {
            return;
        };
        let mut fresh = None;
        desk.edit(None, |recipe| {
            let added = recipe.add_layer(seat, kind, naming())?;
            fresh = Some(added.id);
            Ok(added.changes)
        });
        if fresh.is_some() {
            desk.layer.set(fresh);
        }
    };
    view! {
        <h2>{texts().shape.put_something_on}</h2>
        <SeatChoice label=texts().shape.on name="put" options chosen=seat choose=move |seat| wanted.set(Some(seat))/>
        <div class="actions">
            <button type="button" class="button" on:click=move |_| add(LayerKind::Mat)>{texts().shape.add_mat}</button>
            <button type="button" class="button" on:click=move |_| add(LayerKind::Focal)>{texts().shape.add_focal}</button>
            <button type="button" class="button" on:click=move |_| add(LayerKind::Insert)>{texts().shape.add_insert}</button>
        </div>
        <FromSvg seat/>
        <h2>{texts().shape.layers}</h2>
        <Show when=move || ids.with(Vec::is_empty)>
            <p class="quiet">{texts().shape.no_layers}</p>
        </Show>
        <ol class="layers">
            <For each=move || ids.get() key=|id| *id children=move |id| view! { <LayerRow id/> }/>
        </ol>
        <WhiteBacks/>
    }
}

/// A layer in a line; a tap opens its particulars.
#[component]
fn LayerRow(id: LayerId) -> impl IntoView {
    let desk = Desk::here();
    let open = Memo::new(move |_| desk.layer.get() == Some(id));
    let name = move || {
        desk.recipe
            .with(|recipe| recipe.layer(id).map(|layer| layer.name.clone()))
    };
    let about = move || {
        desk.recipe.with(|recipe| {
            let layer = recipe.layer(id)?;
            let size = desk.card.with(|card| Some(card.laid.layer(id)?.at.size()));
            let size = size.unwrap_or_default();
            Some(heard(speaker(recipe).on(size, layer.on)))
        })
    };
    let row = NodeRef::<html::Li>::new();
    brought(move || row.get().map(Into::into), move || Place::Layer(id));
    let spoilt = move || {
        desk.card.with(|card| {
            card.gluings
                .iter()
                .any(|gluing| gluing.layer == id && gluing.refused)
        })
    };
    view! {
        <li node_ref=row class="layer brought" tabindex="-1">
            <RowHead open show=move |shows: bool| desk.layer.set(shows.then_some(id)) name about>
                <Show when=spoilt>
                    <span class="wrong">{texts().shape.glue_refused}</span>
                </Show>
            </RowHead>
            <Show when=move || open.get()>
                <OneLayer id/>
            </Show>
        </li>
    }
}
