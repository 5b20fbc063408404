//! Cards that do not open, each for its own reason, at its own place.

use std::f64::consts::PI;

use foldwright_engine::motion::{Bond, Finding, Hinge, Lay, Sense};

use super::cards::{LEFT, RIGHT, card, foot, layer, tent, tented, vee};
use super::{CLOSE, assert_whole, moments, open, troubles};

#[test]
fn a_strip_too_short_jams_where_it_is_straight() {
    // Feet 60 from the fold, walls 40: the feet are 2 · 60 · sin(φ / 2) apart
    // and the strip reaches 80.
    let assembly = tented(150.0, [60.0; 2], [40.0; 2]);
    let opening = open(&assembly);
    let expected = PI - 2.0 * (40.0_f64 / 60.0).asin();
    let [
        Finding::Jam {
            hinge: 0,
            angle,
            blamed: Some(2),
        },
    ] = troubles(&opening)[..]
    else {
        panic!("{:?}", opening.findings);
    };
    assert!((angle - expected).abs() < 1e-3, "{angle} {expected}");
    for pose in moments(&opening) {
        assert_whole(&assembly, &pose, 0.002);
    }
}

#[test]
fn wings_too_narrow_jam_where_they_are_flat() {
    // By the sine rule (see the relations) the wings lie in one plane when
    // sin(φ / 2) = sin wing / sin foot.
    let (foot, wing) = (60.0_f64.to_radians(), 40.0_f64.to_radians());
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
    let expected = PI - 2.0 * (wing.sin() / foot.sin()).asin();
    let [
        Finding::Jam {
            hinge: 0,
            angle,
            blamed: Some(2),
        },
    ] = troubles(&opening)[..]
    else {
        panic!("{:?}", opening.findings);
    };
    assert!((angle - expected).abs() < 1e-3, "{angle} {expected}");
}

#[test]
fn a_wrong_label_is_found() {
    // A box whose ridge is labelled a valley cannot rise.
    let mut assembly = tented(100.0, [50.0, 30.0], [30.0, 50.0]);
    assembly.hinges[2].sense = Sense::Valley;
    let opening = open(&assembly);
    assert_eq!(
        troubles(&opening),
        [&Finding::Locked {
            hinge: 0,
            blamed: Some(2)
        }]
    );
}

#[test]
fn a_layer_across_the_fold_locks_it() {
    let mut assembly = card(100.0, 120.0);
    let across = layer(&mut assembly, LEFT, [-30.0, 40.0], [30.0, 80.0]);
    assembly.bonds.push(Bond {
        on: RIGHT,
        part: across,
        lay: Lay::SAME,
    });
    let opening = open(&assembly);
    assert_eq!(
        opening.findings,
        [Finding::Locked {
            hinge: 0,
            blamed: None
        }]
    );
}

#[test]
fn a_layer_across_a_ridge_locks_the_ridge_and_the_card() {
    let mut assembly = tented(100.0, [50.0, 30.0], [30.0, 50.0]);
    let across = layer(&mut assembly, 3, [10.0, 40.0], [50.0, 80.0]);
    assembly.bonds.push(Bond {
        on: 4,
        part: across,
        lay: Lay::SAME,
    });
    let findings = open(&assembly).findings;
    assert!(
        findings.contains(&Finding::Locked {
            hinge: 2,
            blamed: None
        }),
        "{findings:?}"
    );
}

#[test]
fn three_parallel_creases_do_not_move() {
    // One wall, 30 long, glued over the fold: a triangle of rods. Its right
    // tab lies turned over beyond 80 from the fold.
    let mut assembly = tented(100.0, [50.0, 80.0], [30.0, 10.0]);
    assembly.facets.truncate(5);
    assembly.hinges.truncate(3);
    assembly.bonds[1] = Bond {
        on: RIGHT,
        part: 4,
        lay: Lay {
            mirrored: true,
            turn: 0.0,
            shift: [110.0, 0.0],
        },
    };
    let opening = open(&assembly);
    assert_eq!(
        troubles(&opening),
        [&Finding::Locked {
            hinge: 0,
            blamed: None
        }]
    );
}

#[test]
fn a_long_panel_on_a_tent_hits_the_other_page() {
    // Feet 60 from the fold, walls 40, and on the left wall a panel that ends
    // 100 from its foot. With φ between the pages, the ridge lies on their
    // bisector; the sine rule in the triangle fold–foot–ridge gives the angle
    // p at the ridge, sin p = 60 / 40 · sin(φ / 2), and in the triangle
    // fold–foot–hit the distance 60 · sin φ / sin(p − φ / 2) from the foot to
    // the page along the wall.
    let mut assembly = tented(200.0, [60.0; 2], [40.0; 2]);
    let panel = layer(&mut assembly, 3, [10.0, 40.0], [100.0, 80.0]);
    let reach = |turn: f64| {
        let half = turn / 2.0;
        let ridge = (1.5 * half.sin()).asin();
        60.0 * turn.sin() / (ridge - half).sin()
    };
    let (mut low, mut high) = (0.01_f64, 2.0 * (40.0_f64 / 60.0).asin());
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if reach(middle) > 100.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    let opening = open(&assembly);
    let hit = opening.findings.iter().find_map(|finding| match finding {
        Finding::Collision {
            facets, angle, at, ..
        } if *facets == [RIGHT, panel] => Some((PI - angle, *at)),
        _ => None,
    });
    let (turn, at) = hit.unwrap_or_else(|| panic!("{:?}", opening.findings));
    // Seen at the first of 36 looks after it happens.
    let look = 2.0 * (40.0_f64 / 60.0).asin() / 36.0;
    assert!(turn > low && turn < low + 1.5 * look, "{turn} {low}");
    assert!(
        (at[2] / -at[0] - turn.tan()).abs() < CLOSE,
        "on the right page: {at:?}"
    );
}

