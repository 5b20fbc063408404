//! The motion of pop-ups against closed forms, at ten angles each.

use std::f64::consts::PI;

use foldwright_engine::motion::{Assembly, Facet, Finding, Hinge, Order, Sense};

use super::cards::{Foot, LEFT, RIGHT, card, foot, layer, strip, tent, tented, vee};
use super::{CLOSE, assert_whole, moments, open, troubles};

/// How far the pages have opened.
fn opened(angles: &[f64]) -> f64 {
    PI - angles[0]
}

#[test]
fn a_box_is_a_parallelogram() {
    // Feet 50 and 30 from the fold, walls 30 and 50: opposite sides are equal,
    // so the walls stay parallel to the pages and every crease has the main
    // fold's angle.
    let assembly = tented(100.0, [50.0, 30.0], [30.0, 50.0]);
    let opening = open(&assembly);
    assert_eq!(troubles(&opening), Vec::<&Finding>::new());
    for pose in moments(&opening) {
        let main = pose.angles[0];
        let expected = [main, main, -main, main];
        for (angle, expected) in pose.angles.iter().zip(expected) {
            assert!((angle - expected).abs() < CLOSE, "{:?}", pose.angles);
        }
        // The ridge completes the parallelogram: the left foot's place plus
        // the right foot's, from the fold.
        let turn = opened(&pose.angles);
        let ridge = pose.facets[3].point([30.0, 40.0, 0.0]);
        let corner = [-50.0 - 30.0 * turn.cos(), 40.0, 30.0 * turn.sin()];
        assert!(
            super::distance(ridge, corner) < CLOSE,
            "{ridge:?} {corner:?}"
        );
        assert_whole(&assembly, &pose, CLOSE);
    }
    assert!(
        opening
            .pose_at(1.0)
            .angles
            .iter()
            .all(|angle| angle.abs() < CLOSE)
    );
}

#[test]
fn a_tent_is_a_four_bar_linkage() {
    // Unequal everything, 40 + 55 = 35 + 60: the ridge is where circles round
    // the feet meet, on the reader's side.
    let (feet, walls) = ([40.0_f64, 35.0_f64], [55.0_f64, 60.0_f64]);
    let assembly = tented(100.0, feet, walls);
    let opening = open(&assembly);
    assert_eq!(troubles(&opening), Vec::<&Finding>::new());
    for pose in moments(&opening).iter().skip(1) {
        let turn = opened(&pose.angles);
        let left = [-feet[0], 0.0];
        let right = [-feet[1] * turn.cos(), feet[1] * turn.sin()];
        let between = [right[0] - left[0], right[1] - left[1]];
        let span = between[0].hypot(between[1]);
        let along = (span * span + walls[0] * walls[0] - walls[1] * walls[1]) / (2.0 * span);
        let up = (walls[0] * walls[0] - along * along).sqrt();
        let way = [between[0] / span, between[1] / span];
        let expected = [
            left[0] + way[0] * along - way[1] * up,
            40.0,
            left[1] + way[1] * along + way[0] * up,
        ];
        let ridge = pose.facets[3].point([walls[0], 40.0, 0.0]);
        assert!(
            super::distance(ridge, expected) < CLOSE,
            "{ridge:?} {expected:?}"
        );
        assert_whole(&assembly, pose, CLOSE);
    }
}

#[test]
fn a_strip_closes_flat_exactly_when_lengths_add_up() {
    for left in [20.0, 30.0, 45.0] {
        for right in [20.0, 35.0] {
            for first in [25.0, 40.0] {
                for second in [20.0, 25.0, 30.0, 45.0, 55.0] {
                    let assembly = tented(150.0, [left, right], [first, second]);
                    let misses = left + first - right - second;
                    let unclosed = open(&assembly).findings.iter().any(|finding| {
                        matches!(finding, Finding::Unclosed { gap, .. } if (gap - f64::abs(misses)).abs() < CLOSE)
                    });
                    // Lengths in whole millimetres: equal or far apart.
                    assert_eq!(
                        unclosed,
                        misses.abs() > 0.5,
                        "{left} {first} {right} {second}"
                    );
                }
            }
        }
    }
}

