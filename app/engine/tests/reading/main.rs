//! Lists of measures as people write them, read into pieces and relations.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod any;
mod cards;
mod envelopes;
mod folds;
mod notations;
mod places;
mod shapes;
mod units;
mod written;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::{DecimalMark, Notation, Step};
use foldwright_engine::reading::{Read, read};
use foldwright_engine::recipe::Recipe;

/// Somebody who works in inches.
const INCHES: Notation = Notation {
    step: Step::Sixteenth,
    decimal: DecimalMark::Point,
};

/// Somebody who works in millimetres.
const METRIC: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Comma,
};

fn inches(text: &str) -> Read {
    read(text, INCHES)
}

fn metric(text: &str) -> Read {
    read(text, METRIC)
}

/// The recipe with the proposals usually taken, seen to hold together.
fn made(read: &Read) -> Recipe {
    let recipe = read.into_recipe(&read.usual()).expect("a card");
    sound(&recipe);
    recipe
}

fn sound(recipe: &Recipe) {
    assert_eq!(recipe.check(), []);
    assert_eq!(recipe.broken(), []);
    let card = work_out(recipe, &Tools::default());
    assert!(card.folded.is_some(), "{}", recipe.name);
}
