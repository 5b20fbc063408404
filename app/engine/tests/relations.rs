//! Changing one measure and what moves with it.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod strips;

use foldwright_engine::length::Length;
use foldwright_engine::recipe::{Clash, MeasureId, Recipe, Relation, Runs};
use strips::{ALLOWANCE, HEIGHT, LENGTH, panel, strip};

fn widths(recipe: &Recipe) -> Vec<Length> {
    recipe
        .base
        .panels
        .iter()
        .map(|panel| recipe.value(panel.width))
        .collect()
}

fn millimetres(widths: &[i64]) -> Vec<Length> {
    widths.iter().map(|width| Length::mm(*width)).collect()
}

/// A letter fold: two wide panels, and one shorter by the allowance.
fn letter(allowance: Length) -> Recipe {
    let mut recipe = strip(
        &millimetres(&[90, 90, 88]),
        Length::mm(210),
        "VV",
        1,
        Runs::Across,
    );
    recipe.relations = vec![
        Relation::same(panel(0), panel(1)),
        Relation::less(panel(2), 1, ALLOWANCE, panel(0)),
    ];
    recipe
        .settle(&[(ALLOWANCE, allowance)], &[], &[])
        .expect("the allowance can be set");
    recipe
}

/// Printers' folding guides: A4 in three with 3 mm, and 11 in with 1/16 in,
/// sum exactly.
#[test]
fn letter_folds() {
    let mut a4 = letter(Length::mm(3));
    a4.settle(&[(LENGTH, Length::mm(297))], &[], &[])
        .expect("A4 folds in three");
    assert_eq!(widths(&a4), millimetres(&[100, 100, 97]));
    let sixteenth = Length::sixty_fourths(4);
    let mut inches = letter(sixteenth);
    inches
        .settle(&[(LENGTH, Length::inches(11))], &[], &[])
        .expect("11 in folds in three");
    assert_eq!(
        widths(&inches),
        [59, 59, 58].map(|sixteenths| sixteenth * sixteenths)
    );
}

/// Printers' folding guides: 17 in as a double parallel (4 9/32 and 4 7/32)
/// and as a roll (4 5/16, 4 5/16, 4 7/32, 4 5/32).
#[test]
fn seventeen_inches() {
    let thirty_second = Length::sixty_fourths(2);
    let start = millimetres(&[100, 100, 98, 96]);
    let mut double = strip(&start, Length::mm(200), "VVV", 0, Runs::Across);
    double.relations = vec![
        Relation::same(panel(0), panel(1)),
        Relation::same(panel(2), panel(3)),
        Relation::less(panel(2), 1, ALLOWANCE, panel(0)),
    ];
    double
        .settle(
            &[(LENGTH, Length::inches(17)), (ALLOWANCE, thirty_second * 2)],
            &[],
            &[],
        )
        .expect("17 in folds in parallel");
    assert_eq!(
        widths(&double),
        [137, 137, 135, 135].map(|count| thirty_second * count)
    );

    let mut roll = strip(&start, Length::mm(200), "VVV", 0, Runs::Across);
    let shorter = |part, by, whole| {
        let mut relation = Relation::same(part, whole);
        relation.plus = Length::ZERO - by;
        relation
    };
    roll.relations = vec![
        Relation::same(panel(0), panel(1)),
        shorter(panel(2), thirty_second * 3, panel(1)),
        shorter(panel(3), thirty_second * 2, panel(2)),
    ];
    roll.settle(&[(LENGTH, Length::inches(17))], &[], &[])
        .expect("17 in rolls");
    assert_eq!(
        widths(&roll),
        [138, 138, 135, 133].map(|count| thirty_second * count)
    );
}

/// The strip follows its panels, and only what depends on a change moves.
#[test]
fn only_what_depends_moves() {
    let mut recipe = strip(
        &millimetres(&[40, 50, 60]),
        Length::mm(100),
        "VM",
        2,
        Runs::Across,
    );
    let changes = recipe
        .settle(&[(panel(1), Length::mm(55))], &[], &[LENGTH])
        .expect("the strip can grow");
    let moved: Vec<MeasureId> = changes.iter().map(|change| change.measure).collect();
    assert_eq!(moved, [LENGTH, panel(1)]);
    assert_eq!(recipe.value(LENGTH), Length::mm(155));
    assert_eq!(recipe.value(HEIGHT), Length::mm(100));
    let nothing = recipe.settle(&[(panel(1), Length::mm(55))], &[], &[LENGTH]);
    assert_eq!(nothing, Ok(vec![]));
}

#[test]
fn a_clash_is_named_and_moves_nothing() {
    let mut recipe = strip(
        &millimetres(&[40, 50]),
        Length::mm(100),
        "V",
        1,
        Runs::Across,
    );
    for measure in &mut recipe.measures {
        measure.pinned = measure.id == LENGTH || measure.id == panel(0);
    }
    let before = recipe.clone();
    let clash = recipe
        .settle(&[(panel(1), Length::mm(51))], &[], &[])
        .expect_err("both others are pinned");
    assert_eq!(recipe, before);
    assert_eq!(
        clash,
        Clash::Relations {
            relations: vec![Relation::sum(LENGTH, [panel(0), panel(1)])],
            pinned: vec![LENGTH, panel(0)],
        }
    );
}

#[test]
fn no_paper_is_refused() {
    let mut recipe = strip(
        &millimetres(&[40, 50]),
        Length::mm(100),
        "V",
        1,
        Runs::Across,
    );
    let clash = recipe.settle(&[(LENGTH, Length::mm(30))], &[], &[]);
    assert_eq!(
        clash,
        Err(Clash::NotPositive {
            measure: panel(1),
            value: Length::mm(-10),
        })
    );
    assert_eq!(widths(&recipe), millimetres(&[40, 50]));
}

/// Where a length does not divide into whole units, the sum stays exact.
#[test]
fn sums_stay_exact() {
    let mut recipe = strip(
        &millimetres(&[10; 7]),
        Length::mm(50),
        "VMVMVM",
        6,
        Runs::Across,
    );
    recipe.relations = (1..7)
        .map(|at| Relation::same(panel(at), panel(0)))
        .collect();
    for sixty_fourths in 100..700 {
        let whole = Length::sixty_fourths(sixty_fourths);
        recipe
            .settle(&[(LENGTH, whole)], &[], &[])
            .expect("seven equal panels");
        assert_eq!(widths(&recipe).into_iter().sum::<Length>(), whole);
        let spread = widths(&recipe)
            .into_iter()
            .max()
            .zip(widths(&recipe).into_iter().min());
        assert!(spread.is_some_and(|(most, least)| (most - least).units() <= 7));
    }
}
