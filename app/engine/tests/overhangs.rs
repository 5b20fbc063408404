//! Layers that reach past the panel that carries them.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use foldwright_engine::card::{Card, Tools, add_piece, make_fit, work_out};
use foldwright_engine::faces::{Part, View, shown};
use foldwright_engine::laid::lay_out;
use foldwright_engine::length::{Length, Step};
use foldwright_engine::pattern::LineId;
use foldwright_engine::plane::{Edge, Size};
use foldwright_engine::problem::{Finding, Past, Problem, Reach, Reacher, Weight};
use foldwright_engine::recipe::{
    Anchor, Bond, EditError, Face, LayerId, LayerKind, OnTop, PanelId, Placing, Recipe, Runs, Seat,
    Side, Stacked, starters,
};
use plain::Plain;
use proptest::prelude::{prop_assert, prop_assert_eq, proptest};
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
        .add_layer(on, LayerKind::Focal, &Plain)
        .expect("there is room")
        .id;
    recipe
        .place_layer(id, Placing::Distances)
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

fn stops(card: &Card) -> Vec<Finding> {
    let stops = card.problems.iter().filter(|it| it.weight == Weight::Stop);
    stops.map(|problem| problem.finding.clone()).collect()
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
        assert_eq!(stops(&card), []);
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
    let shut: Vec<_> = card.problems.iter().filter_map(Problem::reach).collect();
    assert_eq!(shut.len(), 1, "{shut:?}");
    assert_eq!(
        (shut[0].of, shut[0].past),
        (Reacher::Layer(tag), Past::Fold)
    );
    assert_eq!(shut[0].across, [], "no fold of its own panel shuts over it");
    assert_eq!(stops(&card).len(), 1);
    assert!(card.folded.expect("it folds without").answers_kept);
    let left = recipe.layer(tag).expect("it is there").left;
    recipe.set(left, mm(-2)).expect("nothing holds it");
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(stops(&card), [], "it reaches to the fold and no further");
}

fn card(recipe: &Recipe) -> Card {
    work_out(recipe, &Tools::default())
}

fn size(width: i64, height: i64) -> Size {
    Size {
        width: mm(width),
        height: mm(height),
    }
}

/// What reaches too far, and what is said of it.
fn only(recipe: &Recipe) -> (Reach, Problem) {
    let card = card(recipe);
    assert_eq!(card.reaches.len(), 1, "{:?}", card.reaches);
    let reach = card.reaches.first().expect("one reaches too far");
    let mut problems = card.problems.iter();
    let said = problems.find(|problem| problem.reach() == Some(reach));
    (reach.clone(), said.expect("it is said").clone())
}

/// Width, height, and distances from the left and the bottom.
fn lies(recipe: &Recipe, id: LayerId) -> [Length; 4] {
    let layer = recipe.layer(id).expect("it is there");
    [layer.width, layer.height, layer.left, layer.bottom].map(|of| recipe.value(of))
}

/// A4 in three for a letter, 100, 100 and 97 mm (design guides for three-panel
/// folders), the front over the panel folded in.
fn letter() -> Recipe {
    let mut recipe = strip(&[mm(100), mm(100), mm(97)], mm(210), "VV", 1, Runs::Across);
    recipe.notation.step = Step::Millimetre;
    let [upper, lower] = [0, 2].map(|panel| Stacked::Panel(PanelId(panel)));
    recipe.base.on_top.push(OnTop { upper, lower });
    recipe
}

/// Worked by hand: 101 × 211 mm in the middle of 100 × 210 stands out by half a
/// millimetre all round.
#[test]
fn a_mat_larger_than_the_card_is_named_and_made_to_fit() {
    let mut recipe = letter();
    let mat = put_on(&mut recipe, 0, Side::B, [0, 0], [101, 211]);
    recipe
        .place_layer(mat, Placing::At(Anchor::Centre))
        .expect("it is there");
    let (reach, said) = only(&recipe);
    assert_eq!(reach.of, Reacher::Layer(mat));
    assert_eq!(reach.past, Past::Card);
    let half = Length::hundredths_mm(50);
    let all = [Edge::Left, Edge::Right, Edge::Top, Edge::Bottom];
    assert_eq!(reach.edges, all.map(|edge| (edge, half)));
    assert_eq!(reach.fits, Some(size(100, 210)));
    assert_eq!(card(&recipe).finished, size(101, 211));
    assert_eq!(said.weight, Weight::Warning);
    let Finding::Reach(told) = &said.finding else {
        panic!("{said:?}");
    };
    let front = Face {
        panel: PanelId(0),
        side: Side::B,
    };
    assert_eq!((told.on, told.finished), (Some(front), size(101, 211)));
    let moved = make_fit(&mut recipe, reach.of).expect("it can be cut");
    assert_eq!(lies(&recipe, mat), [100, 210, 0, 0].map(mm));
    assert_eq!(moved.len(), 4, "all that moved is told");
    assert_eq!(card(&recipe).reaches, []);
    assert_eq!(card(&recipe).finished, size(100, 210));
    let again = make_fit(&mut recipe, Reacher::Layer(mat));
    assert_eq!(again, Err(EditError::NoFit));
}