#[test]
fn a_panel_passes_through_a_slit_that_is_long_enough() {
    // As above; the panel, 40 to 80 up the card, meets the right page there. A
    // slot that long lets it through, a shorter one does not.
    for (from, to, blocked) in [(39.0, 81.0, false), (39.0, 60.0, true)] {
        let mut assembly = tented(200.0, [60.0; 2], [40.0; 2]);
        let panel = layer(&mut assembly, 3, [10.0, 40.0], [100.0, 80.0]);
        assembly.facets[RIGHT].holes =
            vec![vec![[10.0, from], [190.0, from], [190.0, to], [10.0, to]]];
        let findings = open(&assembly).findings;
        let hit = findings.iter().any(|finding| {
            matches!(finding, Finding::Collision { facets, .. } if *facets == [RIGHT, panel])
        });
        assert_eq!(hit, blocked, "{findings:?}");
    }
}

#[test]
fn contradictory_glue_is_found() {
    let mut assembly = card(100.0, 120.0);
    let part = layer(&mut assembly, LEFT, [-40.0, 40.0], [-10.0, 80.0]);
    assembly.bonds.push(Bond {
        on: LEFT,
        part,
        lay: Lay {
            shift: [1.0, 0.0],
            ..Lay::SAME
        },
    });
    let findings = open(&assembly).findings;
    assert_eq!(findings.len(), 1);
    assert!(
        matches!(findings[0], Finding::Contradiction { .. }),
        "{findings:?}"
    );
}

#[test]
fn a_hem_stays_shut_and_a_loose_part_is_named() {
    let mut assembly = card(100.0, 120.0);
    // A hem folded over the outer edge of the right page and glued down.
    assembly.facets.push(foldwright_engine::motion::Facet {
        corners: vec![[100.0, 0.0], [110.0, 0.0], [110.0, 120.0], [100.0, 120.0]],
        holes: Vec::new(),
    });
    assembly.hinges.push(Hinge {
        facets: [RIGHT, 2],
        axis: [[100.0, 0.0], [100.0, 120.0]],
        sense: Sense::Valley,
        folded: true,
    });
    assembly.bonds.push(Bond {
        on: RIGHT,
        part: 2,
        lay: Lay {
            mirrored: true,
            turn: 0.0,
            shift: [200.0, 0.0],
        },
    });
    let opening = open(&assembly);
    assert_eq!(opening.findings, []);
    for pose in moments(&opening) {
        assert_whole(&assembly, &pose, 1e-9);
    }
    layer(&mut assembly, LEFT, [-40.0, 40.0], [-10.0, 80.0]);
    assembly.bonds.pop();
    assert_eq!(open(&assembly).findings, [Finding::Loose { facet: 3 }]);
}

#[test]
fn a_floppy_strip_is_free() {
    // Three walls over the fold leave the ridges undetermined: two strips'
    // worth of creases, and a chain of six has more than one way to move.
    let mut assembly = card(150.0, 120.0);
    let (facet, hinge) = tent(
        &mut assembly,
        foot(LEFT, 60.0),
        foot(RIGHT, 50.0),
        [50.0, 60.0],
        [30.0, 90.0],
    );
    // Crease the left wall once more, halfway.
    let corners = |from: f64, to: f64| vec![[from, 30.0], [to, 30.0], [to, 90.0], [from, 90.0]];
    assembly.facets[facet + 1].corners = corners(0.0, 25.0);
    assembly.facets.push(foldwright_engine::motion::Facet {
        corners: corners(25.0, 50.0),
        holes: Vec::new(),
    });
    let new = assembly.facets.len() - 1;
    assembly.hinges[hinge + 1].facets = [new, facet + 2];
    assembly.hinges.push(Hinge {
        facets: [facet + 1, new],
        axis: [[25.0, 30.0], [25.0, 90.0]],
        sense: Sense::Mountain,
        folded: false,
    });
    let opening = open(&assembly);
    let free = opening
        .findings
        .iter()
        .filter(|finding| matches!(finding, Finding::Free { .. }))
        .count();
    assert_eq!(free, 4, "all but the main fold: {:?}", opening.findings);
    for pose in moments(&opening) {
        assert_whole(&assembly, &pose, CLOSE);
    }
}
