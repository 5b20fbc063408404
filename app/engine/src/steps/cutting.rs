//! Taking out paper, and cutting.

use std::collections::BTreeMap;

use super::{Kind, Seen, Step, layer_key, piece_key, shaping, side_up};
use crate::card::Card;
use crate::care::Hazard;
use crate::laid::{LaidLayer, Piece};
use crate::paper::{Print, Stock, StockId};
use crate::plane::Size;
use crate::print::PrintAdvice;
use crate::recipe::{Recipe, Side};
use crate::words::{how_to_cut, piece_name};

/// What is needed, before anything is cut.
pub(super) fn gather(recipe: &Recipe, card: &Card) -> Step {
    let mut step = Step::new("gather", Kind::Gather, "Take out your paper", recipe);
    step.times = 1;
    for (id, sheets) in sheets_needed(recipe, card) {
        let Some(stock) = recipe.stock(id) else {
            continue;
        };
        let sheets = match sheets {
            Some(1) => "1 sheet".to_owned(),
            Some(sheets) => format!("{sheets} sheets"),
            None => "too small".to_owned(),
        };
        step.figure(stock.name.clone(), sheets);
    }
    if recipe.copies > 1 {
        step.does.push(format!(
            "This is for {} cards. Do each step for all of them before the next.",
            recipe.copies
        ));
    }
    step.does.push(
        "Every kind of piece is counted on sheets of its own; leftovers may save a sheet."
            .to_owned(),
    );
    step.tools = vec!["trimmer", "scoring board", "bone folder", "glue", "ruler"];
    step
}

/// How many sheets of each paper are needed; none where a piece does not fit
/// its sheet.
pub fn sheets_needed(recipe: &Recipe, card: &Card) -> BTreeMap<StockId, Option<i64>> {
    let mut needed = BTreeMap::new();
    let mut add = |id: StockId, per_sheet: i64| {
        let copies = i64::from(recipe.copies);
        let sheets = (per_sheet > 0).then(|| (copies + per_sheet - 1) / per_sheet);
        let sum = needed.entry(id).or_insert(Some(0));
        *sum = sum.zip(sheets).map(|(a, b)| a + b);
    };
    for piece in card.laid.all_pieces() {
        let per_sheet = card.print_of(piece.of).and_then(PrintAdvice::per_sheet);
        add(piece.stock, per_sheet.unwrap_or(0));
    }
    for layer in &card.laid.layers {
        let per_sheet = recipe.stock(layer.stock).map_or(0, |stock| {
            ways_to_cut(stock, layer)
                .into_iter()
                .map(|size| stock.per_sheet(size.width, size.height))
                .max()
                .unwrap_or(0)
        });
        add(layer.stock, per_sheet);
    }
    needed
}

/// The ways a layer may lie on its sheet: with its height up the print, and
/// turned where the print allows it.
fn ways_to_cut(stock: &Stock, layer: &LaidLayer) -> Vec<Size> {
    let size = layer.at.size();
    match stock.side(layer.shows).print {
        Print::OneWay | Print::TwoWay => vec![size],
        Print::Plain | Print::AllOver => vec![size, size.turned()],
    }
}

/// The way that gives most of a layer from a sheet.
pub(super) fn best_way(stock: &Stock, layer: &LaidLayer) -> Option<Size> {
    // Of equals the last wins, which is then the one not turned.
    let ways = ways_to_cut(stock, layer).into_iter().rev();
    ways.max_by_key(|size| stock.per_sheet(size.width, size.height))
}

/// Cutting the base and the pieces glued in.
pub(super) fn strips(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let pieces = card.laid.all_pieces();
    pieces.map(|piece| strip(recipe, card, piece)).collect()
}

fn strip(recipe: &Recipe, card: &Card, piece: &Piece) -> Step {
    let key = match piece.of {
        None => "cut-strip".to_owned(),
        Some(id) => piece_key("cut", id),
    };
    let name = piece_name(recipe, piece.of);
    let mut step = Step::new(key, Kind::Cut, format!("Cut {name}"), recipe);
    let size = piece.size;
    step.figure("length", recipe.notation.with_unit(size.width));
    step.figure("height", recipe.notation.with_unit(size.height));
    step.does = how_to_cut(recipe, card, piece.of);
    if card.print_of(piece.of).is_some() {
        step.picture("On the sheet, face up", Seen::Laid(piece.of));
    }
    let (caption, view) = side_up(recipe, piece.of, Side::A);
    step.picture(caption, view);
    step.tools = vec!["trimmer"];
    step.care = vec![Hazard::Trimmer];
    step
}

/// Cutting each layer.
pub(super) fn layers(recipe: &Recipe, card: &Card) -> Vec<Step> {
    card.laid
        .layers
        .iter()
        .filter_map(|laid| {
            let layer = recipe.layer(laid.id)?;
            let stock = recipe.stock(laid.stock)?;
            let title = format!("Cut {}", layer.name);
            let mut step = Step::new(layer_key("cut", laid.id), Kind::Cut, title, recipe);
            let size = laid.at.size();
            step.figure("width", recipe.notation.with_unit(size.width));
            step.figure("height", recipe.notation.with_unit(size.height));
            step.does.push(format!("Cut it from {}.", stock.name));
            step.does.extend(match stock.side(laid.shows).print {
                Print::OneWay | Print::TwoWay => Some("Its height runs up the print.".to_owned()),
                Print::Plain | Print::AllOver => None,
            });
            if best_way(stock, laid).is_some() {
                step.picture("On the sheet, face up", Seen::SheetOfLayer(laid.id));
            }
            step.tools = vec!["trimmer"];
            step.care = vec![Hazard::Trimmer];
            shaping::outline(recipe, layer, laid, &mut step);
            Some(step)
        })
        .collect()
}
