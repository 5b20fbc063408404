//! Windows, rounded corners and shaped edges of the strip, from the recipe to
//! the closed card. Areas are worked out by hand from plane geometry.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use std::f64::consts::PI;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::faces::{Part, View, shown};
use foldwright_engine::length::Length;
use foldwright_engine::pattern::{Fault, LineKind};
use foldwright_engine::plane::{Area, FLAT_WITHIN, PieceFrame, Point};
use foldwright_engine::problem::{
    CutoutFinding, Finding, GlueFinding, PatternFinding, Place, Weight,
};
use foldwright_engine::recipe::{
    Bend, Bond, Cut, CutoutId, EdgeForm, EdgeSide, Face, Fold, LayerKind, Outline, OutlineKind,
    PanelId, Placing, Recipe, Runs, Seat, Shaped, Side, StripId, Which, read, write,
};
use foldwright_engine::steps::{Figure, Instruction, Label, Title, Value, steps};
use plain::Plain;
use proptest::prelude::*;
use strips::strip;

/// A strip of two panels of 100 × 150 mm: the front folds onto the back.
fn book() -> Recipe {
    let mm = Length::mm;
    strip(&[mm(100), mm(100)], mm(150), "V", 1, Runs::Across)
}

const FRONT: PanelId = PanelId(0);
const BACK: PanelId = PanelId(1);

fn card(recipe: &Recipe) -> Card {
    work_out(recipe, &Tools::default())
}

fn square_mm(area: Area) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "an area of a card in a test")]
    let area = area as f64;
    area / 72_000.0 / 72_000.0
}

/// Slivers between arcs and what stands for them, at most the tolerance wide.
fn near(found: f64, exact: f64, outline: f64) -> bool {
    (found - exact).abs() <= outline * FLAT_WITHIN.as_mm_f64() + 1e-6
}

fn panel_area(card: &Card, panel: PanelId) -> f64 {
    let place = card.laid.index_of(panel).expect("it is there");
    square_mm(card.laid.panels[place].facet.region().area())
}

fn seen(card: &Card, view: View, part: Part) -> f64 {
    let closed = &card.folded.as_ref().expect("it folds").states[0];
    let seen = shown(closed, view, &card.laid.layers, &card.readings);
    let parts = seen.iter().filter(|it| it.part == part);
    parts.map(|it| square_mm(it.region.area())).sum()
}

fn said(card: &Card) -> Vec<(Weight, CutoutFinding)> {
    let problems = card.problems.iter();
    let cutouts = problems.filter(|it| matches!(it.place, Place::Cutout(_)));
    cutouts
        .map(|it| match it.finding {
            Finding::Cutout { is, .. } => (it.weight, is),
            _ => unreachable!("a cutout has no other: {it:?}"),
        })
        .collect()
}

fn stops(card: &Card) -> Vec<Finding> {
    let stops = card.problems.iter().filter(|it| it.weight == Weight::Stop);
    stops.map(|problem| problem.finding.clone()).collect()
}

fn face(panel: PanelId, side: Side) -> Face {
    Face { panel, side }
}

fn window(recipe: &mut Recipe, panel: PanelId) -> CutoutId {
    recipe.add_window(panel, &Plain).expect("there is room").id
}

fn window_size(recipe: &mut Recipe, id: CutoutId, width: i64, height: i64) {
    let window = recipe.cutout(id).and_then(|it| it.cut.window()).cloned();
    let window = window.expect("it is a window");
    recipe.set(window.width, Length::mm(width)).expect("free");
    recipe.set(window.height, Length::mm(height)).expect("free");
}

/// Through a round window 60 mm across in the front, that much of the inside of
/// the back is seen.
#[test]
fn a_round_window_shows_what_lies_behind_it() {
    let mut recipe = book();
    let id = window(&mut recipe, FRONT);
    window_size(&mut recipe, id, 60, 60);
    recipe
        .shape(Shaped::Window(id), OutlineKind::Round, &Plain)
        .expect("it is there");
    let card = card(&recipe);
    assert_eq!(stops(&card), []);
    let round = PI * 30.0 * 30.0;
    assert!(near(panel_area(&card, FRONT), 15_000.0 - round, 189.0));
    let through = seen(&card, View::Front, Part::Face(face(BACK, Side::A)));
    assert!(near(through, round, 189.0), "{through}");
    assert_eq!(card.laid.base.holes.len(), 1);
    assert_eq!(card.laid.base.waste.len(), 1);
    assert!(near(
        square_mm(card.laid.base.waste[0].region().area()),
        round,
        189.0
    ));
    // Centred, the window stays in the middle of a wider panel.
    let hole = card.laid.base.holes[0].bounds().expect("it has corners");
    assert_eq!(hole.low, Point::new(Length::mm(20), Length::mm(45)));
    assert_eq!(hole.high, Point::new(Length::mm(80), Length::mm(105)));
}

