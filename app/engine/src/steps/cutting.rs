//! Taking out paper, and cutting.

use std::collections::BTreeMap;

use super::laying::how_to_cut_layer;
use super::{Caption, Instruction, Kind, Label, Seen, Step, StepKey, Title, Tool, Value};
use super::{how_to_cut, shaping};
use crate::card::Card;
use crate::care::Hazard;
use crate::laid::Piece;
use crate::paper::StockId;
use crate::part::Part;
use crate::recipe::Recipe;

/// What is needed, before anything is cut.
pub(super) fn gather(recipe: &Recipe, card: &Card) -> Step {
    let sheets = card.cut_list.sheets(recipe.copies);
    gather_sheets(recipe, sheets, Instruction::OwnSheets)
}

/// So many sheets of each paper, with a word on how they are counted.
pub(super) fn gather_sheets(
    recipe: &Recipe,
    sheets: BTreeMap<StockId, Option<i64>>,
    counted: Instruction,
) -> Step {
    let mut step = Step::new(StepKey::Gather, Kind::Gather, Title::Gather, recipe);
    step.times = 1;
    for (id, sheets) in sheets {
        if recipe.stock(id).is_some() {
            step.figure(Label::Paper(id), Value::Sheets(sheets));
        }
    }
    if recipe.copies > 1 {
        step.does.push(Instruction::Batch(recipe.copies));
    }
    step.does.push(counted);
    step.tools = vec![
        Tool::Trimmer,
        Tool::ScoringBoard,
        Tool::BoneFolder,
        Tool::Glue,
        Tool::Ruler,
    ];
    step
}

/// Cutting the base and the pieces glued in.
pub(super) fn strips(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let pieces = card.laid.all_pieces();
    pieces.map(|piece| strip(recipe, card, piece)).collect()
}

fn strip(recipe: &Recipe, card: &Card, piece: &Piece) -> Step {
    let part = Part::Strip(piece.of);
    let mut step = Step::new(StepKey::Cut(part), Kind::Cut, Title::Cut(part), recipe);
    step.length(Label::Length, piece.size.width);
    step.length(Label::Height, piece.size.height);
    step.does = how_to_cut(recipe, card, piece.of);
    if card.lies(part).is_some() {
        step.picture(Caption::OnSheet, Seen::Laid(part));
    }
    step.bare(piece.of);
    trimmer(&mut step);
    step
}

/// What straight cuts are made with.
pub(super) fn trimmer(step: &mut Step) {
    step.tools = vec![Tool::Trimmer];
    step.care = vec![Hazard::Trimmer, Hazard::Guillotine];
}

/// Cutting each layer.
pub(super) fn layers(recipe: &Recipe, card: &Card) -> Vec<Step> {
    card.laid
        .layers
        .iter()
        .filter_map(|laid| {
            let layer = recipe.layer(laid.id)?;
            let part = Part::Layer(laid.id);
            let blank = card.cut_list.of(part)?;
            let lies = blank.lies.as_ref()?;
            let mut step = Step::new(StepKey::Cut(part), Kind::Cut, Title::Cut(part), recipe);
            step.length(Label::Width, blank.size.width);
            step.length(Label::Height, blank.size.height);
            step.does = how_to_cut_layer(recipe, blank, lies, laid.id);
            step.picture(Caption::OnSheet, Seen::Laid(part));
            trimmer(&mut step);
            shaping::outline(recipe, layer, laid, false, &mut step);
            Some(step)
        })
        .collect()
}
