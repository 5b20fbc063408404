//! Drawings: what they hold, and that they read as SVG.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::draw::{Drawing, Mark, Moment, Target, flat, opening, state, svg};
use foldwright_engine::faces::{Part, View};
use foldwright_engine::length::{Length, Step};
use foldwright_engine::pattern::{LineId, LineKind};
use foldwright_engine::plane::{Point, Size};
use foldwright_engine::recipe::{Face, Fold, LayerKind, PanelId, Runs, Seat, Side, StripId};
use foldwright_engine::seen::{FlatSeen, StateSeen, flat_seen, state_seen};
use plain::Plain;
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
        let drawn = svg(&flat(&recipe, &card, StripId::Base, side), "flat", &|_| {
            None
        });
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
        let inside = svg(&flat(&recipe, &card, StripId::Base, side), "flat", &|_| {
            None
        })
        .inside();
        let count = |class: &str| inside.matches(&format!("class=\"{class}\"")).count();
        (count("mountain"), count("valley"))
    };
    assert_eq!(folds(Side::A), (1, 2));
    assert_eq!(folds(Side::B), (2, 1));
}

#[test]
fn the_nearest_line_is_hit_and_else_what_lies_on_top() {
    let widths = [100, 100].map(Length::mm);
    let mut recipe = strip(&widths, Length::mm(100), "V", 1, Runs::Across);
    let at = |x, y| Point::new(Length::mm(x), Length::mm(y));
    let crease = LineKind::Crease(Fold::Valley);
    let added = recipe.add_line(StripId::Base, crease, at(160, 0), at(200, 40), &Plain);
    let line = LineId::of_line(added.expect("it is on paper").id);
    let left = Face {
        panel: PanelId(0),
        side: Side::A,
    };
    let added = recipe.add_layer(Seat::Face(left), LayerKind::Focal, &Plain);
    let layer = added.expect("it is a face").id;
    let card = work_out(&recipe, &Tools::default());
    let drawing = flat(&recipe, &card, StripId::Base, Side::A);
    let hit = |x, y| drawing.hits([x, y], 8.0).first().copied();
    assert_eq!(hit(93.0, 90.0), Some(Target::Line(LineId::of_score(0))));
    assert_eq!(hit(180.0, 25.0), Some(Target::Line(line)));
    assert_eq!(hit(25.0, 25.0), Some(Target::Part(Part::Layer(layer))));
    assert_eq!(hit(10.0, 90.0), Some(Target::Part(Part::Face(left))));
    let beneath = [Part::Layer(layer), Part::Face(left)].map(Target::Part);
    assert_eq!(drawing.hits([25.0, 25.0], 8.0), beneath);
    assert_eq!(hit(-30.0, 90.0), None);
    let targets: Vec<_> = drawing.targets().into_iter().map(|it| it.0).collect();
    for target in [
        hit(93.0, 90.0),
        hit(180.0, 25.0),
        hit(25.0, 25.0),
        hit(10.0, 90.0),
    ] {
        assert!(target.is_some_and(|target| targets.contains(&target)));
    }
    // The other side up, the layer is not seen.
    let turned = flat(&recipe, &card, StripId::Base, Side::B);
    let other = Part::Face(Face {
        side: Side::B,
        ..left
    });
    assert_eq!(
        turned.hits([25.0, 75.0], 8.0).first().copied(),
        Some(Target::Part(other))
    );
}

#[test]
fn what_a_drawing_shows_is_told() {
    let widths = [100, 80].map(Length::mm);
    let mut recipe = strip(&widths, Length::mm(120), "V", 0, Runs::Across);
    recipe.notation.step = Step::Millimetre;
    let front = Face {
        panel: PanelId(1),
        side: Side::B,
    };
    let mat = recipe.add_layer(Seat::Face(front), LayerKind::Mat, &Plain);
    let mat = mat.expect("it is a face").id;
    let card = work_out(&recipe, &Tools::default());
    let size = |width, height| Size {
        width: Length::mm(width),
        height: Length::mm(height),
    };
    let face = |panel, side| {
        let panel = PanelId(panel);
        Part::Face(Face { panel, side })
    };
    let inside = FlatSeen {
        of: StripId::Base,
        size: size(180, 120),
        panels: vec![(PanelId(0), Length::mm(100)), (PanelId(1), Length::mm(80))],
        lines: vec![(LineId::of_score(0), LineKind::Crease(Fold::Valley))],
        fallen: Vec::new(),
        on: Vec::new(),
    };
    // The mat keeps 3 mm from every edge of its panel.
    let outside = FlatSeen {
        lines: vec![(LineId::of_score(0), LineKind::Crease(Fold::Mountain))],
        on: vec![(mat, size(74, 114))],
        ..inside.clone()
    };
    assert_eq!(
        flat_seen(&recipe, &card, StripId::Base, Side::A),
        Some(inside)
    );
    assert_eq!(
        flat_seen(&recipe, &card, StripId::Base, Side::B),
        Some(outside)
    );
    let lies = |size, parts| {
        Some(StateSeen::Lies {
            size,
            parts,
            standing: Vec::new(),
        })
    };
    assert_eq!(
        state_seen(&card, 0, View::Front),
        lies(
            size(100, 120),
            vec![
                (Part::Layer(mat), Some(size(74, 114))),
                (face(1, Side::B), Some(size(80, 120))),
                (face(0, Side::A), Some(size(100, 120))),
            ]
        )
    );
    assert_eq!(
        state_seen(&card, 0, View::Back),
        lies(
            size(100, 120),
            vec![(face(0, Side::B), Some(size(100, 120)))]
        )
    );
    assert_eq!(
        state_seen(&card, 1, View::Front),
        lies(
            size(180, 120),
            vec![
                (face(1, Side::A), Some(size(80, 120))),
                (face(0, Side::A), Some(size(100, 120))),
            ]
        )
    );
}
