//! The base seen along its folds, a little open.

use std::f64::consts::PI;

use super::{Drawing, Ink, Mark, Spot, millimetres};
use crate::card::Card;
use crate::recipe::{Fold, Recipe};

/// How far the fold that opens first stands open, and how far the others, so
/// that they can be told apart; for the eye only.
const FIRST: f64 = 80.0 / 180.0 * PI;
const OTHERS: f64 = 35.0 / 180.0 * PI;

/// The panels of the base as lines, seen from the foot of the card, or from its
/// side where it runs down: the panel that rests lies level with its inside up,
/// the others stand open from it.
pub fn edge_on(recipe: &Recipe, card: &Card) -> Drawing {
    let base = &recipe.base;
    let widths: Vec<f64> = base
        .panels
        .iter()
        .map(|panel| millimetres(recipe.value(panel.width)))
        .collect();
    let rests = base.panels.iter().position(|panel| panel.id == base.rests);
    let rests = rests.unwrap_or(0);
    let first = first_opened(card);
    let open = |crease: usize| if first == Some(crease) { FIRST } else { OTHERS };
    let turn = |crease: usize| {
        let by = PI - open(crease);
        match base.folds.get(crease) {
            Some(Fold::Valley) => by,
            Some(Fold::Mountain) => -by,
            None => 0.0,
        }
    };
    let mut marks = Vec::new();
    let width = |index: usize| widths.get(index).copied().unwrap_or_default();
    let mut chain = |from: Spot, mut angle: f64, panels: &mut dyn Iterator<Item = (usize, f64)>| {
        let mut from = from;
        for (panel, turned) in panels {
            angle += turned;
            let long = width(panel);
            let to = [from[0] + long * angle.cos(), from[1] + long * angle.sin()];
            marks.push(Mark::Line {
                from,
                to,
                ink: Ink::Section,
                line: None,
            });
            from = to;
        }
    };
    // To the right a valley turns left, to the left it turns right.
    let right = (rests + 1..widths.len()).map(|index| (index, turn(index - 1)));
    chain(
        [0.0, 0.0],
        0.0,
        &mut std::iter::once((rests, 0.0)).chain(right),
    );
    let left = (0..rests).rev().map(|index| (index, -turn(index)));
    chain([0.0, 0.0], PI, &mut left.into_iter());
    Drawing::framed(marks, 0.06)
}

/// The crease of the base that opens first, by its index.
fn first_opened(card: &Card) -> Option<usize> {
    let opened = card.folded.as_ref()?.states.get(1)?.opened.as_ref()?;
    let hinge = card.laid.hinges.get(*opened.hinges.first()?)?;
    Some(hinge.left.min(hinge.right))
}
