//! How glued cards open, against closed forms.
//!
//! Sources: plane geometry of the parallelogram and of the four-bar linkage;
//! the sine and cosine rules of spherical trigonometry, and the rule of paper
//! engineers that opposite lengths (angles) of a pop-up add up equally, both
//! from memory and derived where they are used.

mod cards;
mod findings;
mod garbage;
mod relations;

use foldwright_engine::motion::{Assembly, Finding, Opening, Pose, Rigid, Vector};

/// Largest difference from a closed form, in radians or millimetres.
const CLOSE: f64 = 1e-6;

#[expect(clippy::expect_used, reason = "what fails here fails its test")]
fn open(assembly: &Assembly) -> Opening {
    Opening::of(assembly).expect("sound facets, root and main fold")
}

/// What a maker has to hear of, without the hinges that are merely free.
fn troubles(opening: &Opening) -> Vec<&Finding> {
    opening
        .findings
        .iter()
        .filter(|finding| !matches!(finding, Finding::Free { .. }))
        .collect()
}

/// Ten poses inside the opening and both its ends.
fn moments(opening: &Opening) -> Vec<Pose> {
    (0..=11)
        .map(|step| opening.pose_at(f64::from(step) / 11.0))
        .collect()
}

fn distance(a: Vector, b: Vector) -> f64 {
    (0..3)
        .map(|way| (a[way] - b[way]).powi(2))
        .sum::<f64>()
        .sqrt()
}

/// Creases and glue hold together, facets stay rigid: judged from the
/// placements alone.
fn assert_whole(assembly: &Assembly, pose: &Pose, within: f64) {
    for lay in &pose.facets {
        for (i, a) in lay.turn.iter().enumerate() {
            for (j, b) in lay.turn.iter().enumerate() {
                let product: f64 = (0..3).map(|way| a[way] * b[way]).sum();
                let expected = if i == j { 1.0 } else { 0.0 };
                assert!((product - expected).abs() < 1e-12, "sheared: {lay:?}");
            }
        }
    }
    let placed = |lay: &Rigid, at: [f64; 2]| lay.point([at[0], at[1], 0.0]);
    for (place, hinge) in assembly.hinges.iter().enumerate() {
        for end in hinge.axis {
            let [a, b] = hinge.facets.map(|facet| placed(&pose.facets[facet], end));
            let off = distance(a, b);
            assert!(
                off < within,
                "hinge {place} torn by {off} at {}",
                pose.share
            );
        }
        // The angle told is the angle between the facets.
        let [a, b] = hinge.facets.map(|facet| pose.facets[facet].turn[2]);
        let cosine: f64 = (0..3).map(|way| a[way] * b[way]).sum();
        let told = pose.angles[place].cos();
        assert!(
            (cosine - told).abs() < 1e-6,
            "hinge {place} told {told}, is {cosine}"
        );
    }
    for (place, bond) in assembly.bonds.iter().enumerate() {
        let lay = pose.facets[bond.on].after(&bond.lay.in_space());
        for corner in &assembly.facets[bond.part].corners {
            let off = distance(
                placed(&lay, *corner),
                placed(&pose.facets[bond.part], *corner),
            );
            assert!(off < within, "bond {place} torn by {off}");
        }
    }
}
