//! Round, arched and die-cut outlines of layers: their areas against formulas
//! of plane geometry, and what they do to glue, mass, steps and files.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

#[path = "common/naming.rs"]
mod plain;

use std::f64::consts::PI;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::draw::{cut_layer, svg};
use foldwright_engine::faces::{Part, View, shown};
use foldwright_engine::length::Length;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::plane::{Area, FLAT_WITHIN, PieceFrame, Point, Segment, arc};
use foldwright_engine::problem::{Finding, OutlineFinding, Place, Weight};
use foldwright_engine::recipe::Placing as Placed;
use foldwright_engine::recipe::{
    Bend, Bond, Die, Face, Fold, LayerId, LayerKind, Outline, OutlineKind, PanelId, Recipe, Seat,
    Shaped, Side, StripId, read, starters, write,
};
use foldwright_engine::steps::{Caption, Form, Instruction, StepKey, steps};
use plain::Plain;
use proptest::prelude::*;

/// A card like a book with one layer on its front, 80 × 100 mm.
fn with_layer(kind: OutlineKind) -> (Recipe, LayerId) {
    let mut recipe = book();
    let id = layer_on_front(&mut recipe, LayerKind::Focal);
    let layer = recipe.layer(id).expect("it was added").clone();
    recipe.set(layer.width, Length::mm(80)).expect("free");
    recipe.set(layer.height, Length::mm(100)).expect("free");
    recipe
        .shape(Shaped::Layer(id), kind, &Plain)
        .expect("it is there");
    (recipe, id)
}

fn book() -> Recipe {
    let book = starters()
        .iter()
        .find(|it| it.id == "book")
        .expect("it is there");
    let mut recipe = book.recipe.clone();
    recipe.layers.clear();
    recipe
}

fn layer_on_front(recipe: &mut Recipe, kind: LayerKind) -> LayerId {
    let front = Seat::Face(Face {
        panel: PanelId(1),
        side: Side::B,
    });
    recipe
        .add_layer(front, kind, &Plain)
        .expect("there is room")
        .id
}

fn card(recipe: &Recipe) -> Card {
    work_out(recipe, &Tools::default())
}

fn square_mm(area: Area) -> f64 {
    let unit = Length::mm(1).as_mm_f64() * 72_000.0;
    #[expect(clippy::cast_precision_loss, reason = "an area of a card in a test")]
    let area = area as f64;
    area / unit / unit
}

fn area_of(recipe: &Recipe, id: LayerId) -> f64 {
    let card = card(recipe);
    square_mm(card.laid.layer(id).expect("it lies there").region().area())
}

/// Sets the one measure of a layer's outline.
fn set_outline(recipe: &mut Recipe, id: LayerId, to: Length) {
    let measure = recipe.layer(id).and_then(|layer| layer.outline.measure());
    recipe
        .set(measure.expect("it has one"), to)
        .expect("it is free");
}

/// A chord of an arc of radius r over the angle a leaves a sliver of at most
/// chord × its height of the arc out; all slivers together are at most the
/// length of the outline times the tolerance.
fn near(found: f64, exact: f64, outline: f64) -> bool {
    let within = outline * FLAT_WITHIN.as_mm_f64();
    (found - exact).abs() <= within
}

/// Plane geometry: four rounded corners take (4 − π) r² off a rectangle.
#[test]
fn rounded_corners_take_their_squares_less_a_circle() {
    let (mut recipe, id) = with_layer(OutlineKind::Rounded);
    for radius in [1, 5, 17, 40] {
        set_outline(&mut recipe, id, Length::mm(radius));
        let radius = f64::from(i32::try_from(radius).expect("small"));
        let exact = 80.0 * 100.0 - (4.0 - PI) * radius * radius;
        assert!(near(area_of(&recipe, id), exact, 2.0 * PI * radius));
    }
}

