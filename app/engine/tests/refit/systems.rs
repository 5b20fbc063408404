//! Random systems of relations against scipy.optimize.milp (`HiGHS`), whose
//! answers `tests/reference/refit.py` wrote down.

use foldwright_engine::length::{DecimalMark, Length, Notation, Step, nearest};
use foldwright_engine::recipe::{Holds, Is, Measure, MeasureId, Recipe, Relation, Term};
use foldwright_engine::refit::{Cause, Clash, Wish, refit};
use serde::Deserialize;

use crate::held::{holds, one_panel};

#[derive(Deserialize)]
struct System(
    Vec<i64>,
    Vec<Option<i64>>,
    Vec<Option<i64>>,
    Vec<u32>,
    Vec<(i64, i64, i64, Vec<i64>)>,
    Option<(Vec<u8>, i64)>,
);

const METRIC: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Point,
};

fn quarters(count: i64) -> Length {
    Length::hundredths_mm(25 * count)
}

fn relation((sort, should, constant, terms): &(i64, i64, i64, Vec<i64>)) -> Relation {
    let terms = terms.chunks_exact(2).map(|term| Term {
        of: MeasureId(u32::try_from(term[0]).expect("a place")),
        times: term[1],
    });
    Relation {
        left: terms.collect(),
        is: match sort {
            0 => Is::Equal,
            1 => Is::AtLeast,
            _ => Is::AtMost,
        },
        right: Vec::new(),
        plus: quarters(*constant),
        holds: if *should == 0 {
            Holds::Must
        } else {
            Holds::Should
        },
    }
}

fn recipe(system: &System) -> Recipe {
    let System(values, least, most, pins, relations, _) = system;
    let mut recipe = one_panel(METRIC);
    let measures = values.iter().zip(0..).map(|(value, id)| {
        let mut measure = Measure::new(MeasureId(id), format!("measure {id}"), quarters(*value));
        let at = id as usize;
        measure.least = least[at].map(Length::mm);
        measure.most = most[at].map(Length::mm);
        measure.pinned = pins.contains(&id);
        measure
    });
    recipe.measures.splice(0..0, measures);
    recipe.relations = relations.iter().map(relation).collect();
    assert_eq!(recipe.check(), []);
    recipe
}

/// The change counted as the solver counted it: between one for a step of the
/// last measure and two for one of the first.
fn cost(before: &Recipe, after: &Recipe) -> i64 {
    let count = i64::try_from(before.measures.len()).expect("few measures");
    let measures = before.measures.iter().zip(&after.measures);
    let costs = measures.zip(0..).map(|((before, after), place)| {
        let mark = nearest(before.value, Step::Millimetre).at;
        let steps = (after.value - mark).abs();
        assert_eq!(steps.units() % Length::PER_MM, 0, "{}", after.name);
        (2 * count - place) * (steps.units() / Length::PER_MM)
    });
    costs.sum()
}

fn systems() -> impl Iterator<Item = (usize, System)> {
    let lines = include_str!("systems.jsonl").lines();
    lines.zip(1..).map(|(line, number)| {
        let system = serde_json::from_str(line).expect("a system");
        (number, system)
    })
}

#[test]
fn as_near_as_an_independent_solver() {
    let (mut solved, mut refused) = (0, 0);
    for (number, system) in systems() {
        let before = recipe(&system);
        match (refit(&before, &Wish::default()), &system.5) {
            (Ok(found), Some((kept, least))) => {
                solved += 1;
                assert!(found.nearest, "line {number}: cut short");
                assert_eq!(found.off_marks, [], "line {number}");
                assert_eq!(cost(&before, &found.recipe), *least, "line {number}");
                let mut kept = kept.iter();
                for (place, relation) in before.relations.iter().enumerate() {
                    let keeps = relation.holds == Holds::Must || kept.next() == Some(&1);
                    assert_eq!(holds(&found.recipe, relation), keeps, "line {number}");
                    let given_up = found.given_up.contains(&Cause::Relation(place));
                    assert_eq!(given_up, !keeps, "line {number}");
                }
            }
            (Err(Clash::Between { .. }), None) => refused += 1,
            (other, answer) => panic!("line {number}: {other:?} for {answer:?}"),
        }
    }
    println!("{solved} solved, {refused} refused");
    assert!(solved > 1000 && refused > 500);
}

/// What of a system a clash names, and nothing else.
fn only(before: &Recipe, causes: &[Cause]) -> Recipe {
    let mut recipe = before.clone();
    let mut place = 0;
    recipe.relations.retain(|_| {
        place += 1;
        causes.contains(&Cause::Relation(place - 1))
    });
    for measure in &mut recipe.measures {
        let named = |cause| causes.contains(&cause);
        measure.least = measure.least.filter(|_| named(Cause::Least(measure.id)));
        measure.most = measure.most.filter(|_| named(Cause::Most(measure.id)));
        measure.pinned &= named(Cause::Pinned(measure.id));
    }
    recipe
}

#[test]
fn clashes_are_as_small_as_can_be() {
    let mut checked = 0;
    for (number, system) in systems() {
        if system.5.is_some() {
            continue;
        }
        let before = recipe(&system);
        let Err(Clash::Between { causes, .. }) = refit(&before, &Wish::default()) else {
            panic!("line {number} has no answer");
        };
        let together = refit(&only(&before, &causes), &Wish::default());
        assert!(together.is_err(), "line {number}: {causes:?}");
        for spare in &causes {
            let fewer: Vec<_> = causes.iter().copied().filter(|it| it != spare).collect();
            let freed = refit(&only(&before, &fewer), &Wish::default());
            assert!(freed.is_ok(), "line {number}: {causes:?} without {spare:?}");
            checked += 1;
        }
    }
    println!("{checked} members of clashes left out");
    assert!(checked > 1000);
}
