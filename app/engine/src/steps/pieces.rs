//! Folding pieces of their own, and gluing them in.

use super::{Kind, Seen, Step, piece_key, side_up};
use crate::card::Card;
use crate::care::Hazard;
use crate::draw::Moment;
use crate::fold::Glued;
use crate::recipe::{Join, Mark, Piece, Recipe, Side};
use crate::words::{face_name, line_name, piece_name, side_word};

/// Folding each piece before it is glued in.
pub(super) fn folds(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let folded = recipe.pieces.iter().filter_map(|piece| {
        let laid = card.laid.piece(Some(piece.id))?;
        let hinges = card.laid.hinges.iter();
        let own: Vec<_> = hinges
            .filter(|hinge| laid.panels.contains(&hinge.left))
            .collect();
        if own.is_empty() {
            return None;
        }
        let title = format!("Fold {}", piece.name);
        let mut step = Step::new(piece_key("fold", piece.id), Kind::Fold, title, recipe);
        let mut said = Vec::new();
        for hinge in own {
            if !said.contains(&hinge.line) {
                said.push(hinge.line);
                let flat = if hinge.folded {
                    ""
                } else {
                    ", then flat again"
                };
                step.figure(
                    line_name(recipe, hinge.line),
                    format!("{}{flat}", hinge.fold.word()),
                );
            }
        }
        step.does = vec![
            format!(
                "Fold each of these the way it is named, seen from its {}.",
                side_word(Some(piece.id), Side::A)
            ),
            "Press the folds with the bone folder.".to_owned(),
        ];
        let (caption, view) = side_up(recipe, Some(piece.id), Side::A);
        step.picture(caption, view);
        step.tools = vec!["bone folder"];
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
    let of = Some(piece.id);
    let panel = recipe.panel_name(join.panel);
    let on = face_name(recipe, join.on);
    let title = format!("Glue {panel} of {} to {on}", piece.name);
    let key = format!("{}-{}", piece_key("glue", piece.id), join.panel.0);
    let mut step = Step::new(key, Kind::Glue, title, recipe);
    // What touches the glue is the side that does not show.
    let under = if glued.place.mirrored == (join.on.side == Side::A) {
        Side::A
    } else {
        Side::B
    };
    let spread = format!("Put glue on the {} of {panel}.", side_word(of, under));
    match join.at {
        Some(mark) => {
            ends(recipe, mark, &mut step);
            step.does = vec![
                format!("On {on}, pencil a faint line from the one point to the other."),
                spread,
                "Lay its crease along the line, from the first point on, and press it down."
                    .to_owned(),
            ];
        }
        None => {
            step.does = vec![
                spread,
                format!(
                    "Close the card over {}, folded as it is to lie, and press: it sticks where \
                     it belongs.",
                    piece.name
                ),
            ];
        }
    }
    let carrier = card.laid.piece_with(glued.on).and_then(|it| it.of);
    let place = format!(
        "Its place on {}, seen from the {}",
        piece_name(recipe, carrier),
        side_word(carrier, join.on.side)
    );
    step.picture(place, Seen::Flat(carrier, join.on.side));
    let states = card.folded.iter().map(|folded| folded.states.len());
    let last = states.max().unwrap_or(0).saturating_sub(1);
    let open = Moment {
        state: last,
        part: 0.0,
    };
    step.picture("The card open", Seen::Opening(open));
    step.tools = vec!["glue", "scrap paper", "pencil"];
    step.care = vec![Hazard::HotGlue];
    step
}

/// Where the line runs that its crease is laid along.
fn ends(recipe: &Recipe, mark: Mark, step: &mut Step) {
    for (word, corner) in [("from", mark.from), ("towards", mark.to)] {
        let at = recipe.corner(corner);
        let written = |length| recipe.notation.with_unit(length);
        step.figure(format!("{word}, from the left"), written(at.x));
        step.figure(format!("{word}, from below"), written(at.y));
    }
}