/// Plane geometry: an ellipse of half axes a and b has the area π a b.
#[test]
fn an_oval_has_the_area_of_an_ellipse() {
    let (mut recipe, id) = with_layer(OutlineKind::Round);
    let found = area_of(&recipe, id);
    assert!(near(found, PI * 40.0 * 50.0, 2.0 * PI * 50.0), "{found}");
    let height = recipe.layer(id).expect("it is there").height;
    recipe.set(height, Length::mm(80)).expect("it is free");
    let found = area_of(&recipe, id);
    assert!(near(found, PI * 40.0 * 40.0, 2.0 * PI * 40.0), "{found}");
    // It touches all four sides of its rectangle.
    let card = card(&recipe);
    let laid = card.laid.layer(id).expect("it lies there");
    assert_eq!(laid.region().bounds(), Some(laid.at));
}

/// Plane geometry: a segment of a circle of radius r over the angle 2 φ has the
/// area r² (φ − sin φ cos φ).
#[test]
fn an_arch_is_a_segment_of_a_circle() {
    let (mut recipe, id) = with_layer(OutlineKind::Arched);
    for rise in [5.0, 20.0, 40.0_f64] {
        #[expect(clippy::cast_possible_truncation, reason = "a whole number")]
        let set = Length::mm(rise as i64);
        set_outline(&mut recipe, id, set);
        let radius = (40.0 * 40.0 + rise * rise) / (2.0 * rise);
        let half = ((radius - rise) / radius).acos();
        let segment = radius * radius * (half - half.sin() * half.cos());
        let exact = 80.0 * (100.0 - rise) + segment;
        assert!(near(area_of(&recipe, id), exact, 2.0 * half * radius));
    }
}

/// What is asked for rounder than there is room for is drawn as round as there
/// is, and said.
#[test]
fn rounder_than_there_is_room_for_is_said() {
    for kind in [OutlineKind::Rounded, OutlineKind::Arched] {
        let (mut recipe, id) = with_layer(kind);
        set_outline(&mut recipe, id, Length::mm(41));
        let card = card(&recipe);
        let said = card
            .problems
            .iter()
            .filter(|it| it.place == Place::Layer(id));
        let said: Vec<_> = said.collect();
        assert_eq!(said.len(), 1, "{said:?}");
        assert_eq!(said[0].weight, Weight::Warning);
        let round = OutlineFinding::TooRound(Shaped::Layer(id));
        assert_eq!(said[0].finding, Finding::Outline(round));
    }
}

#[test]
fn every_die_is_sound_and_fills_its_rectangle() {
    for die in Die::ALL {
        let (mut recipe, id) = with_layer(OutlineKind::Cut);
        let height = recipe.layer(id).expect("it is there").height;
        recipe.set(height, Length::mm(80)).expect("free");
        recipe
            .cut_shape(Shaped::Layer(id), die.bends())
            .expect("it is there");
        assert_eq!(recipe.check(), [], "{die:?}");
        let card = card(&recipe);
        let stops = card.problems.iter().filter(|it| it.weight == Weight::Stop);
        assert_eq!(stops.count(), 0, "{die:?}");
        let laid = card.laid.layer(id).expect("it lies there");
        let round = laid.region().bounds().expect("it is not empty");
        let off = [
            round.low.x - laid.at.low.x,
            laid.at.high.x - round.high.x,
            round.low.y - laid.at.low.y,
            laid.at.high.y - round.high.y,
        ];
        let most = Length::mm(3);
        assert!(
            off.iter().all(|off| (Length::ZERO..most).contains(off)),
            "{die:?}: {off:?}"
        );
    }
}

#[test]
fn an_outline_that_crosses_itself_is_said_and_drawn_as_a_rectangle() {
    let (mut recipe, id) = with_layer(OutlineKind::Cut);
    let at = |x, y| Bend { x, y, bow: 0 };
    let bow_tie = vec![at(0, 0), at(1000, 1000), at(1000, 0), at(0, 1000)];
    recipe
        .cut_shape(Shaped::Layer(id), bow_tie)
        .expect("it is there");
    let card = card(&recipe);
    let said = card
        .problems
        .iter()
        .find(|it| it.weight == Weight::Stop)
        .expect("it is said");
    assert_eq!(said.place, Place::Layer(id));
    let crossed = OutlineFinding::Crossed(Shaped::Layer(id));
    assert_eq!(said.finding, Finding::Outline(crossed));
    assert_eq!(card.laid.layer(id).expect("it lies there").shape, None);
}

