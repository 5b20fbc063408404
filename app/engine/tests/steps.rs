//! The whole way from a recipe to its steps, for every starter.

use std::collections::HashSet;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::length::{DecimalMark, Notation, Step as Ruler};
use foldwright_engine::problem::Weight;
use foldwright_engine::recipe::{Recipe, starters};
use foldwright_engine::steps::{Kind, Step, steps};

const INCHES: Notation = Notation {
    step: Ruler::Sixteenth,
    decimal: DecimalMark::Point,
};
const MILLIMETRES: Notation = Notation {
    step: Ruler::Millimetre,
    decimal: DecimalMark::Comma,
};

fn every_starter() -> Vec<(Recipe, Card, Vec<Step>)> {
    starters()
        .iter()
        .flat_map(|starter| [INCHES, MILLIMETRES].map(|notation| starter.recipe_in(notation)))
        .map(|recipe| {
            let card = work_out(&recipe, &Tools::default());
            let steps = steps(&recipe, &card);
            (recipe, card, steps)
        })
        .collect()
}

/// What we offer to start from can be made as it stands.
#[test]
fn starters_have_nothing_wrong() {
    for (recipe, card, _) in every_starter() {
        let wrong: Vec<_> = card
            .problems
            .iter()
            .filter(|problem| problem.weight > Weight::Note)
            .map(|problem| format!("{} {}", problem.what, problem.why))
            .collect();
        assert!(
            wrong.is_empty(),
            "{} in {:?}: {wrong:#?}",
            recipe.name,
            recipe.notation.step
        );
    }
}

/// The work runs in its order, each kind of work in one go, each step with a
/// name of its own.
#[test]
fn steps_run_in_order() {
    for (recipe, _, steps) in every_starter() {
        let kinds: Vec<Kind> = steps.iter().map(|step| step.kind).collect();
        let mut sorted = kinds.clone();
        sorted.sort();
        assert_eq!(kinds, sorted, "{}", recipe.name);
        let keys: HashSet<_> = steps.iter().map(|step| &step.key).collect();
        assert_eq!(keys.len(), steps.len(), "{}", recipe.name);
        let of_base = |step: &&Step| step.kind == Kind::Fold && !step.key.contains("piece");
        let folds = steps.iter().filter(of_base).count();
        if recipe.base.lines.is_empty() {
            assert_eq!(folds, recipe.base.folds.len(), "{}", recipe.name);
        } else {
            assert!(folds >= 1, "{}", recipe.name);
        }
        for step in &steps {
            assert!(!step.title.is_empty() && !step.does.is_empty(), "{step:?}");
        }
    }
}

/// Blades come with a caution (customary care of workshops and schools).
#[test]
fn cutting_comes_with_a_caution() {
    for (_, _, steps) in every_starter() {
        for step in steps.iter().filter(|step| step.kind == Kind::Cut) {
            assert!(!step.care.is_empty(), "{}", step.title);
        }
    }
}

/// A batch counts its sheets and says how often each step is done.
#[test]
fn a_batch_counts() {
    for starter in starters() {
        let mut recipe = starter.recipe_in(INCHES);
        recipe.copies = 24;
        let card = work_out(&recipe, &Tools::default());
        let steps = steps(&recipe, &card);
        assert!(steps.iter().skip(1).all(|step| step.times == 24));
        let per_sheet = card
            .print
            .as_ref()
            .and_then(|print| print.lays.iter().find(|report| report.lay == print.lay))
            .map_or(0, |report| report.per_sheet);
        assert!(per_sheet > 0, "{} fits its sheet", recipe.name);
    }
}
