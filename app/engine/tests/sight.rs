//! Where every face is seen, for the maker who is about to put something on it, and
//! which of them show the white back of their paper.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "common/naming.rs"]
mod naming;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::faces::{Part, View, shown};
use foldwright_engine::length::{DecimalMark, Notation, Step};
use foldwright_engine::paper::{ReadyPaper, StockSide};
use foldwright_engine::plane::Polygon;
use foldwright_engine::recipe::{Face, LayerKind, Recipe, Seat, Side, starters};
use foldwright_engine::sight::{Sight, sights, white_backs};
use naming::Plain;

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

fn face(recipe: &Recipe, name: &str, side: Side) -> Face {
    let mut panels = recipe.base.panels.iter();
    let panel = panels.find(|panel| panel.name == name);
    Face {
        panel: panel.expect("there is such a panel").id,
        side,
    }
}

/// Where the outside and the inside of each panel of a starting fold are seen.
fn seen(id: &str) -> Vec<(String, [Sight; 2])> {
    let (recipe, card) = starter(id);
    let all = sights(&card);
    let at = |face: Face| {
        let seen = all.iter().find(|seen| seen.face == face);
        seen.expect("it folds").sight.clone()
    };
    let panels = recipe.base.panels.iter();
    panels
        .map(|panel| {
            let faces = [Side::B, Side::A].map(|side| Face {
                panel: panel.id,
                side,
            });
            (panel.name.clone(), faces.map(at))
        })
        .collect()
}

fn at_opening(opening: usize, recipe: &Recipe, name: &str) -> Sight {
    Sight::Opened {
        opening,
        panels: vec![face(recipe, name, Side::B).panel],
    }
}

const INSIDE: Sight = Sight::Open(View::Front);

/// Common practice: a book card and a tent show their front and their back closed, and
/// their inside once they are open.
#[test]
fn a_book_and_a_tent() {
    for id in ["book", "tent"] {
        let expected = [
            ("front".to_owned(), [Sight::Front, INSIDE]),
            ("back".to_owned(), [Sight::Back, INSIDE]),
        ];
        assert_eq!(seen(id), expected, "{id}");
    }
}

/// Common practice: both leaves of a gate are its front, and the gap between them does not
/// make the inside of the middle part of it. The leaf that is opened first
/// shows its own inside and half of the middle's; the other leaf its own once it is open
/// too.
#[test]
fn a_gate() {
    let (recipe, _) = starter("gate");
    let first = at_opening(1, &recipe, "left leaf");
    let expected = [
        ("left leaf".to_owned(), [Sight::Front, first.clone()]),
        ("middle".to_owned(), [Sight::Back, first]),
        ("right leaf".to_owned(), [Sight::Front, INSIDE]),
    ];
    assert_eq!(seen("gate"), expected);
}

/// Common practice: a zigzag of three panels whose first crease is a valley and whose
/// second is a mountain. The first two lie inside to inside, the last two outside to
/// outside: its front is the outside of the first panel, its back the inside of the last.
/// The first panel is turned away from the second; the outsides of the others are seen
/// only from behind, once all is open.
#[test]
fn a_zigzag() {
    let (recipe, _) = starter("z");
    let first = at_opening(1, &recipe, "panel 1");
    let behind = Sight::Open(View::Back);
    let expected = [
        ("panel 1".to_owned(), [Sight::Front, first.clone()]),
        ("panel 2".to_owned(), [behind.clone(), first]),
        ("panel 3".to_owned(), [behind, Sight::Back]),
    ];
    assert_eq!(seen("z"), expected);
}

/// By hand: the fold behind is as wide as the step and lies on all of it, the
/// front on the fold behind. The front swings away first, and still nothing of the
/// step is seen; then the fold behind does, which is the second opening.
#[test]
fn the_outside_of_a_step() {
    let (recipe, _) = starter("steps");
    let all = seen("steps");
    let step = all.iter().find(|(name, _)| name == "step");
    let [outside, _] = &step.expect("there is a step").1;
    assert_eq!(*outside, at_opening(2, &recipe, "fold behind"));
}

