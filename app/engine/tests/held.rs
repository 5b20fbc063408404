//! Layers taken hold of in a drawing: where they are held is where they are drawn, and
//! what is dragged moves or stretches by that and nothing else.

#![expect(
    clippy::expect_used,
    reason = "a helper of a test fails the test, and says what was missing"
)]

#[path = "common/naming.rs"]
mod plain;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::draw::{
    Colouring, Direction, Drawing, Held, Mark, Spot, as_it_stands, flat, held_closed, held_flat,
    held_standing, on_table, state,
};
use foldwright_engine::faces::{Part, View};
use foldwright_engine::length::{Length, Step};
use foldwright_engine::recipe::{Face, LayerId, LayerKind, Recipe, Seat, Side, StripId, starters};

use plain::Plain;

const STEP: Step = Step::Sixteenth;
/// From where standing cards are looked at, besides from where they are seen best: round
/// the table and above it, in degrees.
const FROM: [[f64; 2]; 3] = [[20.0, 35.0], [140.0, 60.0], [250.0, 15.0]];
/// Nothing is near enough to catch on.
const FREE: Length = Length::ZERO;

fn drawn(drawing: &Drawing, layer: LayerId) -> Option<[Spot; 2]> {
    let outlines = drawing.marks.iter().find_map(|mark| match mark {
        Mark::Area { outlines, part, .. } if *part == Some(Part::Layer(layer)) => Some(outlines),
        _ => None,
    })?;
    let along = |i: usize| outlines.iter().flatten().map(move |at| at[i]);
    let least = [0, 1].map(|i| along(i).fold(f64::INFINITY, f64::min));
    let most = [0, 1].map(|i| along(i).fold(f64::NEG_INFINITY, f64::max));
    Some([least, most])
}

fn is_drawn_there(held: &Held, [least, most]: [Spot; 2]) -> bool {
    let corners = held.corners();
    let middle = held.middle();
    (0..2).all(|i| {
        let along = || corners.iter().map(|at| at[i]);
        let low = along().fold(f64::INFINITY, f64::min);
        let high = along().fold(f64::NEG_INFINITY, f64::max);
        // What is shown of it may be covered by what lies on it.
        low <= least[i] + 0.01
            && high >= most[i] - 0.01
            && (middle[i] - f64::midpoint(low, high)).abs() < 0.01
    })
}

/// A starting fold with a mat on each of its faces, and a piece on each mat.
fn covered(recipe: &Recipe) -> Recipe {
    let mut recipe = recipe.clone();
    let panels: Vec<_> = recipe.base.panels.iter().map(|panel| panel.id).collect();
    for panel in panels {
        for side in [Side::A, Side::B] {
            let face = Seat::Face(Face { panel, side });
            if let Ok(mat) = recipe.add_layer(face, LayerKind::Mat, &Plain) {
                // A mat may be too small for more.
                let _ = recipe.add_layer(Seat::Layer(mat.id), LayerKind::Focal, &Plain);
            }
        }
    }
    recipe
}

/// Every layer of the starting folds where it can be taken hold of.
fn each(mut look: impl FnMut(&Recipe, &Card, &Held, Option<[Spot; 2]>, &str)) {
    for starter in starters() {
        let recipe = &covered(&starter.recipe);
        let card = work_out(recipe, &Tools::default());
        let stands = as_it_stands(recipe, &card);
        let stands = stands.iter().flat_map(|stands| {
            let from = FROM.map(|[round, above]| Direction { round, above });
            let seen = from.into_iter().chain([stands.direction]);
            seen.map(|direction| {
                let seen = (direction, Colouring::Paper);
                let drawing = on_table(recipe, &card, &stands.posed, seen);
                ((&stands.posed, direction), drawing)
            })
        });
        let standing: Vec<_> = stands.collect();
        for layer in &recipe.layers {
            for (seen, drawing) in &standing {
                if let Some(held) = held_standing(recipe, &card, *seen, layer.id) {
                    look(recipe, &card, &held, drawn(drawing, layer.id), &starter.id);
                }
            }
            for up in [Side::A, Side::B] {
                for (of, _) in recipe.strips() {
                    let drawing = flat(recipe, &card, of, up);
                    if let Some(held) = held_flat(recipe, &card, (of, up), layer.id) {
                        look(recipe, &card, &held, drawn(&drawing, layer.id), &starter.id);
                    }
                }
            }
            for view in [View::Front, View::Back] {
                let drawing = state(recipe, &card, 0, view);
                if let Some(held) = held_closed(recipe, &card, view, layer.id) {
                    look(recipe, &card, &held, drawn(&drawing, layer.id), &starter.id);
                }
            }
        }
    }
}

#[test]
fn a_layer_is_held_where_it_is_drawn() {
    let mut looked = 0;
    each(|_, _, held, drawn, name| {
        if let Some(drawn) = drawn {
            assert!(is_drawn_there(held, drawn), "{name}: {held:?} {drawn:?}");
            looked += 1;
        }
    });
    assert!(looked > 30, "only {looked}");
}

