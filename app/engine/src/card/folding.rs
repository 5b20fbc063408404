//! What is wrong with how the strip folds.

use crate::fold::{Folded, State, Stuck};
use crate::length::Length;
use crate::plane::{CardFrame, Point, Rect};
use crate::problem::{Place, Problem, Weight};
use crate::recipe::Recipe;

fn panel_name(recipe: &Recipe, place: usize) -> &str {
    recipe
        .base
        .panels
        .get(place)
        .map_or("a panel", |panel| panel.name.as_str())
}

/// Why the strip does not fold flat.
pub(crate) fn stuck(recipe: &Recipe, stuck: &Stuck) -> Problem {
    let name = |place| panel_name(recipe, place);
    let (first, last) = stuck.trapped;
    let trapped = if first == last {
        format!("{} is", name(first))
    } else {
        format!("{} to {} are", name(first), name(last))
    };
    let (before, after) = (name(stuck.before), name(stuck.after));
    Problem {
        place: Place::Score(first),
        weight: Weight::Stop,
        what: "The strip does not fold flat.".to_owned(),
        why: format!(
            "{trapped} shorter than {before} and {after}, and the scores there are all {} folds: \
             {before} and {after} would have to pass through each other.",
            stuck.fold.word()
        ),
        remedy: format!(
            "Flip one of the scores round {}, or make {before} or {after} shorter.",
            name(first)
        ),
    }
}

/// Answers that cannot be kept, and panels that fold into a crease.
pub(crate) fn problems(recipe: &Recipe, folded: &Folded) -> Vec<Problem> {
    let mut problems = Vec::new();
    if !folded.answers_kept {
        problems.push(Problem {
            place: Place::Recipe,
            weight: Weight::Warning,
            what: "The panels cannot lie on each other as you chose.".to_owned(),
            why: "The scores leave no such order.".to_owned(),
            remedy: "Choose again which panel lies on top.".to_owned(),
        });
    }
    if let Some(closed) = folded.states.first() {
        problems.extend(folded_in(recipe, closed));
    }
    problems
}

/// Panels folded inside others that leave too little room at the fold round
/// them.
fn folded_in(recipe: &Recipe, closed: &State) -> Vec<Problem> {
    let allowance = recipe.value(recipe.folding_in.allowance);
    let mut problems = Vec::new();
    let mut at = Length::ZERO;
    for (score, panel) in recipe.base.panels.iter().enumerate() {
        at += recipe.value(panel.width);
        let (Some(this), Some(_)) = (closed.poses.get(score), closed.poses.get(score + 1)) else {
            break;
        };
        let crease = Rect::spanning(
            this.place.point(Point::new(at, Length::ZERO)),
            this.place
                .point(Point::new(at, recipe.value(recipe.base.height))),
        );
        let layer = |place: usize| closed.order.iter().position(|panel| *panel == place);
        let (Some(a), Some(b)) = (layer(score), layer(score + 1)) else {
            continue;
        };
        for inside in closed.order.iter().take(a.max(b)).skip(a.min(b) + 1) {
            let Some(pose) = closed.poses.get(*inside) else {
                continue;
            };
            let overlaps = this.covers.common(&pose.covers).is_some();
            let gap = gap(&crease, &pose.covers);
            if overlaps && gap < allowance {
                let name = panel_name(recipe, *inside);
                problems.push(Problem {
                    place: Place::Panel(pose.panel),
                    weight: Weight::Warning,
                    what: format!(
                        "{name} leaves {} at the fold between {} and {}.",
                        recipe.notation.with_unit(gap),
                        panel_name(recipe, score),
                        panel_name(recipe, score + 1)
                    ),
                    why: format!(
                        "It folds inside them; with less than {} it pushes into the fold and \
                         buckles.",
                        recipe.notation.with_unit(allowance)
                    ),
                    remedy: format!("Make {name} shorter, or the allowance smaller."),
                });
            }
        }
    }
    problems
}

/// How far a panel stays from a crease.
fn gap(crease: &Rect<CardFrame>, panel: &Rect<CardFrame>) -> Length {
    let apart = |crease: (Length, Length), panel: (Length, Length)| {
        (panel.0 - crease.1)
            .max(crease.0 - panel.1)
            .max(Length::ZERO)
    };
    let across = apart((crease.low.x, crease.high.x), (panel.low.x, panel.high.x));
    let up = apart((crease.low.y, crease.high.y), (panel.low.y, panel.high.y));
    across.max(up)
}
