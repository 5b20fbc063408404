//! Decorating, gluing, drying, and the envelope.

use std::sync::Arc;

use super::laying::how_to_glue;
use super::seen::Bare;
use super::{Caption, Instruction, Kind, Label, Seen, Step, StepKey, Title, Tool, Value};
use crate::card::Card;
use crate::care::Hazard;
use crate::glue::Gluing;
use crate::laid::LaidLayer;
use crate::outlines::seat_corner;
use crate::plane::Size;
use crate::recipe::{Bond, Layer, Recipe};

/// Decorating what should be seen first, while it still lies flat.
pub(super) fn decorate(recipe: &Recipe) -> Vec<Step> {
    recipe
        .layers
        .iter()
        .filter(|layer| layer.focal)
        .map(|layer| {
            let id = layer.id;
            let key = StepKey::Decorate(id);
            let mut step = Step::new(key, Kind::Decorate, Title::Decorate(id), recipe);
            step.does.push(Instruction::DecorateNow(id));
            step.tools = vec![Tool::Decoration];
            step.care = vec![Hazard::HeatTool, Hazard::SmallParts];
            step
        })
        .collect()
}

/// Gluing each layer on, in the recipe's order, or slipping it in.
pub(super) fn put_on(recipe: &Recipe, card: &Card, bare: Option<&Arc<Bare>>) -> Vec<Step> {
    card.laid
        .layers
        .iter()
        .filter_map(|laid| {
            let layer = recipe.layer(laid.id)?;
            let gluing = card.gluings.iter().find(|gluing| gluing.layer == laid.id);
            let mut step = one_layer(recipe, card, layer, laid, gluing);
            let readings = &card.readings;
            if readings.iter().any(|reading| reading.face == laid.face) {
                step.picture(
                    Caption::InPlace,
                    Seen::PutOn(bare.cloned(), laid.id, [].into()),
                );
            }
            Some(step)
        })
        .collect()
}

fn one_layer(
    recipe: &Recipe,
    card: &Card,
    layer: &Layer,
    laid: &LaidLayer,
    gluing: Option<&Gluing>,
) -> Step {
    let id = layer.id;
    let glued = gluing.filter(|gluing| gluing.wanted.is_some());
    let (kind, title) = if glued.is_some() {
        (Kind::Glue, Title::Glue(id, layer.on))
    } else {
        (Kind::Insert, Title::LayOn(id, layer.on))
    };
    let mut step = Step::new(StepKey::PutOn(id), kind, title, recipe);
    let (at, under) = (laid.at.low, seat_corner(&card.laid, layer));
    step.length(Label::FromLeftEdge, at.x - under.x);
    step.length(Label::FromBottomEdge, at.y - under.y);
    step.does.push(Instruction::MeasureSeat(layer.on));
    if let Some(gluing) = glued {
        step.does.push(Instruction::TurnLikePage(id));
        step.does.extend(how_to_glue(gluing));
        if gluing.refused {
            step.does.push(Instruction::GlueSpoils(id));
        }
        step.picture(Caption::GlueOnBack, Seen::Back(id));
        step.tools = vec![Tool::Glue, Tool::ScrapPaper];
        step.care = vec![Hazard::HotGlue, Hazard::SprayGlue];
        step.does.push(Instruction::SetDown(id));
    } else {
        step.does.push(Instruction::SetLoose(id));
    }
    step
}

/// Waiting for the glue, where there is any.
pub(super) fn dry(recipe: &Recipe) -> Option<Step> {
    let glued = recipe.layers.iter().any(|layer| layer.bond != Bond::Loose);
    (glued || !recipe.pieces.is_empty()).then(|| {
        let mut step = Step::new(StepKey::Dry, Kind::Dry, Title::Dry, recipe);
        step.does = vec![Instruction::PressDry, Instruction::OpenOnce];
        step.tools = vec![Tool::CleanPaper, Tool::Weight];
        step
    })
}

/// The envelope.
pub(super) fn envelope(recipe: &Recipe, card: &Card) -> Step {
    let mut step = Step::new(StepKey::Envelope, Kind::Envelope, Title::Envelope, recipe);
    let (width, height) = (card.finished.width, card.finished.height);
    step.figure(Label::Closed, Value::Size(Size { width, height }));
    if let Some(thickest) = card.thickest {
        step.length(Label::Thickest, thickest.thickness);
    }
    let chosen = recipe.posting.envelope.as_deref();
    let fit = card
        .envelopes
        .iter()
        .find(|fit| Some(fit.envelope.id) == chosen)
        .or_else(|| card.envelopes.first().filter(|_| chosen.is_none()));
    let found = fit.map(|fit| Instruction::GoesInto(fit.envelope));
    step.does = vec![
        found.unwrap_or(Instruction::NoEnvelope),
        Instruction::TryFirst,
    ];
    step
}