/// Common practice: a round layer carries glue a margin inside its round edge.
#[test]
fn glue_stays_a_margin_inside_a_round_edge() {
    let (mut recipe, id) = with_layer(OutlineKind::Round);
    let layer = recipe.layer(id).expect("it is there").clone();
    recipe.set(layer.height, Length::mm(80)).expect("free");
    recipe.glue_margin = Length::mm(5);
    let card_now = card(&recipe);
    let gluing = &card_now.gluings[0];
    let safe = gluing.safe.as_ref().expect("there is room");
    let found = square_mm(safe.area());
    assert!(near(found, PI * 35.0 * 35.0, 2.0 * PI * 40.0), "{found}");
    assert!(!gluing.refused);
    // Glue in a rectangle stays on the round back.
    let layer = recipe.layers.iter_mut().find(|it| it.id == id);
    let zero = Length::ZERO;
    layer.expect("it is there").bond = Bond::Within {
        left: zero,
        right: zero,
        top: zero,
        bottom: zero,
    };
    let card = card(&recipe);
    let gluing = &card.gluings[0];
    let wanted = gluing.wanted.as_ref().expect("it is asked for");
    assert!(!gluing.refused);
    assert!(near(square_mm(wanted.area()), PI * 1600.0, 2.0 * PI * 40.0));
}

#[test]
fn what_shows_and_what_it_weighs_go_by_the_outline() {
    let (mut recipe, id) = with_layer(OutlineKind::Straight);
    let straight = card(&recipe);
    recipe
        .shape(Shaped::Layer(id), OutlineKind::Round, &Plain)
        .expect("it is there");
    let round = card(&recipe);
    assert!(round.mass < straight.mass);
    for (card, exact) in [(&straight, 8000.0), (&round, PI * 2000.0)] {
        let closed = &card.folded.as_ref().expect("it folds").states[0];
        let seen = shown(closed, View::Front, &card.laid.layers, &card.readings);
        let layer = seen.iter().find(|it| it.part == Part::Layer(id));
        let area = square_mm(layer.expect("it shows").region.area());
        assert!(near(area, exact, 2.0 * PI * 50.0), "{area}");
    }
}

#[test]
fn steps_say_how_the_outline_is_cut() {
    for kind in [
        OutlineKind::Rounded,
        OutlineKind::Round,
        OutlineKind::Arched,
        OutlineKind::Cut,
    ] {
        let (recipe, id) = with_layer(kind);
        let card = card(&recipe);
        let outline = &recipe.layer(id).expect("it is there").outline;
        let measure = outline.measure().map(|of| recipe.value(of));
        let size = card.laid.layer(id).expect("it lies").at.size();
        let form = match kind {
            OutlineKind::Rounded => Form::Rounded(measure.expect("a radius")),
            OutlineKind::Round => Form::Oval(size),
            OutlineKind::Arched => Form::Arched(measure.expect("a rise")),
            _ => Form::Drawn,
        };
        let steps = steps(&recipe, &card);
        let key = StepKey::Cut(foldwright_engine::part::Part::Layer(id));
        let cut = steps
            .iter()
            .find(|step| step.key == key)
            .expect("it is cut");
        let does = [
            Instruction::RectangleFirst(id),
            Instruction::Shape(id, form),
        ];
        assert!(cut.does.ends_with(&does), "{:?}", cut.does);
        assert!(cut.pictures.iter().any(|it| it.caption == Caption::Outline));
        let drawn = svg(&cut_layer(&recipe, &card, id), "piece", &|_| None).inside();
        assert!(drawn.contains("edged"), "{drawn}");
    }
}