/// 80 × 130 mm out of a panel of 100 × 150 mm leave less than they take, and
/// the frame is still the panel.
#[test]
fn a_frame_keeps_the_name_of_its_panel() {
    let mut recipe = book();
    let id = window(&mut recipe, BACK);
    recipe.border_window(id, &Plain).expect("it gets a border");
    let Some(Placing::Border(border)) = recipe
        .cutout(id)
        .and_then(|it| it.cut.window())
        .map(|it| it.place)
    else {
        panic!("it has an even border");
    };
    recipe.set(border, Length::mm(10)).expect("free");
    let card = card(&recipe);
    assert_eq!(stops(&card), []);
    assert!(near(panel_area(&card, BACK), 15_000.0 - 80.0 * 130.0, 0.0));
    assert!(near(panel_area(&card, FRONT), 15_000.0, 0.0));
}

/// A window over the fold takes part of the score with it, and the card still
/// folds: half of it shows on each side.
#[test]
fn a_window_over_the_fold_takes_part_of_the_score() {
    let mut recipe = book();
    let id = window(&mut recipe, FRONT);
    window_size(&mut recipe, id, 40, 50);
    recipe
        .move_window(id, (Length::mm(50), Length::ZERO))
        .expect("it is a window");
    let card = card(&recipe);
    assert_eq!(stops(&card), []);
    assert_eq!(said(&card), []);
    let open = card.laid.hinges.iter();
    let lengths: Vec<_> = open.map(|hinge| hinge.course.length()).collect();
    assert_eq!(lengths, [Length::mm(50), Length::mm(50)]);
    assert!(near(panel_area(&card, FRONT), 15_000.0 - 20.0 * 50.0, 0.0));
    assert!(near(panel_area(&card, BACK), 15_000.0 - 20.0 * 50.0, 0.0));
    let folded = card.folded.as_ref().expect("it folds");
    assert_eq!(folded.states.len(), 2);
}

#[test]
fn glue_over_a_window_is_refused() {
    let mut recipe = book();
    let id = window(&mut recipe, FRONT);
    window_size(&mut recipe, id, 60, 60);
    let on = Seat::Face(face(FRONT, Side::B));
    let layer = recipe
        .add_layer(on, LayerKind::Focal, &Plain)
        .expect("room")
        .id;
    let measures = recipe.layer(layer).expect("it was added").clone();
    recipe.set(measures.width, Length::mm(80)).expect("free");
    recipe.set(measures.height, Length::mm(80)).expect("free");
    recipe
        .place_layer(layer, Placing::Distances)
        .expect("it is there");
    recipe.set(measures.left, Length::mm(10)).expect("free");
    recipe.set(measures.bottom, Length::mm(35)).expect("free");
    recipe.glue_margin = Length::mm(3);
    let safe = card(&recipe).gluings[0].safe.clone();
    // A rim 10 mm wide, less 3 mm from both its edges, with corners rounded
    // inside by a polygon round the arc.
    let area = square_mm(safe.expect("there is a rim").area());
    let square = 74.0 * 74.0 - 66.0 * 66.0;
    assert!((square..square + 9.0).contains(&area), "{area}");
    let of = recipe.layers.iter_mut().find(|it| it.id == layer);
    let edge = Length::mm(5);
    of.expect("it is there").bond = Bond::Within {
        left: edge,
        right: edge,
        top: edge,
        bottom: edge,
    };
    let card = card(&recipe);
    let ties = Finding::Glue {
        layer,
        is: GlueFinding::Ties {
            carrier: FRONT,
            other: BACK,
        },
    };
    assert!(stops(&card).contains(&ties), "{:?}", stops(&card));
}

