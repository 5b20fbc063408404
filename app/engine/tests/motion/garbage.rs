//! Whatever is given, nothing panics, and what holds together stays so.

use std::f64::consts::PI;

use foldwright_engine::motion::{Assembly, Bond, Facet, Finding, Hinge, Lay, Opening, Sense};
use proptest::prelude::*;

use super::cards::{Foot, card, foot, tent, vee};
use super::{CLOSE, assert_whole, open};

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => -100.0..100.0_f64,
        2 => (-4..5_i32).prop_map(|count| f64::from(count) * 25.0),
        1 => prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(1e300), Just(1e-300), Just(-0.0)],
    ]
}

fn point() -> impl Strategy<Value = [f64; 2]> {
    [number(), number()]
}

fn lay() -> impl Strategy<Value = Lay> {
    (any::<bool>(), number(), point()).prop_map(|(mirrored, turn, shift)| Lay {
        mirrored,
        turn,
        shift,
    })
}

fn assembly() -> impl Strategy<Value = Assembly> {
    let facet = prop::collection::vec(point(), 0..6).prop_map(|corners| Facet {
        holes: corners.chunks(2).map(<[_]>::to_vec).collect(),
        corners,
    });
    let hinge = (
        [0..8_usize, 0..8_usize],
        [point(), point()],
        any::<[bool; 2]>(),
    )
        .prop_map(|(facets, axis, [valley, folded])| Hinge {
            facets,
            axis,
            sense: if valley {
                Sense::Valley
            } else {
                Sense::Mountain
            },
            folded,
        });
    let bond = (0..8_usize, 0..8_usize, lay()).prop_map(|(on, part, lay)| Bond { on, part, lay });
    (
        prop::collection::vec(facet, 0..8),
        prop::collection::vec(hinge, 0..10),
        prop::collection::vec(bond, 0..4),
        0..8_usize,
        lay(),
        0..8_usize,
    )
        .prop_map(|(facets, hinges, bonds, root, table, main)| Assembly {
            facets,
            hinges,
            bonds,
            root,
            table,
            main,
        })
}