#[test]
fn a_file_keeps_outlines_and_refuses_unsound_ones() {
    for kind in [
        OutlineKind::Straight,
        OutlineKind::Rounded,
        OutlineKind::Round,
        OutlineKind::Arched,
        OutlineKind::Cut,
        OutlineKind::Follows,
    ] {
        let (recipe, _) = with_layer(kind);
        let text = write(std::slice::from_ref(&recipe));
        assert_eq!(read(&text).expect("it is sound"), [recipe]);
    }
    let (mut recipe, id) = with_layer(OutlineKind::Cut);
    let beyond = vec![
        Bend {
            x: 1001,
            y: 0,
            bow: 0
        };
        3
    ];
    recipe
        .cut_shape(Shaped::Layer(id), beyond)
        .expect("the file is what refuses it");
    assert!(read(&write(&[recipe])).is_err());
}

#[test]
fn a_layer_keeps_no_measure_of_an_outline_it_had() {
    let (mut recipe, id) = with_layer(OutlineKind::Straight);
    let count = recipe.measures.len();
    for kind in [
        OutlineKind::Rounded,
        OutlineKind::Arched,
        OutlineKind::Round,
    ] {
        recipe
            .shape(Shaped::Layer(id), kind, &Plain)
            .expect("it is there");
    }
    assert_eq!(recipe.measures.len(), count);
}

/// A mat on a mat with an even border: the round one gives a round one.
#[test]
fn an_even_border_follows_a_round_layer() {
    let (mut recipe, id) = with_layer(OutlineKind::Round);
    let height = recipe.layer(id).expect("it is there").height;
    recipe.set(height, Length::mm(80)).expect("free");
    let mat = recipe
        .add_layer(Seat::Layer(id), LayerKind::Mat, &Plain)
        .expect("there is room")
        .id;
    let layer = recipe.layer(mat).expect("it was added");
    assert_eq!(layer.outline, Outline::Follows);
    let Placed::Border(border) = layer.place else {
        panic!("it has an even border");
    };
    recipe.set(border, Length::mm(4)).expect("free");
    let found = area_of(&recipe, mat);
    assert!(near(found, PI * 36.0 * 36.0, 2.0 * PI * 40.0), "{found}");
    recipe.set(border, Length::mm(40)).expect("free");
    let card = card(&recipe);
    let stops = card.problems.iter().filter(|it| it.weight == Weight::Stop);
    let stops: Vec<_> = stops.map(|it| it.finding.clone()).collect();
    let no_room = Finding::Outline(OutlineFinding::NoRoom(mat));
    assert!(stops.contains(&no_room), "{stops:?}");
}

/// What lies on a layer lies where it is told from that layer's own edges, also
/// where these follow what is under it.
#[test]
fn what_lies_on_a_following_layer_goes_with_it() {
    let mut recipe = book();
    let front = PanelId(1);
    recipe.add_corners(front, &Plain).expect("there is room");
    let mat = layer_on_front(&mut recipe, LayerKind::Mat);
    assert!(recipe.layer(mat).expect("it was added").follows());
    let top = recipe
        .add_layer(Seat::Layer(mat), LayerKind::Focal, &Plain)
        .expect("there is room")
        .id;
    recipe
        .place_layer(top, Placed::Distances)
        .expect("it is there");
    recipe
        .shape(Shaped::Layer(top), OutlineKind::Round, &Plain)
        .expect("it is there");
    let layer = recipe.layer(top).expect("it was added").clone();
    recipe.set(layer.left, Length::mm(7)).expect("free");
    recipe.set(layer.bottom, Length::mm(9)).expect("free");
    let Placed::Border(border) = recipe.layer(mat).expect("it was added").place else {
        panic!("it has an even border");
    };
    for width in [3, 8] {
        recipe.set(border, Length::mm(width)).expect("free");
        let card = card(&recipe);
        let laid = card.laid.layer(top).expect("it lies there");
        let from = Length::mm(width);
        assert_eq!(
            laid.at.low,
            Point::new(from + Length::mm(7), from + Length::mm(9))
        );
        assert_eq!(laid.region().bounds(), Some(laid.at));
    }
}