#[test]
fn a_v_fold_obeys_spherical_trigonometry() {
    // About the point of the V, the fold G, a foot's crease T and the middle
    // crease C mark a spherical triangle with GT = foot and TC = wing, and with
    // half the pages' opening as its angle at G (by symmetry). The sine rule
    // gives the angle at C, half the angle between the wings:
    //   sin C = sin G · sin GT / sin TC,
    // the cosine rule for the side TC gives GC:
    //   cos TC = cos GT cos GC + sin GT sin GC cos G,
    // and the cosine rule for the side GC gives the angle at T:
    //   cos GC = cos GT cos TC + sin GT sin TC cos T.
    for (foot, wing) in [(60.0_f64, 70.0_f64), (45.0, 60.0), (50.0, 50.0)] {
        let (foot, wing) = (foot.to_radians(), wing.to_radians());
        let mut assembly = card(150.0, 150.0);
        vee(
            &mut assembly,
            [(LEFT, 0.0), (RIGHT, 0.0)],
            75.0,
            [foot; 2],
            [wing; 2],
            50.0,
        );
        let opening = open(&assembly);
        assert_eq!(troubles(&opening), Vec::<&Finding>::new());
        for pose in moments(&opening) {
            let half = opened(&pose.angles) / 2.0;
            let at_middle = (half.sin() * foot.sin() / wing.sin()).min(1.0).asin();
            let across = (foot.sin() * half.cos()).atan2(foot.cos());
            let size = foot.cos().hypot(foot.sin() * half.cos());
            let to_middle = across + (wing.cos() / size).clamp(-1.0, 1.0).acos();
            let at_foot = ((to_middle.cos() - foot.cos() * wing.cos()) / (foot.sin() * wing.sin()))
                .clamp(-1.0, 1.0)
                .acos();
            // Near its ends the inverse cosine magnifies rounding to 1e-8.
            let expected = [pose.angles[0], at_foot, 2.0 * at_middle - PI, at_foot];
            for (angle, expected) in pose.angles.iter().zip(expected) {
                assert!(
                    (angle - expected).abs() < CLOSE,
                    "{:?} {expected:?}",
                    pose.angles
                );
            }
            assert_whole(&assembly, &pose, CLOSE);
        }
    }
}

#[test]
fn a_v_fold_closes_flat_exactly_when_angles_add_up() {
    for left in [40.0_f64, 55.0] {
        for right in [40.0_f64, 50.0] {
            for first in [60.0_f64, 65.0] {
                for second in [50.0_f64, 60.0, 70.0, 75.0, 80.0] {
                    let mut assembly = card(200.0, 200.0);
                    let feet = [left, right].map(f64::to_radians);
                    let wings = [first, second].map(f64::to_radians);
                    vee(
                        &mut assembly,
                        [(LEFT, 0.0), (RIGHT, 0.0)],
                        100.0,
                        feet,
                        wings,
                        60.0,
                    );
                    let findings = open(&assembly).findings;
                    let unclosed = findings
                        .iter()
                        .any(|finding| matches!(finding, Finding::Unclosed { .. }));
                    let misses = left + first - right - second;
                    assert_eq!(
                        unclosed,
                        misses.abs() > 0.5,
                        "{left} {first} {right} {second}"
                    );
                }
            }
        }
    }
}

