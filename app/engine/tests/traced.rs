//! Outlines taken from drawings: what they enclose, what is refused, and what a recipe
//! keeps of them.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

#[path = "common/naming.rs"]
mod plain;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::length::Length;
use foldwright_engine::plane::{FaceFrame, Point, Polygon, Size};
use foldwright_engine::problem::{Finding, OutlineFinding};
use foldwright_engine::recipe::{
    Die, Dot, Face, Fault, FileError, LayerId, MOST_TRACED, Outline, PanelId, Recipe, Seat, Shaped,
    Side, Traced, Untraced, read, starters, write,
};
use foldwright_engine::steps::{Form, Instruction, steps};
use plain::Plain;
use proptest::prelude::*;

/// A ring of corners in millimetres.
fn ring(corners: &[(i64, i64)]) -> Polygon<FaceFrame> {
    let corners = corners.iter();
    let at = |(x, y): &(i64, i64)| Point::new(Length::mm(*x), Length::mm(*y));
    Polygon {
        corners: corners.map(at).collect(),
    }
}

/// A square of that side, from a corner.
fn square(at: i64, side: i64) -> Polygon<FaceFrame> {
    let far = at + side;
    ring(&[(at, at), (far, at), (far, far), (at, far)])
}

/// An L of 40 × 60 mm.
fn angle() -> Polygon<FaceFrame> {
    ring(&[(5, 5), (45, 5), (45, 29), (25, 29), (25, 65), (5, 65)])
}

/// A card like a book with such an outline on its front.
fn with(traced: Traced, size: Size) -> (Recipe, LayerId) {
    let mut starters = starters().iter();
    let book = starters.find(|it| it.id == "book").expect("it is there");
    let mut recipe = book.recipe.clone();
    recipe.layers.clear();
    let front = Seat::Face(Face {
        panel: PanelId(1),
        side: Side::B,
    });
    let added = recipe.add_traced(front, traced, size, &Plain);
    (recipe, added.expect("there is room").id)
}

fn card(recipe: &Recipe) -> Card {
    work_out(recipe, &Tools::default())
}

/// The L encloses 40 × 24 + 20 × 36 mm², a hole of 9 mm less, wherever it was drawn.
#[test]
fn a_layer_is_as_large_as_the_outline_it_is_of() {
    let (traced, size) = Traced::of(&angle(), &[square(11, 9)]).expect("it is sound");
    assert_eq!([size.width, size.height], [40, 60].map(Length::mm));
    assert_eq!(traced.rim[1], Dot(100_000, 0));
    let (mut recipe, id) = with(traced, size);
    let square_mm = i128::from(Length::mm(1).units()).pow(2);
    let laid = |recipe: &Recipe| card(recipe).laid.layer(id).expect("it lies there").region();
    assert_eq!(laid(&recipe).area(), 1599 * square_mm);
    let size = laid(&recipe).bounds().expect("it is there").size();
    assert_eq!([size.width, size.height], [40, 60].map(Length::mm));
    assert_eq!(laid(&recipe).contours().count(), 2, "an edge and a hole");
    // It grows by its measures like any layer.
    let width = recipe.layer(id).expect("it is there").width;
    recipe.set(width, Length::mm(80)).expect("it is free");
    assert_eq!(laid(&recipe).area(), 3198 * square_mm);
    // It is cut with a die or along a template, and can be made another.
    let steps = steps(&recipe, &card(&recipe));
    let shaped = steps.iter().flat_map(|step| &step.does);
    let drawn = Instruction::Shape(id, Form::Drawn);
    assert_eq!(shaped.filter(|it| **it == drawn).count(), 1);
    let other = recipe.cut_shape(Shaped::Layer(id), Die::Star.bends());
    assert!(other.is_ok() && recipe.check().is_empty());
}