/// Worked by hand: 110 mm wide and 3 mm from the left it ends at 113 mm, 13 past
/// the edge at 100; from 3 mm on there is room for 97.
#[test]
fn a_mat_wider_than_the_card_is_cut_at_the_edge_it_passes() {
    let mut recipe = letter();
    let mat = put_on(&mut recipe, 0, Side::B, [3, 3], [110, 204]);
    let (reach, _) = only(&recipe);
    assert_eq!(reach.edges, [(Edge::Right, mm(13))]);
    assert_eq!(card(&recipe).finished, size(113, 210));
    assert_eq!(reach.fits, Some(size(97, 204)));
    make_fit(&mut recipe, reach.of).expect("it can be cut");
    assert_eq!(lies(&recipe, mat), [97, 204, 3, 3].map(mm));
    assert_eq!(card(&recipe).reaches, []);
}

/// Worked by hand, on a card of 100 × 150 mm folded at the left: inside, 4 mm
/// past the fold keep it from closing; outside, they stand out at the fold.
#[test]
fn past_a_fold_it_is_said_once_and_made_to_fit() {
    let book = || {
        let mut recipe = strip(&[mm(100); 2], mm(150), "V", 1, Runs::Across);
        recipe.notation.step = Step::Millimetre;
        recipe
    };
    let mut inside = book();
    let mat = put_on(&mut inside, 1, Side::A, [-4, 20], [80, 60]);
    let (reach, said) = only(&inside);
    assert_eq!(
        (reach.past, reach.edges.clone()),
        (Past::Fold, vec![(Edge::Left, mm(4))])
    );
    assert_eq!(reach.across, [LineId::of_score(0)]);
    assert_eq!(stops(&card(&inside)), [said.finding]);
    make_fit(&mut inside, reach.of).expect("it can be cut");
    assert_eq!(lies(&inside, mat), [76, 60, 0, 20].map(mm));

    let mut outside = book();
    put_on(&mut outside, 0, Side::B, [-4, 20], [80, 60]);
    let (reach, said) = only(&outside);
    assert_eq!(
        (reach.past, reach.edges),
        (Past::Card, vec![(Edge::Left, mm(4))])
    );
    assert_eq!(said.weight, Weight::Warning);
}

/// Worked by hand: a seal of 40 mm from 20 mm on lies 20 mm past a leaf of 40,
/// over the other one. That is a note and no more, for it may be meant so.
#[test]
fn past_its_panel_but_within_the_card_is_a_note() {
    let mut recipe = gate();
    let seal = put_on(&mut recipe, 0, Side::B, [20, 40], [40, 20]);
    let (reach, said) = only(&recipe);
    assert_eq!(
        (reach.past, reach.edges),
        (Past::Panel, vec![(Edge::Right, mm(20))])
    );
    assert_eq!(said.weight, Weight::Note);
    assert_eq!(card(&recipe).finished, size(80, 100));
    make_fit(&mut recipe, reach.of).expect("it can be cut");
    assert_eq!(lies(&recipe, seal), [20, 20, 20, 40].map(mm));
    assert_eq!(card(&recipe).reaches, []);
}

/// What is tied to the strip is not made to fit by moving the strip.
#[test]
fn the_strip_does_not_move_for_a_mat() {
    let mut recipe = letter();
    let mat = put_on(&mut recipe, 0, Side::B, [0, 0], [101, 200]);
    let width = recipe.layer(mat).expect("it is there").width;
    recipe
        .tie_apart(width, strips::panel(0))
        .expect("it can be tied");
    let before = recipe.clone();
    let made = make_fit(&mut recipe, Reacher::Layer(mat));
    assert_eq!(made, Err(EditError::NoFit));
    assert_eq!(recipe, before);
}

