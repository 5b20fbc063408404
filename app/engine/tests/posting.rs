//! An envelope that is proposed takes the card when it is checked.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "common/naming.rs"]
mod plain;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::CLEARANCE_RULES;
use foldwright_engine::plane::Size;
use foldwright_engine::problem::{Place, Problem, Weight};
use foldwright_engine::recipe::{Face, LayerKind, Recipe, Seat, Side, starters};
use foldwright_engine::refit::{Wish, refit, scrap_fit};
use plain::Plain;

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

/// Two mats on each side of the panel that rests, and all paper so thick.
fn matted(mut recipe: Recipe, caliper: Length) -> Recipe {
    for side in [Side::A, Side::B] {
        let panel = recipe.base.rests;
        let mut on = Seat::Face(Face { panel, side });
        for _ in 0..2 {
            // Where a mat has no room there is none.
            let Ok(mat) = recipe.add_layer(on, LayerKind::Mat, &Plain) else {
                break;
            };
            on = Seat::Layer(mat.id);
        }
    }
    for stock in &mut recipe.stocks {
        stock.caliper = caliper;
    }
    recipe
}

fn of_envelope(recipe: &Recipe) -> Vec<Problem> {
    let card = work_out(recipe, &Tools::default());
    let problems = card.problems.into_iter();
    problems
        .filter(|problem| problem.place == Place::Envelope)
        .collect()
}

/// Two leaves of 4 1/4 × 5 1/2 in with four mats, all of paper so thick.
fn matted_book(caliper: Length) -> Recipe {
    let starters = starters();
    let book = starters.iter().find(|it| it.id == "book").expect("a book");
    let mut recipe = book.recipe.clone();
    for layer in recipe.layers.clone() {
        recipe.remove_layer(layer.id).expect("it is there");
    }
    "eighth-round".clone_into(&mut recipe.posting.rule);
    matted(recipe, caliper)
}

/// A quarter of Letter, 4 1/4 × 5 1/2 in, goes into A2 (a printers' note on
/// designing cards to envelopes), with mats and 1.8 mm thick too: two leaves and
/// four mats of 0.3 mm. No rule in print takes that away.
#[test]
fn a_quarter_of_letter_with_mats_goes_into_its_envelope() {
    let mut recipe = matted_book(Length::microns(300));
    let card = work_out(&recipe, &Tools::default());
    let thickest = card.thickest.expect("there is paper");
    assert_eq!(thickest.thickness, Length::microns(1800));
    let size = recipe
        .notation
        .size(card.finished.width, card.finished.height);
    assert_eq!(size, "4¼\u{a0}× 5½\u{a0}in");
    let first = card.envelopes.first().expect("an envelope");
    assert_eq!(first.envelope.id, "na-a2");
    recipe.posting.envelope = Some("na-a2".to_owned());
    assert_eq!(of_envelope(&recipe), []);
}

/// From 3 mm (common practice) a card is said to be thick, which keeps it out of
/// no envelope.
#[test]
fn a_thick_card_is_told_of_and_refused_nothing() {
    for (microns, is_thick) in [(499, false), (500, true)] {
        let mut recipe = matted_book(Length::microns(microns));
        recipe.posting.envelope = Some("na-a2".to_owned());
        let found = of_envelope(&recipe);
        let weights: Vec<_> = found.iter().map(|problem| problem.weight).collect();
        let expected: &[Weight] = if is_thick { &[Weight::Note] } else { &[] };
        assert_eq!(weights, expected, "{microns} µm");
    }
}

/// The envelopes that are proposed for a starting fold, by every rule, in both
/// units, with mats and 3 mm and more thick, take it when they are chosen.
#[test]
fn what_is_proposed_is_not_refused() {
    let mut proposed = 0;
    for starter in starters() {
        for notation in NOTATIONS {
            let plain = starter.recipe_in(notation);
            let mut recipe = matted(plain, Length::microns(500));
            for rule in CLEARANCE_RULES {
                rule.id.clone_into(&mut recipe.posting.rule);
                recipe.posting.envelope = None;
                // The tightest and the widest one.
                let fits = work_out(&recipe, &Tools::default()).envelopes;
                for fit in fits.first().into_iter().chain(fits.last()) {
                    proposed += 1;
                    let id = fit.envelope.id;
                    recipe.posting.envelope = Some(id.to_owned());
                    let what = format!("{} into {id} by {}", starter.id, rule.id);
                    let refused: Vec<_> = of_envelope(&recipe)
                        .into_iter()
                        .filter(|problem| problem.weight > Weight::Note)
                        .collect();
                    assert_eq!(refused, [], "{what}");
                }
            }
        }
    }
    assert!(proposed > 400, "{proposed}");
}

/// The tightest envelope of a card with mats takes it as it is: resizing into it
/// gives what resizing to nothing gives. The envelope named beside what a scrap
/// gives takes that.
#[test]
fn resizing_into_a_proposed_envelope_moves_nothing() {
    for starter in starters() {
        let is_strip = starter.recipe.base.lines.is_empty() && starter.recipe.pieces.is_empty();
        if !is_strip {
            continue;
        }
        for notation in NOTATIONS {
            let recipe = matted(starter.recipe_in(notation), Length::microns(500));
            for rule in CLEARANCE_RULES {
                let mut asked = recipe.clone();
                rule.id.clone_into(&mut asked.posting.rule);
                let card = work_out(&asked, &Tools::default());
                let what = format!("{} by {}", starter.id, rule.id);
                let tightest = card.envelopes.first().map(|fit| fit.envelope);
                let Some(envelope) = tightest else { continue };
                let wish = Wish {
                    envelope: Some((envelope, rule)),
                    ..Wish::default()
                };
                let found = refit(&asked, &wish).expect(&what).finished;
                let unasked = refit(&asked, &Wish::default()).expect(&what).finished;
                assert_eq!(found, unasked, "{what} into {}", envelope.id);
            }
            let stock = recipe.stock(recipe.base.stock).expect("its paper");
            let sheet = Size {
                width: stock.width,
                height: stock.height,
            };
            let Some(fit) = scrap_fit(&recipe, 0, sheet, None) else {
                continue;
            };
            let mut made = fit.refit.recipe;
            made.posting.envelope = fit.envelope.map(|envelope| envelope.id.to_owned());
            let refused: Vec<_> = of_envelope(&made)
                .into_iter()
                .filter(|problem| problem.weight > Weight::Note)
                .collect();
            assert_eq!(refused, [], "{} from a scrap", starter.id);
        }
    }
}
