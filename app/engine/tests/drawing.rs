//! Drawings: what they hold, and that they read as SVG.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod strips;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::draw::{Drawing, Mark, Moment, flat, opening, state, svg};
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{Runs, Side};
use foldwright_engine::show::View;
use strips::{LENGTH, strip};

/// The area of every outline in square millimetres, by the shoelace formula.
fn paper_area(drawing: &Drawing) -> f64 {
    drawing
        .marks
        .iter()
        .filter_map(|mark| match mark {
            Mark::Area { outlines, .. } => Some(outlines),
            _ => None,
        })
        .flatten()
        .map(|outline| {
            let next = outline.iter().cycle().skip(1);
            let twice: f64 = outline
                .iter()
                .zip(next)
                .map(|(a, b)| a[0] * b[1] - b[0] * a[1])
                .sum();
            twice.abs() / 2.0
        })
        .sum()
}

#[test]
fn a_closed_card_is_drawn_as_large_as_it_is() {
    for runs in [Runs::Across, Runs::Down] {
        let recipe = strip(
            &[40, 60, 60, 80].map(Length::mm),
            Length::mm(100),
            "VMV",
            3,
            runs,
        );
        let card = work_out(&recipe, &Tools::default());
        for view in [View::Front, View::Back] {
            let drawing = state(&recipe, &card, 0, view);
            assert!(
                (paper_area(&drawing) - 80.0 * 100.0).abs() < 1e-6,
                "{runs:?} {view:?}"
            );
        }
    }
}

/// Closed and flat, the moving picture is the still one; between, it grows
/// from one to the other without jumping.
#[test]
fn the_opening_runs_from_closed_to_flat() {
    for runs in [Runs::Across, Runs::Down] {
        for (widths, labels) in [([40_i32, 60, 60, 80], "VMV"), ([50; 4], "VVM")] {
            let recipe = strip(
                &widths.map(|width| Length::mm(width.into())),
                Length::mm(100),
                labels,
                3,
                runs,
            );
            let card = work_out(&recipe, &Tools::default());
            let folded = card.folded.as_ref().expect("it folds");
            let flat_area = f64::from(widths.iter().sum::<i32>()) * 100.0;
            let at = |share| opening(&recipe, &card, Moment::at(share, folded));
            let closed = at(0.0);
            assert!((paper_area(&closed) - flat_area).abs() < 1e-6);
            let size = [0, 1].map(|i| closed.high[i] - closed.low[i]);
            for step in 0..=60 {
                let drawing = at(f64::from(step) / 60.0);
                // Foreshortened paper never looks larger than it is by more than
                // the lift allows.
                assert!(paper_area(&drawing) <= flat_area * 1.1);
                for i in [0, 1] {
                    let now = drawing.high[i] - drawing.low[i];
                    assert!((now - size[i]).abs() < 1e-6, "the frame stands still");
                }
            }
            assert!((paper_area(&at(1.0)) - flat_area).abs() < 1e-6);
        }
    }
}

#[test]
fn every_number_and_score_of_the_flat_strip_can_be_found() {
    let recipe = strip(
        &[40, 60, 60, 80].map(Length::mm),
        Length::mm(100),
        "VMV",
        3,
        Runs::Across,
    );
    let card = work_out(&recipe, &Tools::default());
    for side in [Side::A, Side::B] {
        let drawn = svg(&flat(&recipe, &card, None, side), "flat");
        let (inside, view) = (drawn.inside(), drawn.view_box);
        for measure in [0, 1, 2, 3, 100, LENGTH.0] {
            assert!(
                inside.contains(&format!("data-measure=\"{measure}\"")),
                "{measure}"
            );
        }
        for score in 0..3 {
            assert!(
                inside.contains(&format!("data-line=\"{score}\"")),
                "{score}"
            );
        }
        assert_eq!(view.split(' ').count(), 4);
    }
    // Turned over about its long axis, a valley is a mountain.
    let folds = |side| {
        let inside = svg(&flat(&recipe, &card, None, side), "flat").inside();
        let count = |class: &str| inside.matches(&format!("class=\"{class}\"")).count();
        (count("mountain"), count("valley"))
    };
    assert_eq!(folds(Side::A), (1, 2));
    assert_eq!(folds(Side::B), (2, 1));
}