/// Worked by hand in inches: a flap from 9 5/8 to the left, 3 7/8 wide, ends at
/// 5 3/4, 1 1/4 past the panel that begins at 7; 2 5/8 would fit.
#[test]
fn a_flap_that_sticks_out_is_named_and_made_to_fit() {
    let inches = |eighths: i64| Length::sixty_fourths(8 * eighths);
    let mut recipe = strip(&[inches(28); 3], inches(44), "VM", 2, Runs::Across);
    let on = Face {
        panel: PanelId(2),
        side: Side::A,
    };
    let piece = add_piece(&mut recipe, on, &Plain)
        .expect("there is room")
        .id;
    assert_eq!(card(&recipe).reaches, [], "a new one fits");
    let flap = recipe.piece(piece).expect("it is there").strip.panels[1].clone();
    assert_eq!(recipe.value(flap.width), inches(14));
    recipe
        .set(flap.width, inches(31))
        .expect("nothing holds it");
    let (reach, said) = only(&recipe);
    assert_eq!(reach.of, Reacher::Panel(flap.id));
    assert_eq!(reach.edges, [(Edge::Left, inches(10))]);
    assert_eq!(said.weight, Weight::Warning);
    let fits = Size {
        width: inches(21),
        height: inches(22),
    };
    assert_eq!(reach.fits, Some(fits));
    make_fit(&mut recipe, reach.of).expect("it can be cut");
    assert_eq!(recipe.value(flap.width), inches(21));
    assert_eq!(card(&recipe).reaches, []);
}

/// A new piece lies within the rectangle it is put on, whatever panel that is,
/// and a strip with it can be made as without.
#[test]
fn a_new_piece_sticks_out_nowhere() {
    for starter in starters() {
        let recipe = &starter.recipe;
        let is_strip = recipe.base.lines.is_empty() && recipe.pieces.is_empty();
        let before = stops(&card(recipe)).len();
        for panel in &lay_out(recipe).panels {
            if panel.facet.outline.as_rectangle().is_none() {
                continue;
            }
            for side in [Side::A, Side::B] {
                let mut with = recipe.clone();
                let panel = panel.id;
                add_piece(&mut with, Face { panel, side }, &Plain).expect("there is room");
                let card = card(&with);
                let what = format!("{} on {panel:?} {side:?}", starter.id);
                assert!(card.reaches.iter().all(|it| it.past < Past::Card), "{what}");
                if is_strip {
                    assert!(card.folded.is_some(), "{what}");
                    assert_eq!(stops(&card).len(), before, "{what}: {:?}", stops(&card));
                }
            }
        }
    }
}

proptest! {
    /// On the front of a folded card each edge is passed by what is left when
    /// the card's own is taken off, and what was made to fit is what both have
    /// in common.
    #[test]
    fn edges_are_passed_by_the_difference(
        left in -30_i64..90, bottom in -30_i64..140, width in 20_i64..160, height in 20_i64..220,
    ) {
        let mut recipe = strip(&[mm(100); 2], mm(150), "V", 1, Runs::Across);
        recipe.notation.step = Step::Millimetre;
        let id = put_on(&mut recipe, 0, Side::B, [left, bottom], [width, height]);
        let past = [-left, left + width - 100, bottom + height - 150, -bottom];
        let edges = [Edge::Left, Edge::Right, Edge::Top, Edge::Bottom];
        let expected: Vec<_> = edges
            .into_iter()
            .zip(past.map(mm))
            .filter(|(_, by)| *by > Length::ZERO)
            .collect();
        let found = card(&recipe).reaches;
        prop_assert_eq!(found.first().map_or(Vec::new(), |it| it.edges.clone()), expected);
        if let Some(reach) = found.first() {
            prop_assert_eq!(reach.past, Past::Card);
            let common = [
                (left + width).min(100) - left.max(0),
                (bottom + height).min(150) - bottom.max(0),
                left.max(0),
                bottom.max(0),
            ];
            let made = make_fit(&mut recipe, reach.of);
            if common[0] > 0 && common[1] > 0 {
                prop_assert!(made.is_ok());
                prop_assert_eq!(lies(&recipe, id), common.map(mm));
            } else {
                prop_assert!(made.is_err());
            }
        }
    }
}