/// Plane geometry: rounding takes (4 − π) r² / 4 off each corner.
#[test]
fn free_corners_are_rounded_and_others_are_not() {
    for (which, corners) in [(Which::Both, 2.0), (Which::Upper, 1.0), (Which::Lower, 1.0)] {
        let mut recipe = book();
        let id = recipe.add_corners(FRONT, &Plain).expect("there is room").id;
        let Cut::Corners { radius, .. } = recipe.cutout(id).expect("it is there").cut else {
            panic!("these are corners");
        };
        recipe.set(radius, Length::mm(12)).expect("free");
        recipe
            .recut(id, |it| it.cut = Cut::Corners { radius, which })
            .expect("it is there");
        let card = card(&recipe);
        assert_eq!(stops(&card), []);
        let exact = 15_000.0 - corners * (4.0 - PI) * 144.0 / 4.0;
        assert!(near(panel_area(&card, FRONT), exact, 40.0));
        assert!(near(panel_area(&card, BACK), 15_000.0, 0.0));
    }
    // The middle one of three panels has scores on both sides.
    let mm = Length::mm;
    let mut recipe = strip(&[mm(60), mm(60), mm(60)], mm(90), "VM", 1, Runs::Across);
    recipe
        .add_corners(PanelId(1), &Plain)
        .expect("there is room");
    let card = card(&recipe);
    assert_eq!(
        said(&card),
        [(Weight::Warning, CutoutFinding::NoFreeCorner)]
    );
}

#[test]
fn edges_run_as_they_are_shaped() {
    // Plane geometry: an arc that rises by half its chord is half a circle;
    // every form 20 mm deep on the left edge, 150 mm long.
    let segment = |chord: f64, rise: f64| {
        let radius = (chord * chord / 4.0 + rise * rise) / (2.0 * rise);
        let half = ((radius - rise) / radius).acos();
        radius * radius * (half - half.sin() * half.cos())
    };
    let bend = |x, y| Bend { x, y, bow: 0 };
    let cut = EdgeForm::Cut(vec![bend(0, 0), bend(500, 1000), bend(1000, 0)]);
    for (form, taken) in [
        (EdgeForm::Arch, 150.0 * 20.0 - segment(150.0, 20.0)),
        (EdgeForm::Hollow, segment(150.0, 20.0)),
        (
            EdgeForm::Scallops(5),
            5.0 * (30.0 * 15.0 - segment(30.0, 15.0)),
        ),
        (EdgeForm::Points(3), 3.0 * 50.0 * 20.0 / 2.0),
        (cut, 150.0 * 20.0 / 2.0),
    ] {
        let mut recipe = book();
        let id = recipe
            .add_edge(FRONT, EdgeSide::Left, &Plain)
            .expect("room")
            .id;
        let Cut::Edge { depth, side, .. } = recipe.cutout(id).expect("it is there").cut else {
            panic!("this is an edge");
        };
        recipe.set(depth, Length::mm(20)).expect("free");
        let now = form.clone();
        recipe
            .recut(id, |it| {
                it.cut = Cut::Edge {
                    side,
                    form: now,
                    depth,
                }
            })
            .expect("it is there");
        for (side, other) in [(EdgeSide::Left, BACK), (EdgeSide::Right, FRONT)] {
            let panel = if side == EdgeSide::Left { FRONT } else { BACK };
            recipe
                .recut(id, |it| {
                    it.panel = panel;
                    if let Cut::Edge { side: now, .. } = &mut it.cut {
                        *now = side;
                    }
                })
                .expect("it is there");
            let card = card(&recipe);
            assert_eq!(stops(&card), [], "{form:?}");
            let found = panel_area(&card, panel);
            assert!(near(found, 15_000.0 - taken, 320.0), "{form:?}: {found}");
            assert!(near(panel_area(&card, other), 15_000.0, 0.0), "{form:?}");
            let text = write(std::slice::from_ref(&recipe));
            assert_eq!(read(&text).expect("it is sound"), [recipe.clone()]);
        }
    }
    // On the upper edge of one panel only.
    let mut recipe = book();
    recipe
        .add_edge(BACK, EdgeSide::Top, &Plain)
        .expect("there is room");
    let card = card(&recipe);
    assert_eq!(stops(&card), []);
    assert!(panel_area(&card, BACK) < 15_000.0);
    assert!(near(panel_area(&card, FRONT), 15_000.0, 0.0));
}

