//! Where a face is seen, for the maker who is about to put something on it.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::length::{DecimalMark, Notation, Step};
use foldwright_engine::recipe::{Face, Recipe, Side, starters};
use foldwright_engine::sight::{Sight, seen_closed, sight, sight_words};

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
    assert_eq!(at("front", Side::A), Sight::Opened(1));
    assert_eq!(at("back", Side::A), Sight::Opened(1));
    let inside = face(&recipe, "back", Side::A);
    assert_eq!(
        sight_words(&recipe, &card, inside, at("back", Side::A)),
        "The inside of back is hidden while the card is closed; it shows once the card is open."
    );
}

/// A face that lies behind another panel of the closed card is said to be hidden,
/// and when it shows.
#[test]
fn the_outside_of_a_step() {
    let (recipe, card) = starter("steps");
    let outside = face(&recipe, "step", Side::B);
    assert!(!seen_closed(&card).contains(&outside));
    let found = sight(&card, outside).expect("it folds");
    let told = sight_words(&recipe, &card, outside, found);
    println!("{told}");
    assert!(
        told.starts_with("The outside of step is hidden while the card is closed; it shows once "),
        "{told}"
    );
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
                assert!(sight_words(&recipe, &card, face, found).ends_with('.'));
            }
        }
    }
}
