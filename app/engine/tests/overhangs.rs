//! Layers that reach past the panel that carries them.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

mod strips;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::length::{Length, Step};
use foldwright_engine::problem::Weight;
use foldwright_engine::recipe::{
    Bond, Face, LayerId, LayerKind, OnTop, PanelId, Place, Recipe, Runs, Seat, Side, Stacked,
};
use foldwright_engine::show::{Part, View, shown};
use strips::strip;

fn mm(length: i64) -> Length {
    Length::mm(length)
}

/// Puts a piece of paper on a face, its left lower corner so far from the
/// face's; not glued past its panel.
fn put_on(
    recipe: &mut Recipe,
    panel: u32,
    side: Side,
    low: [i64; 2],
    measures: [i64; 2],
) -> LayerId {
    let on = Seat::Face(Face {
        panel: PanelId(panel),
        side,
    });
    let id = recipe
        .add_layer(on, LayerKind::Focal)
        .expect("there is room")
        .id;
    recipe
        .place_layer(id, Place::Distances)
        .expect("it is there");
    let layer = recipe.layer(id).expect("it is there");
    let kept = [layer.width, layer.height, layer.left, layer.bottom];
    for (measure, value) in kept.into_iter().zip(measures.into_iter().chain(low)) {
        recipe.set(measure, mm(value)).expect("nothing holds it");
    }
    let layer = recipe.layers.iter_mut().find(|layer| layer.id == id);
    layer.expect("it is there").bond = Bond::Safe;
    id
}

fn stops(card: &Card) -> Vec<&str> {
    let stops = card.problems.iter().filter(|it| it.weight == Weight::Stop);
    stops.map(|problem| problem.what.as_str()).collect()
}

/// Two leaves that meet in the middle, 40 mm each, over a back of 80 mm.
fn gate() -> Recipe {
    let mut recipe = strip(&[mm(40), mm(80), mm(40)], mm(100), "VV", 1, Runs::Across);
    recipe.notation.step = Step::Millimetre;
    recipe
}

/// A seal glued to one leaf of a gate lies over the other leaf (common
/// practice), whichever leaf carries it.
#[test]
fn a_seal_lies_over_both_leaves() {
    for (leaf, left) in [(0, 20), (2, -20)] {
        let mut recipe = gate();
        let seal = put_on(&mut recipe, leaf, Side::B, [left, 40], [40, 20]);
        let card = work_out(&recipe, &Tools::default());
        assert_eq!(stops(&card), [""; 0]);
        let closed = &card.folded.as_ref().expect("it folds").states[0];
        let shown = shown(closed, View::Front, &card.laid.layers, &card.readings);
        assert_eq!(shown[0].part, Part::Layer(seal), "on leaf {leaf}");
        let whole = shown[0].region.bounds().expect("it shows").size();
        assert_eq!([whole.width, whole.height], [mm(40), mm(20)]);
        // Its leaf opens first, or the other one would tear it off.
        let states = &card.folded.as_ref().expect("it folds").states;
        let first = states[1].score().expect("a score opens");
        assert_eq!(first, usize::from(leaf != 0));
    }
}

/// In a letter fold, the last panel lies inside the other two; what it carries
/// must stay clear of the fold between them.
#[test]
fn a_layer_that_reaches_into_a_fold_is_named() {
    let mut recipe = strip(&[mm(60), mm(60), mm(57)], mm(90), "VV", 1, Runs::Across);
    recipe.notation.step = Step::Millimetre;
    let [upper, lower] = [0, 2].map(|panel| Stacked::Panel(PanelId(panel)));
    recipe.base.on_top.push(OnTop { upper, lower });
    // Seen from outside, the free edge of the last panel is on the left.
    let tag = put_on(&mut recipe, 2, Side::B, [-10, 30], [40, 20]);
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(stops(&card), ["Focal piece keeps the card from closing."]);
    assert!(card.folded.expect("it folds without").answers_kept);
    let left = recipe.layer(tag).expect("it is there").left;
    recipe.set(left, mm(-2)).expect("nothing holds it");
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(
        stops(&card),
        [""; 0],
        "it reaches to the fold and no further"
    );
}