/// Plane geometry: a triangle less an even border is a smaller triangle of the
/// same angles, its inner circle smaller by the border; a right angle between
/// sides a and b has the inner radius (a + b − c) / 2.
#[test]
fn an_even_border_follows_the_edges_of_a_part() {
    let mut recipe = book();
    let at = |x, y| Point::<PieceFrame>::new(Length::mm(x), Length::mm(y));
    // Cuts a corner of 30 × 40 mm from the front, to be folded in.
    let line = LineKind::Crease(Fold::Valley);
    recipe
        .add_line(StripId::Base, line, at(0, 40), at(30, 0), &Plain)
        .expect("there is room");
    let now = card(&recipe);
    let smallest = now
        .laid
        .panels
        .iter()
        .min_by_key(|panel| panel.facet.twice_area())
        .expect("there are panels");
    assert!(smallest.id.part_number() > 0);
    for side in [Side::A, Side::B] {
        let on = Seat::Face(Face {
            panel: smallest.id,
            side,
        });
        let mat = recipe
            .add_layer(on, LayerKind::Mat, &Plain)
            .expect("room")
            .id;
        let border = match recipe.layer(mat).expect("it was added").place {
            Placed::Border(border) => border,
            other => panic!("{other:?}"),
        };
        recipe.set(border, Length::mm(3)).expect("free");
        for outline in [Outline::Follows, Outline::Straight] {
            let layer = recipe.layers.iter_mut().find(|it| it.id == mat);
            layer.expect("it was added").outline = outline;
            let inner = (30.0 + 40.0 - 50.0) / 2.0;
            let share = (inner - 3.0) / inner;
            let found = area_of(&recipe, mat);
            let exact = 600.0 * share * share;
            assert!((found - exact).abs() < 0.01, "{found} {exact}");
        }
        let card = card(&recipe);
        let gluing = card.gluings.iter().find(|it| it.layer == mat);
        assert!(!gluing.expect("it is glued").refused);
    }
}

proptest! {
    /// The pieces of an arc stay within the tolerance of the circle, and its
    /// middle lies as far out as asked.
    #[test]
    fn arcs_are_flattened_within_the_tolerance(
        x in -200_i64..200,
        y in -200_i64..200,
        rise in -100_i64..100,
    ) {
        let from = Point::<PieceFrame>::new(Length::ZERO, Length::ZERO);
        let to = Point::new(Length::mm(x), Length::mm(y));
        let long = Segment::new(from, to).length();
        let rise = Length::mm(rise);
        prop_assume!(long > Length::mm(1) && rise.abs() > Length::mm(1));
        let between = arc(from, to, rise);
        let all: Vec<_> = std::iter::once(from).chain(between).chain([to]).collect();
        let (chord, high) = (long.as_mm_f64(), rise.as_mm_f64());
        let radius = (chord * chord / 4.0 + high * high) / (2.0 * high.abs());
        // The centre, to the left of the way for a rise to the right.
        let (dx, dy) = (to.x.as_mm_f64() / chord, to.y.as_mm_f64() / chord);
        let back = (radius - high.abs()) * high.signum();
        let centre = [
            to.x.as_mm_f64() / 2.0 - dy * back,
            to.y.as_mm_f64() / 2.0 + dx * back,
        ];
        let off = |at: Point<PieceFrame>| {
            let away = (at.x.as_mm_f64() - centre[0]).hypot(at.y.as_mm_f64() - centre[1]);
            (away - radius).abs()
        };
        for two in all.windows(2) {
            prop_assert!(off(two[0]) < 0.001, "{}", off(two[0]));
            let middle = Segment::new(two[0], two[1]).middle();
            prop_assert!(off(middle) <= FLAT_WITHIN.as_mm_f64() + 0.001, "{}", off(middle));
        }
    }
}