/// What is told of every face of every starting fold is what its drawings show: a
/// twentieth of it at least in the state that is named and from there, and in none
/// before.
#[test]
fn every_face_of_every_starter() {
    for starting in starters() {
        let (recipe, card) = starter(&starting.id);
        let folded = card.folded.as_ref().expect("it folds");
        let all = sights(&card);
        assert_eq!(all.len(), 2 * card.laid.panels.len(), "{}", recipe.name);
        for seen in &all {
            let mut panels = card.laid.panels.iter();
            let panel = panels.find(|panel| panel.id == seen.face.panel);
            let facet = &panel.expect("it is laid out").facet;
            let holes: i128 = facet.holes.iter().map(Polygon::area).sum();
            let whole = facet.outline.area() - holes;
            let shows = |number: usize, view: View| {
                let parts = shown(&folded.states[number], view, &[], &card.readings);
                let mut parts = parts.iter();
                let shows = parts.find(|it| it.part == Part::Face(seen.face));
                shows.is_some_and(|it| it.region.area() * 20 >= whole)
            };
            let states = 0..folded.states.len();
            let moments = states.flat_map(|it| [View::Front, View::Back].map(|view| (it, view)));
            let first = moments.into_iter().find(|(it, view)| shows(*it, *view));
            // Of a few nothing but an edge is ever seen.
            if first.is_some() {
                assert_eq!(seen.at, first, "{} {:?}", recipe.name, seen.face);
            }
            let first = seen.at;
            let closed = matches!(seen.sight, Sight::Front | Sight::Back);
            assert_eq!(closed, first.is_some_and(|(number, _)| number == 0));
        }
    }
}

/// A tent of paper that is printed on one side, its print outside: both insides are
/// white. A mat with a border takes a side off the list; the paper the other way round
/// whitens the outsides, and paper printed on both sides none.
#[test]
fn white_backs_of_a_tent() {
    let (mut recipe, _) = starter("tent");
    let paper = |recipe: &mut Recipe, paper: ReadyPaper| {
        let id = recipe.base.stock;
        let mut stocks = recipe.stocks.iter_mut();
        let stock = stocks.find(|stock| stock.id == id).expect("it is there");
        *stock = paper.stock("paper".to_owned());
        stock.id = id;
    };
    let white = |recipe: &Recipe| {
        let card = work_out(recipe, &Tools::default());
        let found = white_backs(recipe, &card, &sights(&card));
        found.into_iter().map(|(face, _)| face).collect::<Vec<_>>()
    };
    assert_eq!(white(&recipe), []);
    paper(&mut recipe, ReadyPaper::Speckle);
    let both = |recipe: &Recipe, side| ["front", "back"].map(|name| face(recipe, name, side));
    let up = |recipe: &Recipe| {
        let card = work_out(recipe, &Tools::default());
        let lies = card.lies(foldwright_engine::part::Part::Strip(
            foldwright_engine::recipe::StripId::Base,
        ));
        lies.expect("it lies on its sheet").lay
    };
    let mut lay = up(&recipe);
    lay.outside = StockSide::Face;
    recipe.lay = Some(lay);
    let insides = both(&recipe, Side::A);
    assert_eq!(white(&recipe), insides);
    let on = Seat::Face(insides[0]);
    recipe
        .add_layer(on, LayerKind::Mat, &Plain)
        .expect("there is room");
    assert_eq!(white(&recipe), insides[1..]);
    lay.outside = StockSide::Back;
    recipe.lay = Some(lay);
    assert_eq!(white(&recipe), both(&recipe, Side::B));
    paper(&mut recipe, ReadyPaper::Shore);
    assert_eq!(white(&recipe), []);
}
