//! The paper that a part is cut from.

use foldwright_engine::paper::StockId;
use foldwright_engine::part::Part;
use foldwright_engine::recipe::{Recipe, StripId};
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::pull_down::Pick;

/// The papers of the recipe with their names.
pub(super) fn stocks() -> Signal<Vec<(StockId, String)>> {
    let desk = Desk::here();
    Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let stocks = recipe.stocks.iter();
            stocks.map(|stock| (stock.id, stock.name.clone())).collect()
        })
    })
}

/// Chooses the paper of a part. For a part on its way out it shows that of the
/// base.
#[component]
pub(super) fn CutFrom(
    /// What it is called here.
    label: &'static str,
    /// What is cut.
    part: Part,
) -> impl IntoView {
    let desk = Desk::here();
    let chosen = Signal::derive(move || desk.recipe.with(|recipe| stock_of(recipe, part)));
    let choose = move |stock| {
        desk.change(|recipe| {
            if let Some(of_part) = stock_of_mut(recipe, part) {
                *of_part = stock;
            }
        });
    };
    view! { <Pick label options=stocks() chosen choose/> }
}

/// What a part is cut from.
fn stock_of(recipe: &Recipe, part: Part) -> StockId {
    let stock = match part {
        Part::Strip(StripId::Base) => None,
        Part::Strip(StripId::Piece(id)) => recipe.piece(id).map(|piece| piece.strip.stock),
        Part::Layer(id) => recipe.layer(id).map(|layer| layer.stock),
    };
    stock.unwrap_or(recipe.base.stock)
}

fn stock_of_mut(recipe: &mut Recipe, part: Part) -> Option<&mut StockId> {
    match part {
        Part::Strip(StripId::Base) => Some(&mut recipe.base.stock),
        Part::Strip(StripId::Piece(id)) => {
            let piece = recipe.pieces.iter_mut().find(|piece| piece.id == id);
            piece.map(|piece| &mut piece.strip.stock)
        }
        Part::Layer(id) => {
            let layer = recipe.layers.iter_mut().find(|layer| layer.id == id);
            layer.map(|layer| &mut layer.stock)
        }
    }
}
