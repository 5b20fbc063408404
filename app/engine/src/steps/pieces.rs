//! Folding pieces of their own, and gluing them in.

use super::{Caption, Instruction, Kind, Label, Point, Seen, Step, StepKey, Title, Tool, Value};
use crate::card::Card;
use crate::care::Hazard;
use crate::fold::Glued;
use crate::recipe::{Join, Mark, Piece, Recipe, Side, StripId};

/// Folding each piece before it is glued in.
pub(super) fn folds(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let folded = recipe.pieces.iter().filter_map(|piece| {
        let laid = card.laid.piece(StripId::Piece(piece.id))?;
        let hinges = card.laid.hinges.iter();
        let own: Vec<_> = hinges
            .filter(|hinge| laid.panels.contains(&hinge.left))
            .collect();
        if own.is_empty() {
            return None;
        }
        let id = piece.id;
        let key = StepKey::FoldPiece(id);
        let mut step = Step::new(key, Kind::Fold, Title::FoldPiece(id), recipe);
        let mut said = Vec::new();
        for hinge in own {
            if !said.contains(&hinge.line) {
                said.push(hinge.line);
                let folds = if hinge.folded {
                    Value::Fold(hinge.fold)
                } else {
                    Value::ThenFlat(hinge.fold)
                };
                step.figure(Label::Line(hinge.line), folds);
            }
        }
        step.does = vec![Instruction::FoldEach(id), Instruction::PressFolds(id)];
        step.flat(StripId::Piece(id), Seen::Scored(StripId::Piece(id)));
        step.tools = vec![Tool::BoneFolder];
        Some(step)
    });
    folded.collect()
}

/// Gluing each piece in: a step a join.
pub(super) fn glued(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let all = card.folded.iter().flat_map(|folded| &folded.glued);
    let steps = all.filter_map(|glued| {
        let (id, number) = glued.join;
        let piece = recipe.piece(id)?;
        Some(one(recipe, card, piece, piece.joins.get(number)?, glued))
    });
    steps.collect()
}

fn one(recipe: &Recipe, card: &Card, piece: &Piece, join: &Join, glued: &Glued) -> Step {
    let (id, panel) = (piece.id, join.panel);
    let title = Title::GlueIn {
        part: panel,
        of: id,
        on: join.on,
    };
    let mut step = Step::new(StepKey::GlueIn(id, panel), Kind::Glue, title, recipe);
    // What touches the glue is the side that does not show.
    let under = if glued.place.mirrored == (join.on.side == Side::A) {
        Side::A
    } else {
        Side::B
    };
    let spread = Instruction::Spread { panel, side: under };
    let carrier = card.laid.piece_with(glued.on);
    let carrier = carrier.map_or(StripId::Base, |it| it.of);
    match join.at {
        Some(mark) => {
            ends(recipe, mark, join.on.side, &mut step);
            step.does = vec![
                Instruction::MeasureCarrier(carrier),
                Instruction::DrawLine(join.on),
                spread,
                Instruction::LayCrease(panel),
            ];
        }
        None => step.does = vec![spread, Instruction::CloseOn(id)],
    }
    let side = join.on.side;
    let place = Seen::PlaceOn(carrier, side, glued.join);
    step.picture(Caption::PlaceOn(carrier, side), place);
    step.picture(Caption::Open, Seen::GluedIn(id, [].into()));
    step.tools = vec![Tool::Glue, Tool::ScrapPaper, Tool::Pencil];
    step.care = vec![Hazard::HotGlue, Hazard::SprayGlue];
    step
}

/// Where the line runs that its crease is laid along. Its ends have letters where the
/// picture shows the side that they are told of.
fn ends(recipe: &Recipe, mark: Mark, side: Side, step: &mut Step) {
    let ends = [(Point::First, mark.from), (Point::Second, mark.to)];
    for (letter, (point, corner)) in ends.into_iter().enumerate() {
        let at = recipe.corner(corner);
        for (label, length) in [
            (Label::PointFromLeft(point), at.x),
            (Label::PointFromBottom(point), at.y),
        ] {
            match side {
                Side::A => step.lettered(letter, label, length),
                Side::B => step.length(label, length),
            }
        }
    }
}
