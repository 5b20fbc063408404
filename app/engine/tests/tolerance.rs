//! What paper does not show is no fault, wherever it is looked at: folding,
//! the order of panels and the opening in space go by one measure, a hundredth
//! of a millimetre.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::length::{Length, Step};
use foldwright_engine::pattern::LineKind;
use foldwright_engine::plane::{PieceFrame, Point, SAME_WITHIN};
use foldwright_engine::problem::Weight;
use foldwright_engine::recipe::{Fold, Recipe, Runs, StripId};
use plain::Plain;
use strips::strip;

const HEIGHT: Length = Length::mm(60);

fn card(recipe: &Recipe) -> Card {
    assert_eq!(recipe.check(), []);
    work_out(recipe, &Tools::default())
}

/// A strip of these widths, scored.
fn scored(widths: &[Length], labels: &str) -> Recipe {
    let mut recipe = strip(widths, HEIGHT, labels, 0, Runs::Across);
    recipe.notation.step = Step::TenthMillimetre;
    recipe
}

/// The same as one sheet with its folds drawn as lines.
fn drawn(widths: &[Length], labels: &str) -> Recipe {
    let whole: Length = widths.iter().copied().sum();
    let mut recipe = scored(&[whole], "");
    let mut at = Length::ZERO;
    for (width, label) in widths.iter().zip(labels.chars()) {
        at += *width;
        let way = if label == 'M' {
            Fold::Mountain
        } else {
            Fold::Valley
        };
        let (from, to) = (Point::new(at, Length::ZERO), Point::new(at, HEIGHT));
        recipe
            .add_line(StripId::Base, LineKind::Crease(way), from, to, &Plain)
            .expect("there is room for another line");
    }
    recipe
}

/// A panel between two longer ones that close round it from one side is in
/// their way (Arkin and others, When can you fold a map?, 2004), unless they
/// are longer by what paper does not show.
#[test]
fn a_strip_and_the_same_drawn_with_lines_agree() {
    for microns in [0, 1, 2, 5, 6, 9, 10, 11, 12, 20, 50, 100, 1000] {
        let by = Length::microns(microns);
        let widths = [Length::mm(30) + by, Length::mm(30), Length::mm(30) + by];
        let folds = [scored(&widths, "VV"), drawn(&widths, "VV")]
            .map(|recipe| card(&recipe).folded.is_some());
        assert_eq!(folds, [by <= SAME_WITHIN; 2], "{microns} µm");
    }
}

/// So do strips of up to six panels that differ by a few thousandths of a
/// millimetre, whatever their folds.
#[test]
fn strips_that_nearly_fit_agree_with_their_drawings() {
    let mut seed = 0x9E37_79B9_7F4A_7C15_u64;
    let mut below = |limit: u64| {
        // A linear congruential generator; its constants by Knuth, MMIX.
        seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) % limit
    };
    for round in 0..300 {
        let panels = 3 + below(4);
        let widths: Vec<_> = (0..panels)
            .map(|_| {
                let off = i64::try_from(below(7)).expect("small") * 4;
                Length::mm(30) + Length::microns(off)
            })
            .collect();
        let labels: String = (1..panels)
            .map(|_| if below(3) == 0 { 'M' } else { 'V' })
            .collect();
        let folds = [scored(&widths, &labels), drawn(&widths, &labels)]
            .map(|recipe| card(&recipe).folded.is_some());
        assert_eq!(folds[0], folds[1], "{round}: {widths:?} {labels}");
    }
}

/// A step cut from the fold of a sheet of 200 × 100 mm, its ridge off by so
/// much.
fn step(off: Length) -> Recipe {
    let mut recipe = strip(&[Length::mm(200)], Length::mm(100), "", 0, Runs::Across);
    let at = |x: i64, y: i64| Point::new(Length::mm(x), Length::mm(y));
    let ridge = |y: i64| -> Point<PieceFrame> { Point::new(Length::mm(90) + off, Length::mm(y)) };
    let valley = LineKind::Crease(Fold::Valley);
    let lines = [
        (valley, at(100, 0), at(100, 30)),
        (valley, at(100, 70), at(100, 100)),
        (LineKind::Cut, at(70, 30), at(120, 30)),
        (LineKind::Cut, at(70, 70), at(120, 70)),
        (valley, at(70, 30), at(70, 70)),
        (LineKind::Crease(Fold::Mountain), ridge(30), ridge(70)),
        (valley, at(120, 30), at(120, 70)),
    ];
    for (kind, from, to) in lines {
        recipe
            .add_line(StripId::Base, kind, from, to, &Plain)
            .expect("there is room for another line");
    }
    recipe
}

/// A card that folds flat is never said not to close flat: its opening in space
/// lets pass what folding lets pass.
#[test]
fn what_folds_flat_closes_flat() {
    let mut opened = 0;
    for tenths in 0..=240 {
        let off = Length::from_units(tenths * 72 / 10);
        let card = card(&step(off));
        let stops = card.problems.iter().filter(|it| it.weight == Weight::Stop);
        let stops: Vec<_> = stops.map(|problem| problem.finding.clone()).collect();
        // Twice the ridge's miss is how far the loop misses.
        if card.folded.is_some() {
            opened += 1;
            assert_eq!(stops, [], "{tenths} tenths of 1 µm");
            let whole = card.whole.expect("its creases move together");
            assert_eq!(whole.stops_at, None, "{tenths} tenths of 1 µm");
        } else {
            assert!(!stops.is_empty(), "{tenths} tenths of 1 µm");
        }
    }
    assert!(opened > 40, "{opened} fold flat");
}
