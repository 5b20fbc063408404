//! How a card stands on its table, against what the geometry of simple ones gives.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

use std::f64::consts::PI;

use foldwright_engine::card::{Card, Tools, all_together, work_out};
use foldwright_engine::length::{DecimalMark, Notation, Step};
use foldwright_engine::posed::{Footing, Moment, Posed, Standing, set_down};
use foldwright_engine::recipe::{Recipe, starters};

const INCH: f64 = 25.4;
const UP: [f64; 3] = [0.0, 1.0, 0.0];
const NEAR: f64 = 1e-6;

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

/// A starting fold with every crease open by a share of a half turn, put on its
/// foot.
fn standing(id: &str, share: f64) -> Standing {
    let (recipe, card) = starter(id);
    let whole = all_together(&recipe, &card).expect("it opens");
    let posed = Posed::of_whole(&whole, share);
    set_down(&recipe, &card, &posed, UP).expect("it weighs something")
}

/// How far the centre of mass is within what it rests on; not a number where it
/// does not stand firm, and so near to none.
fn firm(standing: &Standing) -> f64 {
    match standing.footing {
        Footing::Firm(margin) => margin,
        Footing::Uncertain(_) | Footing::Tips(_) => f64::NAN,
    }
}

/// A tent of two equal legs stands on both of its feet; each leg leans by half of
/// the angle between them, and the centre of mass is half as high as the ridge.
#[test]
fn a_tent() {
    let (leg, wide) = (4.25 * INCH, 5.5 * INCH);
    for share in [0.1, 0.25, 0.5, 0.75] {
        let standing = standing("tent", share);
        let half = share * PI / 2.0;
        let foot = leg * half.sin();
        assert!((firm(&standing) - foot.min(wide / 2.0)).abs() < NEAR);
        assert!((standing.centre[2] - leg * half.cos() / 2.0).abs() < NEAR);
        assert!((standing.tipped - half).abs() < NEAR);
        assert!(matches!(standing.first, Footing::Tips(_)));
        assert_eq!(standing.rests_on.len(), 4);
    }
}

/// A zigzag of four equal panels stands on the area round its creases, a trapezium:
/// its centre of mass is half-way between the two lines that the creases lie on, and
/// as far from the slanting ends as three quarters of the way across them.
#[test]
fn a_zigzag() {
    let panel = 2.75 * INCH;
    for share in [0.1, 0.4, 0.7] {
        let standing = standing("accordion", share);
        let half = share * PI / 2.0;
        let (along, deep) = (panel * half.sin(), panel * half.cos());
        let aside = 1.5 * along * deep / panel;
        assert!((firm(&standing) - aside.min(deep / 2.0)).abs() < NEAR);
        assert!(standing.tipped < NEAR);
        assert!((standing.centre[2] - 2.75 * INCH).abs() < NEAR);
    }
}

/// A gate with its doors at right angles to its back: the doors pull the centre of
/// mass forward by the square of their width over the length of all.
#[test]
fn a_gate() {
    let (door, back) = (2.0625 * INCH, 4.25 * INCH);
    let standing = standing("gate", 0.5);
    let forward = door * door / (back + 2.0 * door);
    assert!((firm(&standing) - forward).abs() < NEAR);
}

/// A picture on a leg: the leg, the panel from its foot to the hinge, and the
/// table make a triangle, of which the cosine and sine rules give how far the panel
/// leans and where the leg stands.
#[test]
fn an_easel() {
    let (recipe, card) = starter("stand");
    let ajar = 0.2;
    let posed = Posed::at(
        &card,
        Moment {
            state: 0,
            part: ajar,
        },
    )
    .expect("its leg opens");
    let standing = set_down(&recipe, &card, &posed, UP).expect("it weighs something");
    let (wide, high) = (4.25 * INCH, 5.5 * INCH);
    let (leg, tab, leg_wide) = (3.0 * INCH, 0.75 * INCH, 2.0 * INCH);
    // The leg hangs over its tab, from where both are hinged.
    let folded = card.folded.as_ref().expect("it folds");
    let joint = card.laid.hinges.first().expect("it has a leg");
    let place = folded.states[0].poses[joint.left].place;
    let hinge = place.point(joint.course.from).y.as_mm_f64();
    let (sin, cos) = (ajar * PI).sin_cos();
    let base = (hinge * hinge + leg * leg - 2.0 * hinge * leg * cos).sqrt();
    let lean = (leg * sin / base).asin();
    // Along the panel from its foot, and behind it.
    let masses = [
        (wide * high, [high / 2.0, 0.0]),
        (tab * leg_wide, [hinge - tab / 2.0, 0.0]),
        (leg * leg_wide, [hinge - leg / 2.0 * cos, leg / 2.0 * sin]),
    ];
    let all: f64 = masses.iter().map(|(mass, _)| mass).sum();
    let centre = [0, 1].map(|i| {
        let moments = masses.iter().map(|(mass, at)| mass * at[i]);
        moments.sum::<f64>() / all
    });
    let (slope_sin, slope_cos) = lean.sin_cos();
    let behind = centre[0] * slope_cos + centre[1] * slope_sin;
    let height = centre[0] * slope_sin - centre[1] * slope_cos;
    // It rests on a trapezium from the foot of the panel to that of the leg.
    let narrows = (wide - leg_wide) / 2.0 / base;
    let aside = (wide / 2.0 - narrows * behind) / narrows.hypot(1.0);
    let margin = behind.min(base - behind).min(aside);
    assert!((standing.centre[2] - height).abs() < NEAR, "{standing:?}");
    assert!(
        (standing.tipped - (PI / 2.0 - lean)).abs() < NEAR,
        "{standing:?}"
    );
    assert!(
        (firm(&standing) - margin).abs() < NEAR,
        "{margin}: {standing:?}"
    );
}

/// A card that is quite flat balances on its edge, and nobody knows.
#[test]
fn a_flat_card_is_uncertain() {
    let standing = standing("gate", 1.0);
    assert!(
        matches!(standing.footing, Footing::Uncertain(_)),
        "{standing:?}"
    );
    assert!(standing.tipped < NEAR);
}