/// A box on the main fold, a box in the crook of its left wall, a V-fold in
/// the crook of that one, and a strip that spans the first ridge's far side.
fn nested() -> Assembly {
    let mut card = card(160.0, 200.0);
    let (walls, _) = tent(
        &mut card,
        foot(LEFT, 60.0),
        foot(RIGHT, 50.0),
        [50.0, 60.0],
        [20.0, 180.0],
    );
    // The left wall's crook is at its tab's crease, x = 0 in the strip and 60
    // left of the fold on the page.
    let crook = Foot {
        on: LEFT,
        fold: -60.0,
        away: 30.0,
    };
    let up = Foot {
        on: walls + 1,
        fold: 0.0,
        away: 25.0,
    };
    let (small, _) = tent(&mut card, crook, up, [25.0, 30.0], [40.0, 160.0]);
    let angle = f64::to_radians;
    vee(
        &mut card,
        [(LEFT, -90.0), (small + 1, 0.0)],
        100.0,
        [angle(50.0); 2],
        [angle(65.0); 2],
        20.0,
    );
    card
}

#[test]
fn pop_ups_on_pop_ups_move_together() {
    let assembly = nested();
    let opening = open(&assembly);
    assert_eq!(troubles(&opening), Vec::<&Finding>::new());
    for pose in moments(&opening) {
        let main = pose.angles[0];
        // Both boxes are parallelograms, whose crooks open as the pages do.
        let expected = [main, main, -main, main, main, -main, main];
        for (angle, expected) in pose.angles.iter().zip(expected) {
            assert!((angle - expected).abs() < CLOSE, "{:?}", pose.angles);
        }
        let half = (PI - main) / 2.0;
        let (foot, wing) = (50.0_f64.to_radians(), 65.0_f64.to_radians());
        let ridge = 2.0 * (half.sin() * foot.sin() / wing.sin()).asin() - PI;
        assert!((pose.angles[8] - ridge).abs() < CLOSE, "{:?}", pose.angles);
        assert_whole(&assembly, &pose, CLOSE);
        assert!(pose.gap < CLOSE, "{}", pose.gap);
    }
}

#[test]
fn an_accordion_and_a_gate_open_flat() {
    let accordion = strip(
        &[40.0; 6],
        &[
            Sense::Valley,
            Sense::Mountain,
            Sense::Valley,
            Sense::Mountain,
            Sense::Valley,
        ],
        0,
        0,
    );
    let gate = strip(&[50.0, 100.0, 50.0], &[Sense::Valley; 2], 1, 0);
    for assembly in [accordion, gate] {
        let opening = open(&assembly);
        assert_eq!(troubles(&opening), Vec::<&Finding>::new());
        assert_eq!(opening.order, Order::Together);
        let free = opening.findings.len();
        assert_eq!(free, assembly.hinges.len() - 1, "all but the main fold");
        for pose in moments(&opening) {
            assert_whole(&assembly, &pose, 1e-9);
            let main = pose.angles[0].abs();
            assert!(
                pose.angles
                    .iter()
                    .all(|angle| (angle.abs() - main).abs() < 1e-12)
            );
        }
        let flat = opening.pose_at(1.0);
        for (lay, facet) in flat.facets.iter().zip(&assembly.facets) {
            for corner in &facet.corners {
                let at = [corner[0], corner[1], 0.0];
                assert!(
                    super::distance(lay.point(at), at) < 1e-9,
                    "not flat: {lay:?}"
                );
            }
        }
    }
}

#[test]
fn a_letter_fold_opens_one_flap_after_the_other() {
    // The inner flap would swing through the back if both opened alike.
    let assembly = strip(&[100.0, 100.0, 97.0], &[Sense::Valley; 2], 0, 0);
    let opening = open(&assembly);
    assert_eq!(troubles(&opening), Vec::<&Finding>::new());
    assert_eq!(opening.order, Order::InTurn);
    let half = opening.pose_at(0.5).angles;
    assert!(
        half[0].abs() < CLOSE && (half[1] - PI).abs() < CLOSE,
        "{half:?}"
    );
}

#[test]
fn a_layer_moves_with_what_carries_it() {
    let mut assembly = tented(100.0, [50.0, 30.0], [30.0, 50.0]);
    layer(&mut assembly, 3, [5.0, 40.0], [25.0, 80.0]);
    let opening = open(&assembly);
    assert_eq!(troubles(&opening), Vec::<&Finding>::new());
    for pose in moments(&opening) {
        assert_whole(&assembly, &pose, CLOSE);
    }
}

