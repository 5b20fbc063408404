//! What the maker is told, word for word.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::glue::Gluing;
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::recipe::{MeasureId, Recipe, starters};
use foldwright_engine::words;

fn starter(id: &str) -> Recipe {
    let starter = starters().iter().find(|starter| starter.id == id);
    let inches = Notation {
        step: Step::Sixteenth,
        decimal: DecimalMark::Point,
    };
    starter.expect("there is such a starter").recipe_in(inches)
}

fn worked_out(recipe: &Recipe) -> Card {
    work_out(recipe, &Tools::default())
}

fn named(recipe: &Recipe, name: &str) -> MeasureId {
    let measure = recipe.measures.iter().find(|measure| measure.name == name);
    measure.expect("there is such a measure").id
}

#[test]
fn what_moved_is_told_with_both_values() {
    let mut recipe = starter("book");
    let width = named(&recipe, "card width");
    let changes = recipe
        .set(width, Length::inches(4))
        .expect("nothing is pinned");
    let told: Vec<_> = changes
        .iter()
        .map(|change| words::moved(&recipe, change))
        .collect();
    assert!(
        told.contains(&"front width 4 1/4 → 4 in".to_owned()),
        "{told:?}"
    );
    assert!(
        told.contains(&"strip length 8 1/2 → 8 in".to_owned()),
        "{told:?}"
    );
}

#[test]
fn the_closed_card_is_told_in_numbers() {
    let recipe = starter("book");
    let told = words::closed_facts(&recipe, &worked_out(&recipe));
    assert!(told.starts_with("Closed 4 1/4 × 5 1/2 in, "), "{told}");
    assert!(told.ends_with(" g"), "{told}");
}

#[test]
fn moments_of_the_opening_have_names() {
    let recipe = starter("letter");
    let card = worked_out(&recipe);
    let names: Vec<_> = [0.0, 0.5, 1.0, 1.5, 2.0]
        .into_iter()
        .map(|opened| words::moment_name(&recipe, &card, opened))
        .collect();
    let panels: Vec<_> = recipe.base.panels.iter().map(|panel| &panel.name).collect();
    assert_eq!(names[0], "Closed");
    assert_eq!(names[4], "Flat");
    for name in &names[1..4] {
        assert!(
            panels.iter().any(|panel| name.starts_with(panel.as_str())),
            "{name}"
        );
    }
    assert!(
        names[1].ends_with(" opening") && names[2].ends_with(" opened"),
        "{names:?}"
    );
    assert_eq!(words::moment_name(&recipe, &card, 9.0), "Flat");
}

#[test]
fn a_strip_that_does_not_fold_is_said_to_be_one() {
    let mut recipe = starter("letter");
    let card = Card {
        folded: None,
        ..worked_out(&recipe)
    };
    assert_eq!(
        words::moment_name(&recipe, &card, 0.0),
        "Does not fold flat"
    );
    assert!(words::closed_facts(&recipe, &card).ends_with("it does not fold flat"));
    recipe.base.panels.truncate(1);
    recipe.base.folds.clear();
    assert_eq!(
        words::moment_name(&recipe, &worked_out(&recipe), 0.0),
        "No fold"
    );
}

#[test]
fn glue_is_told_by_its_distances_on_the_back() {
    let recipe = starter("book");
    let card = worked_out(&recipe);
    let gluing: &Gluing = card.gluings.first().expect("the book has a mat");
    let told = words::glue_words(&recipe, gluing);
    assert!(told.starts_with("On the back, keep glue "), "{told}");
    let nowhere = Gluing {
        safe: None,
        wanted: None,
        ..gluing.clone()
    };
    assert_eq!(
        words::glue_words(&recipe, &nowhere),
        "There is no safe place for glue on its back."
    );
}

#[test]
fn lays_and_envelopes_are_told_apart() {
    let recipe = starter("book");
    let card = worked_out(&recipe);
    let stock = recipe
        .stock(recipe.base.stock)
        .expect("the book has its paper");
    let lays = card
        .print
        .as_ref()
        .map(|print| &print.lays[..])
        .unwrap_or_default();
    let told: std::collections::BTreeSet<_> = lays
        .iter()
        .map(|report| words::lay_words(&recipe, None, stock, report))
        .collect();
    // Both sides of its card are alike, so the eight lays read as four.
    assert_eq!(told.len(), 4, "{told:?}");
    let fit = card.envelopes.first().expect("some envelope takes it");
    let spare = words::spare_words(&recipe, fit);
    assert!(spare.contains(" to spare in length, "), "{spare}");
}
