//! Scoring and folding.

use super::{Kind, Step};
use crate::card::Card;
use crate::draw::{Moment, flat, opening};
use crate::paper::Body;
use crate::recipe::{Fold, Recipe};
use crate::words::{between_passes, fold_words, how_to_lay, score_line};

/// Scoring: a step a pass.
pub(super) fn scores(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let mut steps = Vec::new();
    let passes = &card.chart.passes;
    for (number, pass) in passes.iter().enumerate() {
        let title = if passes.len() == 1 {
            "Score the strip".to_owned()
        } else {
            format!("Score, {} up", pass.up.word())
        };
        let mut step = Step::new(format!("score-{number}"), Kind::Score, title, recipe);
        if let Some(before) = number.checked_sub(1).and_then(|before| passes.get(before)) {
            step.does.push(between_passes(before, pass));
        }
        step.does.push(how_to_lay(recipe, card, pass));
        for mark in &pass.marks {
            step.does.push(score_line(recipe, mark));
            step.figure(fold_words(mark), recipe.notation.with_unit(mark.exact));
        }
        step.picture(
            format!("The strip, {} up", pass.up.word()),
            flat(recipe, card, pass.up),
        );
        step.tools = vec!["scoring board", "bone folder"];
        steps.push(step);
    }
    steps
}

/// Folding: a step a score, in the order the card closes.
pub(super) fn folds(recipe: &Recipe, card: &Card) -> Vec<Step> {
    let Some(folded) = &card.folded else {
        return Vec::new();
    };
    let mut steps = Vec::new();
    // The card closes in the order it opens, backwards.
    for (before, state) in folded.states.iter().enumerate().skip(1).rev() {
        let Some(score) = state.opened else { continue };
        let Some(crease) = card.laid.base.creases.get(score) else {
            continue;
        };
        let at = recipe.notation.with_unit(crease.from.x);
        let mut step = Step::new(
            format!("fold-{score}"),
            Kind::Fold,
            format!("Fold at {at}"),
            recipe,
        );
        step.figure(
            match crease.fold {
                Fold::Mountain => "mountain, seen from the inside",
                Fold::Valley => "valley, seen from the inside",
            },
            at,
        );
        let way = if state.towards_front {
            "Fold it over along its score, with the resting panel flat on the table."
        } else {
            "Turn the card over, fold it over along its score, and turn the card back."
        };
        step.does.push(way.to_owned());
        step.does
            .push("Press the fold with the bone folder from its middle outwards.".to_owned());
        let halfway = Moment {
            state: before - 1,
            part: 0.45,
        };
        step.picture("On the way", opening(recipe, card, halfway));
        let folded_up = Moment {
            state: before - 1,
            part: 0.0,
        };
        step.picture("Folded", opening(recipe, card, folded_up));
        step.tools = vec!["bone folder"];
        if let Some(stock) = recipe.stock(card.laid.base.stock)
            && Body::of(stock.weight) == Body::Cover
        {
            step.does
                .push("Heavy paper folds cleanly only along its score.".to_owned());
        }
        steps.push(step);
    }
    steps
}