#[test]
fn a_tab_glued_towards_the_fold_folds_as_the_card_opens() {
    // The same box with its left tab turned in under the wall: flat when
    // closed, a mountain that ends folded back.
    let mut assembly = tented(100.0, [50.0, 30.0], [30.0, 50.0]);
    assembly.hinges[1].folded = false;
    assembly.hinges[1].sense = Sense::Mountain;
    assembly.bonds[0].lay.mirrored = true;
    assembly.bonds[0].lay.shift[0] = -50.0;
    let opening = open(&assembly);
    assert_eq!(troubles(&opening), Vec::<&Finding>::new());
    for pose in moments(&opening) {
        let main = pose.angles[0];
        assert!(
            (pose.angles[1] + opened(&pose.angles)).abs() < CLOSE,
            "{:?}",
            pose.angles
        );
        assert!((pose.angles[3] - main).abs() < CLOSE, "{:?}", pose.angles);
        assert_whole(&assembly, &pose, CLOSE);
    }
}

#[test]
fn a_step_cut_from_the_card_itself_folds_with_it() {
    // Two slits across the fold and three creases: the fold goes on beside the
    // step, in two stretches that turn as one.
    let (low, high, up, out) = (30.0, 90.0, 40.0, 25.0);
    let notched = |way: f64, depth: f64| {
        let mut corners = vec![
            [0.0, 0.0],
            [0.0, low],
            [way * depth, low],
            [way * depth, high],
            [0.0, high],
            [0.0, 120.0],
            [way * 100.0, 120.0],
            [way * 100.0, 0.0],
        ];
        if way > 0.0 {
            corners.reverse();
        }
        corners
    };
    let mut assembly = card(100.0, 120.0);
    assembly.facets[LEFT].corners = notched(-1.0, up);
    assembly.facets[RIGHT].corners = notched(1.0, out);
    let fold = assembly.hinges[0];
    let stretch = |from: f64, to: f64, facets: [usize; 2], x: f64, sense: Sense| Hinge {
        facets,
        axis: [[x, from], [x, to]],
        sense,
        ..fold
    };
    // From the left page the strip runs 25 forward, then 40 down.
    let ridge = out - up;
    for (from, to) in [(-up, ridge), (ridge, out)] {
        assembly.facets.push(Facet {
            corners: vec![[from, low], [to, low], [to, high], [from, high]],
            holes: Vec::new(),
        });
    }
    assembly.hinges = vec![
        stretch(0.0, low, [LEFT, RIGHT], 0.0, Sense::Valley),
        stretch(high, 120.0, [LEFT, RIGHT], 0.0, Sense::Valley),
        stretch(low, high, [LEFT, 2], -up, Sense::Valley),
        stretch(low, high, [2, 3], ridge, Sense::Mountain),
        stretch(low, high, [3, RIGHT], out, Sense::Valley),
    ];
    let opening = open(&assembly);
    assert_eq!(opening.findings, []);
    for pose in moments(&opening) {
        let main = pose.angles[0];
        let expected = [main, main, main, -main, main];
        for (angle, expected) in pose.angles.iter().zip(expected) {
            assert!((angle - expected).abs() < CLOSE, "{:?}", pose.angles);
        }
        assert_whole(&assembly, &pose, CLOSE);
    }
}

