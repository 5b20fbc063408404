//! What is wrong with how the card folds.

use crate::fold::{Folded, Stuck, Unfoldable};
use crate::problem::{Place, Problem, Weight};
use crate::recipe::Recipe;

fn panel_name(recipe: &Recipe, place: usize) -> &str {
    recipe
        .base
        .panels
        .get(place)
        .map_or("a panel", |panel| panel.name.as_str())
}

/// Why the card does not fold flat, where that is not said already.
pub(crate) fn unfoldable(recipe: &Recipe, why: &Unfoldable) -> Option<Problem> {
    let stop = |what: &str, why: String, remedy: &str| Problem {
        place: Place::Recipe,
        weight: Weight::Stop,
        what: what.to_owned(),
        why,
        remedy: remedy.to_owned(),
    };
    match why {
        // What is wrong with its lines is said where it lies.
        Unfoldable::Misfits => None,
        Unfoldable::NoPanel => Some(stop(
            "There is nothing to fold.",
            "The strip has no panel that could rest on the table.".to_owned(),
            "Give its length and its height, or take away lines that cut it to pieces.",
        )),
        Unfoldable::Stuck(trapped) => Some(stuck(recipe, trapped)),
        Unfoldable::Conflict(panels) => {
            let names: Vec<_> = panels.iter().map(|id| recipe.panel_name(*id)).collect();
            Some(stop(
                "The card does not fold flat.",
                format!(
                    "{} cannot lie on each other in any order: paper would pass through paper.",
                    listed(&names)
                ),
                "Flip or move a crease between them, or cut away what is in the way.",
            ))
        }
        Unfoldable::Undecided => Some(stop(
            "Whether the card folds flat could not be found out.",
            "So many panels lie over each other that the search was given up.".to_owned(),
            "Fold fewer panels over one place.",
        )),
    }
}

/// Some names in a sentence.
fn listed(names: &[String]) -> String {
    match names {
        [] => "Some panels".to_owned(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// Why the strip does not fold flat.
fn stuck(recipe: &Recipe, stuck: &Stuck) -> Problem {
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

/// Answers that cannot be kept.
pub(crate) fn problems(folded: &Folded) -> Option<Problem> {
    (!folded.answers_kept).then(|| Problem {
        place: Place::Recipe,
        weight: Weight::Warning,
        what: "The panels cannot lie on each other as you chose.".to_owned(),
        why: "The creases leave no such order.".to_owned(),
        remedy: "Choose again which panel lies on top.".to_owned(),
    })
}