/// Also where it is drawn aslant, what is dragged along an edge of a layer moves along
/// that, and as far as the edge is long.
#[test]
fn a_way_along_an_edge_is_one_along_the_layer() {
    let mut done = 0;
    each(|_, _, held, _, name| {
        let [low, right, _, upper] = held.corners();
        let [.., width, height] = held.lies().map(Length::as_mm_f64);
        for (to, long) in [(right, [width, 0.0]), (upper, [0.0, height])] {
            let way = [to[0] - low[0], to[1] - low[1]];
            let near = |went: Spot, long: Spot| (0..2).all(|i| (went[i] - long[i]).abs() < 0.001);
            assert!(near(held.way(way), long), "{name}: {held:?}");
            let far = way[0].hypot(way[1]);
            let alone = long.map(|side| if side > 0.0 { far } else { 0.0 });
            assert!(near(held.way_along(way), alone), "{name}: {held:?}");
            done += 1;
        }
    });
    assert!(done > 200, "only {done}");
}

#[test]
fn moving_keeps_the_size_and_stretching_the_opposite_corner() {
    let by = [Length::sixty_fourths(-12), Length::sixty_fourths(20)];
    let mut done = 0;
    each(|recipe, _, held, _, name| {
        let [left, bottom, width, height] = held.lies();
        let to = held.moved(by, STEP, FREE);
        let mut moved = recipe.clone();
        if moved.put_layer(held.layer, to).is_ok() {
            let lies = lies(&moved, held.layer);
            assert_eq!(lies, to, "{name}");
            assert_eq!(lies[2..], [width, height], "{name} is another size");
            done += 1;
        }
        for corner in 0..4 {
            let to = held.stretched(corner, by, STEP, FREE);
            let mut stretched = recipe.clone();
            if stretched.put_layer(held.layer, to).is_err() {
                continue;
            }
            let [left_now, bottom_now, width_now, height_now] = lies(&stretched, held.layer);
            match corner {
                1 | 2 => assert_eq!(left_now, left, "{name} {corner}"),
                _ => assert_eq!(left_now + width_now, left + width, "{name} {corner}"),
            }
            match corner {
                2 | 3 => assert_eq!(bottom_now, bottom, "{name} {corner}"),
                _ => assert_eq!(bottom_now + height_now, bottom + height, "{name} {corner}"),
            }
            done += 1;
        }
        let mut turned = recipe.clone();
        if turned.put_layer(held.layer, held.turned()).is_ok() {
            let [left_now, bottom_now, width_now, height_now] = lies(&turned, held.layer);
            assert_eq!([width_now, height_now], [height, width], "{name}");
            let unit = Length::from_units(1);
            let off = [
                left_now * 2 + width_now - (left * 2 + width),
                bottom_now * 2 + height_now - (bottom * 2 + height),
            ];
            assert!(
                off.iter().all(|off| off.abs() <= unit * 2),
                "{name}: {off:?}"
            );
        }
    });
    assert!(done > 150, "only {done}");
}

fn lies(recipe: &Recipe, layer: LayerId) -> [Length; 4] {
    let card = work_out(recipe, &Tools::default());
    let strips = recipe.strips().map(|(of, _)| of);
    let held = strips
        .flat_map(|of| [Side::A, Side::B].map(|up| (of, up)))
        .find_map(|side: (StripId, Side)| held_flat(recipe, &card, side, layer));
    held.expect("it is still there").lies()
}

/// The mat of the card like a book, worked by hand: 4 × 5 1/4 in on a panel of 4 1/4 ×
/// 5 1/2 in has 1/8 in all round. Let go 1/32 in from the middle it goes back there, and
/// farther off it lies on the sixteenths.
#[test]
fn what_is_let_go_near_the_middle_catches_on_it() {
    let book = starters().iter().find(|it| it.id == "book");
    let recipe = &book.expect("it is one of them").recipe;
    let card = work_out(recipe, &Tools::default());
    let mat = recipe.layers[0].id;
    let held = [Side::A, Side::B]
        .into_iter()
        .find_map(|up| held_flat(recipe, &card, (StripId::Base, up), mat));
    let held = held.expect("it is seen");
    let eighth = Length::sixty_fourths(8);
    assert_eq!(held.lies()[..2], [eighth, eighth]);
    let near = [Length::sixty_fourths(2), Length::ZERO];
    let reach = Length::sixty_fourths(3);
    assert_eq!(held.moved(near, STEP, reach)[..2], [eighth, eighth]);
    let far = [Length::sixty_fourths(19), Length::ZERO];
    let to = held.moved(far, STEP, reach);
    assert_eq!(to[..2], [Length::sixty_fourths(28), eighth]);
    // Flush with the right edge of the panel.
    let flush = held.moved([Length::sixty_fourths(9), Length::ZERO], STEP, reach);
    assert_eq!(flush[0], Length::sixty_fourths(16));
}