#[test]
fn a_pop_up_on_a_second_flap_moves_by_itself() {
    // A gate whose right leaf carries a strip over its own fold: driven by that
    // fold, in proportion to the main one.
    let mut assembly = strip(&[100.0, 200.0, 100.0], &[Sense::Valley; 2], 1, 0);
    let right = |on: usize, away: f64| Foot {
        on,
        fold: 300.0,
        away,
    };
    let along = [10.0, 50.0];
    let (_, first) = tent(
        &mut assembly,
        right(1, 40.0),
        right(2, 30.0),
        [30.0, 40.0],
        along,
    );
    let opening = open(&assembly);
    assert_eq!(opening.findings, [Finding::Free { hinge: 1 }]);
    for pose in moments(&opening) {
        let main = pose.angles[0];
        for hinge in [1, first, first + 2] {
            assert!(
                (pose.angles[hinge] - main).abs() < CLOSE,
                "{:?}",
                pose.angles
            );
        }
        assert_whole(&assembly, &pose, CLOSE);
    }
}

#[test]
fn points_rounded_to_the_engine_s_unit_still_fit() {
    let unit = 72_000.0;
    let round = |value: &mut f64| *value = (*value * unit).round() / unit;
    for assembly in [nested(), tented(100.0, [50.0, 30.0], [30.0, 50.0])] {
        let mut rounded = assembly.clone();
        for facet in &mut rounded.facets {
            facet.corners.iter_mut().flatten().for_each(round);
        }
        for hinge in &mut rounded.hinges {
            hinge.axis.iter_mut().flatten().for_each(round);
        }
        for bond in &mut rounded.bonds {
            bond.lay.shift.iter_mut().for_each(round);
        }
        let opening = open(&rounded);
        assert_eq!(opening.findings, []);
        let exact = open(&assembly);
        for (pose, exact) in moments(&opening).iter().zip(moments(&exact)) {
            assert_whole(&rounded, pose, 2e-3);
            for (angle, exact) in pose.angles.iter().zip(exact.angles) {
                assert!((angle - exact).abs() < 1e-3, "{angle} {exact}");
            }
        }
    }
}

#[test]
fn an_opening_has_no_jumps() {
    for assembly in [nested(), tented(150.0, [40.0, 35.0], [55.0, 60.0])] {
        let opening = open(&assembly);
        let poses: Vec<_> = opening.poses(720).collect();
        for pair in poses.windows(2) {
            for (before, after) in pair[0].angles.iter().zip(&pair[1].angles) {
                // A quarter of a degree of the main fold, some of any other.
                let step = (before - after).abs();
                assert!(step < 2.0_f64.to_radians(), "{step} at {}", pair[0].share);
            }
        }
    }
}

#[test]
fn a_french_fold_opens_like_a_book() {
    // A sheet folded in half twice: four creases at right angles. While the
    // book opens the fold along its head stays shut.
    let panel = |x: f64, y: f64| Facet {
        corners: vec![
            [x, y],
            [x + 100.0, y],
            [x + 100.0, y + 140.0],
            [x, y + 140.0],
        ],
        holes: Vec::new(),
    };
    let crease = |facets, axis, sense| Hinge {
        facets,
        axis,
        sense,
        folded: true,
    };
    let (o, head, foot) = ([0.0, 0.0], [0.0, 140.0], [0.0, -140.0]);
    let assembly = Assembly {
        facets: vec![
            panel(-100.0, -140.0),
            panel(0.0, -140.0),
            panel(-100.0, 0.0),
            panel(0.0, 0.0),
        ],
        hinges: vec![
            crease([0, 1], [foot, o], Sense::Valley),
            crease([2, 3], [o, head], Sense::Mountain),
            crease([2, 0], [[-100.0, 0.0], o], Sense::Mountain),
            crease([3, 1], [o, [100.0, 0.0]], Sense::Mountain),
        ],
        ..card(100.0, 140.0)
    };
    let opening = open(&assembly);
    assert_eq!(opening.findings, []);
    for pose in moments(&opening) {
        let main = pose.angles[0];
        let expected = [main, -main, -PI, -PI];
        for (angle, expected) in pose.angles.iter().zip(expected) {
            assert!((angle - expected).abs() < CLOSE, "{:?}", pose.angles);
        }
        assert_whole(&assembly, &pose, CLOSE);
    }
    assert!(opening.pose_at(1.0).angles[0].abs() < CLOSE);
}
