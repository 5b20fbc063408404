//! Every starter on every sheet, in both worlds.

use foldwright_engine::card::{Tools, closed_size, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::{SheetSize, Stock};
use foldwright_engine::plane::Size;
use foldwright_engine::problem::{Finding, FitFinding, Place, Weight};
use foldwright_engine::recipe::{Holds, Measure, Recipe, starters};
use foldwright_engine::refit::{Cause, Clash, Keep, Refit, Sheet, Wish, refit};

use crate::alone::is_least;
use crate::held::holds;

const SHEETS: [&str; 6] = [
    "na-letter",
    "iso-a4",
    "trade-12x12-in",
    "trade-6x6-in",
    "trade-8x8-in",
    "trade-300-mm",
];

const NOTATIONS: [Notation; 2] = [
    Notation {
        step: Step::Sixteenth,
        decimal: DecimalMark::Point,
    },
    Notation {
        step: Step::Millimetre,
        decimal: DecimalMark::Point,
    },
];

pub(crate) fn size(id: &str) -> Size {
    let sheet = SheetSize::by_id(id).expect("a known sheet");
    Size {
        width: sheet.width,
        height: sheet.height,
    }
}

fn fits(recipe: &Recipe, width: Length, height: Length, on: &Stock) -> bool {
    let either = |a: Length, b: Length| width <= a && height <= b;
    assert!(recipe.measures.len() > 1);
    either(on.width, on.height) || either(on.height, on.width)
}

/// What keeps a card from being made, apart from too little paper.
fn in_the_way(recipe: &Recipe) -> Vec<Finding> {
    let card = work_out(recipe, &Tools::default());
    let problems = card.problems.into_iter();
    problems
        .filter(|problem| problem.weight == Weight::Stop && problem.place != Place::Paper)
        .map(|problem| problem.finding)
        .filter(|found| !matches!(found, Finding::Fit(FitFinding::TooLarge { .. })))
        .collect()
}

/// Everything a refitted recipe promises, from scratch.
fn check(before: &Recipe, wish: &Wish, found: &Refit, what: &str) {
    let after = &found.recipe;
    assert_eq!(after.check(), [], "{what}");
    for (relation, number) in after.held().iter().zip(0_usize..) {
        let own = after.held().len() - after.relations.len();
        let given_up = number
            .checked_sub(own)
            .is_some_and(|place| found.given_up.contains(&Cause::Relation(place)));
        assert_eq!(holds(after, relation), !given_up, "{what}");
        assert!(!given_up || relation.holds == Holds::Should, "{what}");
    }
    let step = wish.notation.unwrap_or(before.notation).step.length();
    for (measure, was) in after.measures.iter().zip(&before.measures) {
        let on_mark = measure.value.units() % step.units() == 0;
        assert_eq!(on_mark, !found.off_marks.contains(&measure.id), "{what}");
        assert!(measure.least.is_none_or(|least| measure.value >= least));
        assert!(measure.most.is_none_or(|most| measure.value <= most));
        let told = found.changes.iter().find(|it| it.change.measure == was.id);
        assert_eq!(told.is_some(), measure.value != was.value, "{what}");
        if let Some(moved) = told {
            assert_eq!(moved.change.from, was.value, "{what}");
            assert_eq!(moved.change.to, measure.value, "{what}");
            assert!(moved.why.is_none() || moved.reason(before, wish).is_some());
        }
    }
    assert!(found.off_marks.is_empty(), "{what}: {:?}", found.off_marks);
    assert!(found.nearest, "{what}");
    assert_eq!(closed_size(after), found.finished);
    assert_eq!(found.no_longer(before, wish).count(), found.given_up.len());
    let base = after.stock(after.base.stock).expect("its paper");
    let [length, height] = [after.base.length, after.base.height].map(|id| after.value(id));
    assert!(fits(after, length, height, base), "{what}");
    assert_eq!(in_the_way(after), [], "{what}");
}

/// Every fold says what its numbers may be, and what should hold.
#[test]
fn every_starter_has_limits() {
    for starter in starters() {
        let recipe = &starter.recipe;
        assert!(
            recipe.measures.iter().any(|it| it.least.is_some()),
            "{}",
            starter.id
        );
        for notation in NOTATIONS {
            let recipe = starter.recipe_in(notation);
            for relation in &recipe.relations {
                let what = format!("{}: {relation:?}", starter.id);
                assert!(holds(&recipe, relation), "{what}");
            }
            for measure in &recipe.measures {
                let Measure { value, .. } = measure;
                assert!(measure.least.is_none_or(|least| *value >= least));
                assert!(measure.most.is_none_or(|most| *value <= most));
            }
        }
    }
}

#[test]
fn every_starter_fits_every_sheet_or_says_why_not() {
    let (mut solved, mut refused) = (0, 0);
    for starter in starters() {
        for (home, away) in [(0, 0), (0, 1), (1, 0), (1, 1)] {
            let before = starter.recipe_in(NOTATIONS[home]);
            for sheet in SHEETS {
                for keep in [Keep::Card, Keep::Count, Keep::Share] {
                    let wish = Wish {
                        sheet: Some(Sheet {
                            stock: before.base.stock,
                            size: size(sheet),
                            keep,
                        }),
                        notation: Some(NOTATIONS[away]),
                        ..Wish::default()
                    };
                    let what = format!("{} {home}→{away} on {sheet}, {keep:?}", starter.id);
                    match refit(&before, &wish) {
                        Ok(found) => {
                            solved += 1;
                            check(&before, &wish, &found, &what);
                            let size = found.finished;
                            let size = found.recipe.notation.size(size.width, size.height);
                            println!(
                                "{what}: {size}, {} moved, given up {:?}",
                                found.changes.len(),
                                found.given_up
                            );
                        }
                        Err(clash) => {
                            refused += 1;
                            let Clash::Between { causes, .. } = &clash else {
                                panic!("{what}: {clash:?}");
                            };
                            is_least(&before, &wish, causes, &what);
                            println!("{what}: {clash:?}");
                            assert!(
                                !clash.ways_out(&before, &wish).is_empty(),
                                "{what}: {clash:?}"
                            );
                        }
                    }
                }
            }
        }
    }
    println!("{solved} solved, {refused} explained");
    assert!(solved > 600);
}
