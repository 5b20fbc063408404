//! Whatever is given, nothing panics, and what holds together stays so.

use foldwright_engine::motion::{Assembly, Bond, Facet, Hinge, Lay, Opening, Sense};
use proptest::prelude::*;

use super::cards::{card, foot, tent, vee};
use super::{assert_whole, open};

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
    let facet = (prop::collection::vec(point(), 0..6), any::<bool>())
        .prop_map(|(corners, page)| Facet { corners, page });
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
        if !(value.abs() <= 1000.0) {
            *value = 10.0;
        }
    };
    for facet in &mut assembly.facets {
        facet.corners.resize(4, [3.0, 4.0]);
        facet.corners.iter_mut().flatten().for_each(sound);
    }
    while assembly.facets.len() < 8 {
        assembly.facets.push(Facet {
            corners: vec![[0.0, 0.0], [50.0, 0.0], [50.0, 50.0]],
            page: true,
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
            opening.pose_at(share);
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
        let opening = open(&assembly);
        let pose = opening.pose_at(share);
        prop_assert!(pose.gap < 0.02, "{}", pose.gap);
        assert_whole(&assembly, &pose, 0.02);
        if share < 0.99 {
            prop_assert!(pose.gap < 1e-6, "{}", pose.gap);
        }
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
        let opening = open(&assembly);
        let pose = opening.pose_at(share);
        prop_assert!(pose.gap < 0.02, "{}", pose.gap);
        assert_whole(&assembly, &pose, 0.02);
    }
}
