//! Prints generated cards, one JSON object a line, for programs that check the
//! areas the engine finds: what is cut out of the strip and what that leaves,
//! where every panel lies in the closed card and over which others, what shows
//! of each from the front and the back, with and without a layer of any
//! outline, and where glue may go on it; and how the card is drawn flat and how
//! large it closes. Lengths are in units of 1/72 µm, areas in square units. The
//! only argument is how many cards to print, or `starters` for the starting folds,
//! envelopes for them and what they are refitted to.

mod closed;
#[path = "../../tests/common/naming.rs"]
mod plain;
mod shaped;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::faces::{Part, View, shown};
use foldwright_engine::fold::{Folded, Pose, State};
use foldwright_engine::laid::LaidLayer;
use foldwright_engine::length::Length;
use foldwright_engine::pattern::LineKind;
use foldwright_engine::plane::{Area, PieceFrame, Point, Region};
use foldwright_engine::recipe::{Face, Fold, LayerKind, Recipe, Seat, Side, StripId, starters};
use plain::Plain;
use serde_json::{Value, json};

fn main() {
    let asked = std::env::args().nth(1);
    if asked.as_deref() == Some("starters") {
        return closed::print_starters();
    }
    let wanted = asked.and_then(|count| count.parse().ok());
    let wanted: usize = wanted.unwrap_or(600);
    let mut printed = 0;
    let mut seed = 0;
    while printed < wanted && seed < wanted as u64 * 50 {
        if let Some(card) = generated(seed) {
            println!("{card}");
            printed += 1;
        }
        seed += 1;
    }
}

/// Numbers that look random, the same for a seed everywhere (the multiplier of
/// Knuth's MMIX generator).
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn roll(&mut self, sides: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % sides.max(1)
    }

    pub(crate) fn mm(&mut self, most: u64) -> Length {
        Length::mm(i64::try_from(self.roll(most)).unwrap_or(0))
    }
}

/// A starting fold with creases, cuts at any angle, windows and shaped edges
/// added, and a layer of any outline on some face; `None` where that does not fold flat.
fn generated(seed: u64) -> Option<Value> {
    let mut dice = Dice(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x5eed);
    let all = starters();
    let starter = all.get(usize::try_from(dice.roll(all.len() as u64)).ok()?)?;
    let mut recipe = starter.recipe.clone();
    recipe.layers.clear();
    for _ in 0..dice.roll(3) {
        draw(&mut recipe, &mut dice);
    }
    shaped::cut_out(&mut recipe, &mut dice);
    let card = work_out(&recipe, &Tools::default());
    card.folded.as_ref()?;
    let panels = &card.laid.panels;
    let panel = panels.get(usize::try_from(dice.roll(panels.len() as u64)).ok()?)?;
    let side = if dice.roll(2) == 0 { Side::A } else { Side::B };
    let face = Face {
        panel: panel.id,
        side,
    };
    if let Ok(added) = recipe.add_layer(Seat::Face(face), LayerKind::Focal, &Plain) {
        let layer = recipe.layer(added.id)?.clone();
        recipe
            .place_layer(added.id, foldwright_engine::recipe::Placing::Distances)
            .ok()?;
        for (measure, most) in [(layer.left, 40), (layer.bottom, 60)] {
            recipe.set(measure, dice.mm(most)).ok()?;
        }
        shaped::outline(&mut recipe, added.id, &mut dice);
    }
    let card = work_out(&recipe, &Tools::default());
    let folded = card.folded.as_ref()?;
    let closed = folded.states.first()?;
    let views = [View::Front, View::Back].map(|view| seen(&card, closed, view, &[]));
    let covered =
        [View::Front, View::Back].map(|view| seen(&card, closed, view, &card.laid.layers));
    Some(json!({
        "seed": seed,
        "starter": starter.id,
        "cut": shaped::told(&recipe, &card),
        "panels": closed.poses.iter().map(rings).collect::<Vec<_>>(),
        "over": over(folded),
        "front": views[0].0,
        "back": views[1].0,
        "layer": shaped::layer(&recipe, &card, [covered[0].1, covered[1].1]),
        "covered": [&covered[0].0, &covered[1].0],
        "glue": glue(&recipe, &card),
        "name": format!("card {seed} ({})", starter.id),
        "kind": "generated",
        "closed": closed::told(&recipe),
    }))
}