/// Sound facets and a sound table, so that garbage gets as far as the solver.
fn tidied(mut assembly: Assembly) -> Assembly {
    let sound = |value: &mut f64| {
        if value.is_nan() || value.abs() > 1000.0 {
            *value = 10.0;
        }
    };
    for facet in &mut assembly.facets {
        facet.corners.resize(4, [3.0, 4.0]);
        let holes = facet.holes.iter_mut().flatten();
        let points = facet.corners.iter_mut().chain(holes);
        points.flatten().for_each(sound);
    }
    while assembly.facets.len() < 8 {
        assembly.facets.push(Facet {
            corners: vec![[0.0, 0.0], [50.0, 0.0], [50.0, 50.0]],
            holes: Vec::new(),
        });
    }
    assembly.table.shift.iter_mut().for_each(sound);
    sound(&mut assembly.table.turn);
    for hinge in &mut assembly.hinges {
        hinge.axis.iter_mut().flatten().for_each(sound);
    }
    assembly
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn garbage_never_panics(assembly in assembly(), share in number()) {
        if let Ok(opening) = Opening::of(&assembly) {
            let _ = opening.pose_at(share);
        }
        if let Ok(opening) = Opening::of(&tidied(assembly)) {
            let pose = opening.pose_at(share);
            prop_assert!(pose.angles.iter().all(|angle| angle.is_finite()));
        }
    }

    #[test]
    fn boxes_hold_together(
        left in 5.0..70.0_f64, right in 5.0..70.0_f64, extra in 1.0..60.0_f64,
        share in 0.0..=1.0_f64,
    ) {
        // Any strip that closes flat: left + first = right + second.
        let first = right.max(left) - left + extra;
        let second = left + first - right;
        let mut assembly = card(200.0, 120.0);
        tent(&mut assembly, foot(0, left), foot(1, right), [first, second], [30.0, 90.0]);
        // Open to flat, or until the walls span the feet in a line (cosine rule).
        let apart = |turn: f64| {
            (left * left + right * right - 2.0 * left * right * turn.cos()).sqrt()
        };
        holds_together(&assembly, apart, first + second, 0.01, share)?;
    }

    #[test]
    fn v_folds_hold_together(
        left in 20.0..80.0_f64, right in 20.0..80.0_f64, extra in 5.0..60.0_f64,
        share in 0.0..=1.0_f64,
    ) {
        let first = right.max(left) - left + extra;
        let second = left + first - right;
        let mut assembly = card(200.0, 200.0);
        let angles = |pair: [f64; 2]| pair.map(f64::to_radians);
        vee(&mut assembly, [(0, 0.0), (1, 0.0)], 100.0, angles([left, right]), angles([first, second]), 60.0);
        // Open to flat, or until the wings span the feet in a plane (cosine
        // rule of spherical trigonometry).
        let [left, right, both] = [left, right, first + second].map(f64::to_radians);
        let apart = |turn: f64| {
            (left.cos() * right.cos() + left.sin() * right.sin() * turn.cos()).acos()
        };
        holds_together(&assembly, apart, both, 1e-3, share)?;
    }

    #[test]
    fn pop_ups_on_boxes_hold_together(
        box_left in 30.0..70.0_f64, box_right in 30.0..70.0_f64,
        left in 10.0..70.0_f64, right in 10.0..70.0_f64, extra in 5.0..60.0_f64,
        foot_left in 20.0..80.0_f64, foot_right in 20.0..80.0_f64, wing in 5.0..60.0_f64,
        share in 0.0..=1.0_f64,
    ) {
        // A box, whose crook opens as the pages do, with a strip and a V-fold
        // in the crook.
        let mut assembly = card(200.0, 200.0);
        let feet = [foot(0, box_left), foot(1, box_right)];
        let (walls, _) = tent(&mut assembly, feet[0], feet[1], [box_right, box_left], [20.0, 180.0]);
        let wall = walls + 1;
        let first = right.max(left) - left + extra;
        let walls = [first, left + first - right];
        let crook = [Foot { on: 0, fold: -box_left, away: left }, foot(wall, right)];
        tent(&mut assembly, crook[0], crook[1], walls, [40.0, 60.0]);
        let first = foot_right.max(foot_left) - foot_left + wing;
        let wings = [first, foot_left + first - foot_right].map(f64::to_radians);
        let feet = [foot_left, foot_right].map(f64::to_radians);
        vee(&mut assembly, [(0, -box_left), (wall, 0.0)], 100.0, feet, wings, 30.0);
        // By how many millimetres the paper of either is too short for its feet.
        let apart = |turn: f64| {
            let line = (left * left + right * right - 2.0 * left * right * turn.cos()).sqrt();
            let arc = feet[0].cos() * feet[1].cos() + feet[0].sin() * feet[1].sin() * turn.cos();
            (line - walls[0] - walls[1]).max((arc.acos() - wings[0] - wings[1]) * 30.0)
        };
        // Nearly shut, a little give in the box is much in the crook.
        holds_together(&assembly, apart, 0.0, 0.05, share)?;
    }
}

/// Opens an assembly flat, or until the feet of its pop-up are `most` apart,
/// give or take `within`; whole all the way.
fn holds_together(
    assembly: &Assembly,
    apart: impl Fn(f64) -> f64,
    most: f64,
    within: f64,
    share: f64,
) -> Result<(), TestCaseError> {
    let opening = open(assembly);
    let left = opening.pose_at(1.0).angles[0];
    if apart(2.0_f64.to_radians()) > most {
        // What jams within 2° does not open.
        let locked = |finding: &Finding| matches!(finding, Finding::Locked { hinge: 0, .. });
        prop_assert!(opening.findings.iter().any(locked));
        return Ok(());
    }
    let off = apart(PI - left) - most;
    prop_assert!(
        off.abs() < within || (left < CLOSE && off < 0.0),
        "{left} {off} {:?}",
        opening.findings
    );
    let pose = opening.pose_at(share);
    // At a jam and in a flat state loops close less sharply.
    let within = if share < 0.99 { 1e-6 } else { 0.002 };
    prop_assert!(pose.gap < within, "{}", pose.gap);
    assert_whole(assembly, &pose, within);
    Ok(())
}