#[test]
fn a_score_is_no_edge() {
    let mut recipe = book();
    recipe
        .add_edge(FRONT, EdgeSide::Right, &Plain)
        .expect("it may ask");
    let card = card(&recipe);
    assert_eq!(said(&card), [(Weight::Warning, CutoutFinding::AtScore)]);
    assert!(!card.laid.base.is_cut_out);
}

#[test]
fn what_would_part_the_strip_is_said_and_not_cut() {
    let mut recipe = book();
    let id = window(&mut recipe, FRONT);
    window_size(&mut recipe, id, 20, 150);
    let card_now = card(&recipe);
    assert_eq!(said(&card_now), [(Weight::Stop, CutoutFinding::Parts)]);
    window_size(&mut recipe, id, 100, 150);
    recipe
        .move_window(id, (Length::mm(500), Length::ZERO))
        .expect("it is a window");
    assert_eq!(
        said(&card(&recipe)),
        [(Weight::Warning, CutoutFinding::Beside)]
    );
}

/// Creases and cuts that run into a window end at it, as they would at an edge.
#[test]
fn lines_may_end_at_a_window() {
    let mut recipe = book();
    let id = window(&mut recipe, BACK);
    window_size(&mut recipe, id, 40, 50);
    let at = |x, y| Point::<PieceFrame>::new(Length::mm(x), Length::mm(y));
    let line = LineKind::Crease(Fold::Valley);
    let added = recipe.add_line(StripId::Base, line, at(200, 0), at(150, 75), &Plain);
    added.expect("there is room");
    let card = card(&recipe);
    let problems = card.problems.iter();
    let outside = problems.filter(|it| {
        let Finding::Pattern { is, .. } = &it.finding else {
            return false;
        };
        matches!(is, PatternFinding::Fault(Fault::Outside { .. }))
    });
    assert_eq!(outside.count(), 0, "{:?}", stops(&card));
}

#[test]
fn steps_say_what_is_cut_out() {
    let mut recipe = book();
    let id = window(&mut recipe, BACK);
    window_size(&mut recipe, id, 40, 50);
    let corners = recipe.add_corners(FRONT, &Plain).expect("there is room").id;
    let edge = recipe.add_edge(BACK, EdgeSide::Right, &Plain);
    let edge = edge.expect("there is room").id;
    let card = card(&recipe);
    let steps = steps(&recipe, &card);
    let titles: Vec<_> = steps.iter().map(|step| step.title).collect();
    for cutout in [id, corners, edge] {
        assert!(titles.contains(&Title::CutOut(cutout)), "{titles:?}");
    }
    let window = steps.iter().find(|step| step.title == Title::CutOut(id));
    let window = window.expect("it is cut");
    // 100 mm of the front, and 30 mm to the window in the middle of the back.
    let left = Figure {
        label: Label::FromLeft,
        value: Value::Length(Length::mm(130)),
        letter: None,
    };
    assert_eq!(window.figures[0], left);
    let does = [
        Instruction::MeasureFlat(StripId::Base),
        Instruction::DrawWindow(id, BACK),
        Instruction::CutWindow(id, None),
    ];
    assert_eq!(window.does, does);
    assert!(!window.care.is_empty());
}

#[test]
fn a_panel_takes_its_windows_with_it() {
    let mut recipe = book();
    let count = recipe.measures.len();
    window(&mut recipe, FRONT);
    let id = window(&mut recipe, BACK);
    recipe
        .shape(Shaped::Window(id), OutlineKind::Rounded, &Plain)
        .expect("it is there");
    recipe
        .rename_cutout(id, "porthole", &Plain)
        .expect("it is there");
    assert!(
        recipe
            .measures
            .iter()
            .any(|it| it.name == "porthole radius")
    );
    recipe.remove_cutout(id).expect("it is there");
    recipe.remove_panel(FRONT).expect("one is left");
    assert_eq!(recipe.base.cutouts, []);
    assert_eq!(recipe.measures.len(), count - 1);
    assert_eq!(recipe.check(), []);
}

