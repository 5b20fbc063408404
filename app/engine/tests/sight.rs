//! Where a face is seen, for the maker who is about to put something on it.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::length::{DecimalMark, Notation, Step};
use foldwright_engine::recipe::{Face, Recipe, Side, starters};
use foldwright_engine::sight::{Sight, seen_closed, sight};

fn starter(id: &str) -> (Recipe, Card) {
    let starter = starters().iter().find(|starter| starter.id == id);
    let inches = Notation {
        step: Step::Sixteenth,
        decimal: DecimalMark::Point,
    };
    let recipe = starter.expect("there is such a starter").recipe_in(inches);
    let card = work_out(&recipe, &Tools::default());
    (recipe, card)
}

fn face(recipe: &Recipe, name: &str, side: Side) -> Face {
    let mut panels = recipe.base.panels.iter();
    let panel = panels.find(|panel| panel.name == name);
    Face {
        panel: panel.expect("there is such a panel").id,
        side,
    }
}

/// A book shows its front and its back closed, and its inside once it is open.
#[test]
fn a_book() {
    let (recipe, card) = starter("book");
    let at = |name, side| {
        let face = face(&recipe, name, side);
        sight(&card, face).expect("it folds")
    };
    assert_eq!(at("front", Side::B), Sight::Front);
    assert_eq!(at("back", Side::B), Sight::Back);
    assert_eq!(at("front", Side::A), Sight::Open);
    assert_eq!(at("back", Side::A), Sight::Open);
}

/// By hand: the fold behind is as wide as the step and lies on all of it, the
/// front on the fold behind. The front swings away first, and still nothing of the
/// step is seen; then the fold behind does.
#[test]
fn the_outside_of_a_step() {
    let (recipe, card) = starter("steps");
    let outside = face(&recipe, "step", Side::B);
    assert!(!seen_closed(&card).contains(&outside));
    let found = sight(&card, outside).expect("it folds");
    let Sight::Opened(panels) = found else {
        panic!("{found:?}");
    };
    let behind = face(&recipe, "fold behind", Side::B).panel;
    assert_eq!(panels, [behind]);
}

/// What is told to show of the closed card does, and nothing else.
#[test]
fn every_face_of_every_starter() {
    for starting in starters() {
        let (recipe, card) = starter(&starting.id);
        let seen = seen_closed(&card);
        for panel in &card.laid.panels {
            for side in [Side::A, Side::B] {
                let face = Face {
                    panel: panel.id,
                    side,
                };
                let found = sight(&card, face).expect("it folds");
                let closed = matches!(found, Sight::Front | Sight::Back);
                assert_eq!(closed, seen.contains(&face), "{} {face:?}", recipe.name);
            }
        }
    }
}