/// What shows of every panel, and of the front of a layer.
fn seen(card: &Card, closed: &State, view: View, layers: &[LaidLayer]) -> (Vec<String>, Area) {
    let mut areas = vec![0; closed.poses.len()];
    let mut of_layer = 0;
    for part in shown(closed, view, layers, &card.readings) {
        match part.part {
            Part::Face(face) => {
                if let Some(place) = card.laid.index_of(face.panel) {
                    areas[place] += part.region.area();
                }
            }
            Part::Layer(_) => of_layer += part.region.area(),
            Part::LayerBack(_) => {}
        }
    }
    (areas.iter().map(ToString::to_string).collect(), of_layer)
}

/// A line from one point of the sheet's edge to another, or anywhere.
fn draw(recipe: &mut Recipe, dice: &mut Dice) {
    let length = recipe.value(recipe.base.length);
    let height = recipe.value(recipe.base.height);
    let corner = dice.mm(45) + Length::mm(5);
    let other = dice.mm(45) + Length::mm(5);
    let kind = match dice.roll(3) {
        0 => LineKind::Crease(Fold::Valley),
        1 => LineKind::Crease(Fold::Mountain),
        _ => LineKind::Cut,
    };
    let at = |x: Length, y: Length| Point::<PieceFrame>::new(x, y);
    let zero = Length::ZERO;
    let (from, to) = match dice.roll(4) {
        0 => (at(zero, corner), at(other, zero)),
        1 => (at(length - corner, zero), at(length, other)),
        2 => (at(length, height - corner), at(length - other, height)),
        _ => (at(corner, height), at(zero, height - other)),
    };
    // A recipe without room for it stays as it is.
    let _ = recipe.add_line(StripId::Base, kind, from, to, &Plain);
}

pub(crate) fn ring<F>(contour: Vec<Point<F>>) -> Vec<[i64; 2]> {
    let corners = contour.into_iter();
    corners.map(|at| [at.x.units(), at.y.units()]).collect()
}

/// The outline and the holes of a panel in the closed card.
fn rings(pose: &Pose) -> Vec<Vec<[i64; 2]>> {
    pose.area().region().contours().map(ring).collect()
}

/// Pairs of panels, the first in front of the second.
fn over(folded: &Folded) -> Vec<(usize, usize)> {
    let Some(closed) = folded.states.first() else {
        return Vec::new();
    };
    let places = 0..closed.poses.len();
    let pairs = places
        .clone()
        .flat_map(|a| places.clone().map(move |b| (a, b)));
    pairs.filter(|(a, b)| closed.is_over(*a, *b)).collect()
}

/// The one layer, what carries it, and where glue may go, all as the face's
/// reader sees them (glue mirrored back from the layer's back).
fn glue(recipe: &Recipe, card: &Card) -> Value {
    let seen = || {
        let gluing = card.gluings.first()?;
        let layer = card.laid.layer(gluing.layer)?;
        let place = card.laid.index_of(layer.face.panel)?;
        let panel = card.laid.panels.get(place)?;
        let reading = card.readings.iter().find(|it| it.face == layer.face)?;
        let seat = reading.place.region(&panel.facet.region());
        let area = gluing.safe.as_ref().map_or(0, Region::area);
        let is_safe = gluing.safe.is_some() && gluing.safe == gluing.wanted;
        Some(json!({
            "layer": layer.region().contours().map(ring).collect::<Vec<_>>(),
            "seat": seat.contours().map(ring).collect::<Vec<_>>(),
            "margin": recipe.glue_margin.units(),
            "area": area.to_string(),
            "run": is_safe.then(|| card.glue_run().units()),
        }))
    };
    seen().unwrap_or(Value::Null)
}