/// A mat with an even border on a panel with an arched edge and a window has
/// that edge and that window, a border away.
#[test]
fn an_even_border_follows_edges_and_windows() {
    let mut recipe = book();
    let id = window(&mut recipe, FRONT);
    window_size(&mut recipe, id, 40, 50);
    let on = Seat::Face(face(FRONT, Side::B));
    let mat = recipe
        .add_layer(on, LayerKind::Mat, &Plain)
        .expect("room")
        .id;
    let layer = recipe.layer(mat).expect("it was added").clone();
    assert_eq!(layer.outline, Outline::Follows);
    let Placing::Border(border) = layer.place else {
        panic!("it has an even border");
    };
    recipe.set(border, Length::mm(10)).expect("free");
    let card = card(&recipe);
    assert_eq!(stops(&card), []);
    let laid = card.laid.layer(mat).expect("it lies there");
    let found = square_mm(laid.region().area());
    // The hole 10 mm larger all round, with rounded corners.
    let exact = 80.0 * 130.0 - (60.0 * 70.0 - (4.0 - PI) * 100.0);
    assert!((found - exact).abs() < 8.0, "{found} {exact}");
    assert_eq!(laid.region().contours().count(), 2);
}

/// Any length a hostile file may hold.
fn any_length() -> impl Strategy<Value = Length> {
    let most = Length::LIMIT.units();
    prop_oneof![
        (-200_i64..2000).prop_map(|tenths| Length::microns(tenths * 100)),
        (-most..=most).prop_map(Length::from_units),
        Just(Length::ZERO),
    ]
}

fn any_bends() -> impl Strategy<Value = Vec<Bend>> {
    let bend = (0_u16..=1000, 0_u16..=1000, -500_i16..=500);
    let bend = bend.prop_map(|(x, y, bow)| Bend { x, y, bow });
    prop::collection::vec(bend, 0..9)
}

proptest! {
    /// Whatever is cut out of a strip or put on it, a card comes of it, and no
    /// paper is made out of nothing.
    #[test]
    fn whatever_is_cut_a_card_comes_of_it(
        kinds in prop::collection::vec((0_u8..8, 0_u8..4, 1_u8..30, any_bends()), 0..5),
        lengths in prop::collection::vec(any_length(), 60),
        outline in any_bends(),
    ) {
        let mut recipe = book();
        let given = recipe.measures.len();
        for (kind, side, count, bends) in kinds {
            let panel = if count % 2 == 0 { FRONT } else { BACK };
            let sides = [EdgeSide::Left, EdgeSide::Right, EdgeSide::Top, EdgeSide::Bottom];
            let side = sides[usize::from(side)];
            match kind {
                0..4 => {
                let id = window(&mut recipe, panel);
                let kinds = [
                    OutlineKind::Straight,
                    OutlineKind::Rounded,
                    OutlineKind::Arched,
                    OutlineKind::Round,
                ];
                let of = Shaped::Window(id);
                recipe.shape(of, kinds[usize::from(kind)], &Plain).expect("it is there");
                if count % 3 == 0 {
                    recipe.cut_shape(of, bends).expect("it is there");
                }
            }
            4 => {
                recipe.add_corners(panel, &Plain).expect("there is room");
            }
            _ => {
                let id = recipe.add_edge(panel, side, &Plain).expect("there is room").id;
                let form = match kind {
                    5 => EdgeForm::Scallops(count),
                    6 => EdgeForm::Points(count),
                    _ => EdgeForm::Cut(bends),
                };
                recipe
                    .recut(id, |it| {
                        if let Cut::Edge { form: now, .. } = &mut it.cut {
                            *now = form;
                        }
                    })
                    .expect("it is there");
            }
            }
        }
        let on = Seat::Face(face(FRONT, Side::B));
        let layer = recipe.add_layer(on, LayerKind::Focal, &Plain).expect("room").id;
        recipe.cut_shape(Shaped::Layer(layer), outline).expect("it is there");
        let mut lengths = lengths.into_iter();
        for measure in recipe.measures.iter_mut().skip(given) {
            measure.value = lengths.next().unwrap_or_default();
        }
        let card = card(&recipe);
        let sheet = 200.0 * 150.0;
        let left: f64 = card
            .laid
            .panels
            .iter()
            .map(|panel| square_mm(panel.facet.region().area()))
            .sum();
        prop_assert!(left <= sheet + 1e-6, "{left}");
        prop_assert!(!steps(&recipe, &card).is_empty());
    }
}
