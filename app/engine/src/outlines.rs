//! Layers that take the shape of what carries them, and outlines that are not
//! as they were asked for.

use crate::face::Reading;
use crate::laid::LaidOut;
use crate::length::Length;
use crate::plane::{FaceFrame, Placement, Point, Region, Turn};
use crate::problem::{Place, Problem, Weight};
use crate::recipe::{Flaw, Layer, Place as Placed, Recipe, Seat};

/// Gives the layers that follow what carries them their outlines, an even
/// border within it. What carries them is known once faces are read.
pub(crate) fn follow(recipe: &Recipe, laid: &mut LaidOut, readings: &[Reading]) -> Vec<Problem> {
    let mut problems = Vec::new();
    for place in 0..laid.layers.len() {
        let Some(layer) = laid.layers.get(place).and_then(|it| recipe.layer(it.id)) else {
            continue;
        };
        let border = match layer.place {
            Placed::Border(border) if layer.follows() => border,
            _ => {
                carry_along(recipe, laid, layer, place);
                continue;
            }
        };
        let Some(seat) = seat(laid, readings, layer) else {
            continue;
        };
        let room = seat.inset(recipe.value(border));
        match (room.bounds(), laid.layers.get_mut(place)) {
            (Some(at), Some(placed)) => {
                let own = layer.outline.within(recipe, &at).region;
                let shape = own.map_or_else(|| room.clone(), |own| own.common(&room));
                placed.at = at;
                placed.shape = (shape != Region::from(at)).then_some(shape);
            }
            _ => problems.push(no_room(layer)),
        }
    }
    problems
}

/// Moves a layer, by its place among the laid ones, with the layer under it, which
/// may have taken another shape.
fn carry_along(recipe: &Recipe, laid: &mut LaidOut, layer: &Layer, place: usize) {
    let Seat::Layer(_) = layer.on else { return };
    let under = seat_corner(laid, layer);
    let Some(placed) = laid.layers.get_mut(place) else {
        return;
    };
    let by = Point::new(
        under.x + recipe.value(layer.left) - placed.at.low.x,
        under.y + recipe.value(layer.bottom) - placed.at.low.y,
    );
    if by == Point::new(Length::ZERO, Length::ZERO) {
        return;
    }
    let moved: Placement<FaceFrame, FaceFrame> = Placement::new(false, Turn::None, by);
    placed.at = moved.rect(&placed.at);
    placed.shape = placed.shape.as_ref().map(|shape| moved.region(shape));
}

/// What carries a layer, as its reader sees it, less the windows in it.
fn seat(laid: &LaidOut, readings: &[Reading], layer: &Layer) -> Option<Region<FaceFrame>> {
    match layer.on {
        Seat::Layer(id) => Some(laid.layer(id)?.region()),
        Seat::Face(face) => {
            let reading = readings.iter().find(|reading| reading.face == face)?;
            let panel = laid.panels.get(laid.place_of(face.panel)?)?;
            Some(reading.place.region(&panel.facet.region()))
        }
    }
}

fn no_room(layer: &Layer) -> Problem {
    Problem {
        place: Place::Layer(layer.id),
        weight: Weight::Stop,
        what: format!("The border leaves nothing of {}.", layer.name),
        why: "It is as wide as half of what carries the layer, or wider.".to_owned(),
        remedy: "Make the border narrower, or place the layer by its own size.".to_owned(),
    }
}

/// An outline of a layer that is not as it was asked for.
pub(crate) fn flawed(layer: &Layer, flaw: Flaw) -> Problem {
    let (weight, what, why, remedy) = words(flaw, &layer.name);
    Problem {
        place: Place::Layer(layer.id),
        weight,
        what,
        why: why.to_owned(),
        remedy: remedy.to_owned(),
    }
}

/// What to say of an outline that is not as it was asked for.
pub(crate) fn words(flaw: Flaw, name: &str) -> (Weight, String, &'static str, &'static str) {
    match flaw {
        Flaw::TooRound => (
            Weight::Warning,
            format!("{name} is rounder than it has room for."),
            "Two rounded corners of a side meet in its middle; more than that is left out.",
            "Give a smaller radius or rise, or make it larger.",
        ),
        Flaw::Crossed => (
            Weight::Stop,
            format!("The outline of {name} crosses itself."),
            "It is drawn as a rectangle until its corners follow each other once round.",
            "Move the corners, or start again from a ready outline.",
        ),
    }
}

/// The lower left corner of what carries a layer.
pub(crate) fn seat_corner(laid: &LaidOut, layer: &Layer) -> Point<FaceFrame> {
    let under = match layer.on {
        Seat::Layer(id) => laid.layer(id).map(|under| under.at),
        Seat::Face(_) => None,
    };
    under.unwrap_or_default().low
}