#[test]
fn what_crosses_or_falls_apart_is_refused() {
    let crossed =
        |rim: &Polygon<_>, holes: &[_]| assert_eq!(Traced::of(rim, holes), Err(Untraced::Crossed));
    crossed(&ring(&[(0, 0), (9, 9), (9, 0), (0, 5)]), &[]);
    // Twice round, touching itself, and a hole that is no part of it.
    crossed(
        &ring(&[(0, 0), (9, 0), (9, 9), (0, 0), (9, 0), (9, 9)]),
        &[],
    );
    crossed(
        &ring(&[(0, 0), (4, 4), (8, 0), (8, 8), (4, 4), (0, 8)]),
        &[],
    );
    crossed(&square(0, 20), &[square(30, 5)]);
    crossed(&square(0, 20), &[square(15, 9)]);
    crossed(&square(0, 20), &[square(2, 9), square(5, 9)]);
    crossed(&square(0, 20), &[ring(&[(2, 2), (9, 9), (9, 2), (2, 7)])]);
    // A hole that cuts it in two.
    crossed(
        &square(0, 20),
        &[ring(&[(0, 0), (20, 20), (19, 20), (0, 1)])],
    );
    assert_eq!(Traced::of(&ring(&[]), &[]), Err(Untraced::Empty));
    assert_eq!(
        Traced::of(&ring(&[(0, 0), (9, 0), (5, 0)]), &[]),
        Err(Untraced::Empty)
    );
    let fine: Vec<_> = (0..=1000).map(|at| (at, (at - 500) * (at - 500))).collect();
    assert_eq!(fine.len(), MOST_TRACED + 1);
    assert_eq!(Traced::of(&ring(&fine), &[]), Err(Untraced::TooFine(1001)));
}

/// A file may say anything: what crosses itself is told and is a rectangle, what lies
/// beyond is refused.
#[test]
fn a_file_keeps_it_and_is_checked() {
    let (traced, size) = Traced::of(&angle(), &[square(10, 10)]).expect("it is sound");
    let (recipe, id) = with(traced.clone(), size);
    let text = write(std::slice::from_ref(&recipe));
    assert_eq!(
        read(&text).expect("it is sound"),
        std::slice::from_ref(&recipe)
    );
    let but = |change: &dyn Fn(&mut Traced)| {
        let mut changed = traced.clone();
        change(&mut changed);
        let mut recipe = recipe.clone();
        recipe.layers[0].outline = Outline::Traced(changed);
        recipe
    };
    let beyond = but(&|it| it.rim[0].0 = 100_001);
    let few = but(&|it| it.holes[0].truncate(2));
    let many = but(&|it| it.rim = vec![Dot(0, 0); MOST_TRACED]);
    for wrong in [beyond, few, many] {
        let Err(FileError::Faulty { of, .. }) = read(&write(&[wrong])) else {
            unreachable!("it is refused")
        };
        assert_eq!(of.faults, [Fault::Outline]);
    }
    let crossed = but(&|it| it.rim.swap(0, 1));
    let found = Finding::Outline(OutlineFinding::Crossed(Shaped::Layer(id)));
    let card = card(&crossed);
    assert!(card.problems.iter().any(|it| it.finding == found));
    assert_eq!(card.laid.layer(id).expect("it lies there").shape, None);
    assert!(read(&write(&[crossed])).is_ok());
}

proptest! {
    /// Any ring of a file is an outline or is told, on a layer and as a window.
    #[test]
    fn any_ring_is_worked_out(
        rings in prop::collection::vec(
            prop::collection::vec((0u32..=100_000, 0u32..=100_000), 3..9), 1..4,
        ),
    ) {
        let mut rings: Vec<Vec<Dot>> = rings
            .into_iter()
            .map(|ring| ring.into_iter().map(|(x, y)| Dot(x, y)).collect())
            .collect();
        let rim = rings.remove(0);
        let size = Size { width: Length::mm(70), height: Length::mm(90) };
        let (mut recipe, id) = with(Traced { rim, holes: rings }, size);
        prop_assert!(recipe.check().is_empty());
        let told = card(&recipe);
        let crossed = Finding::Outline(OutlineFinding::Crossed(Shaped::Layer(id)));
        let is_told = told.problems.iter().any(|it| it.finding == crossed);
        prop_assert_eq!(told.laid.layer(id).expect("it lies there").shape.is_none(), is_told);
        let outline = recipe.layers[0].outline.clone();
        let added = recipe.add_window(PanelId(1), &Plain).expect("there is room");
        let mut cutouts = recipe.base.cutouts.iter_mut();
        let cutout = cutouts.find(|it| it.id == added.id).expect("it is there");
        if let foldwright_engine::recipe::Cut::Window(window) = &mut cutout.cut {
            window.outline = outline;
        }
        drop(card(&recipe));
    }
}
