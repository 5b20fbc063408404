//! Layers that take the shape of what carries them, and outlines that are not
//! as they were asked for.

use crate::faces::Reading;
use crate::laid::LaidOut;
use crate::length::Length;
use crate::plane::{FaceFrame, Placement, Point, Region, Turn};
use crate::problem::{Finding, OutlineFinding, Place, Problem};
use crate::recipe::{Layer, Placing, Recipe, Seat};

/// Gives the layers that follow what carries them their outlines, an even
/// border within it. What carries them is known once faces are read.
pub(crate) fn follow(recipe: &Recipe, laid: &mut LaidOut, readings: &[Reading]) -> Vec<Problem> {
    let mut problems = Vec::new();
    for index in 0..laid.layers.len() {
        let Some(layer) = laid.layers.get(index).and_then(|it| recipe.layer(it.id)) else {
            continue;
        };
        let border = match layer.place {
            Placing::Border(border) if layer.follows() => border,
            _ => {
                carry_along(recipe, laid, layer, index);
                continue;
            }
        };
        let Some(seat) = seat(laid, readings, layer) else {
            continue;
        };
        let room = seat.inset(recipe.value(border));
        let (Some(at), Some(placed)) = (room.bounds(), laid.layers.get_mut(index)) else {
            let found = OutlineFinding::NoRoom(layer.id);
            problems.push(Problem::stop(
                Place::Layer(layer.id),
                Finding::Outline(found),
            ));
            continue;
        };
        let own = layer.outline.within(recipe, &at).region;
        let shape = own.map_or_else(|| room.clone(), |own| own.common(&room));
        placed.at = at;
        placed.shape = (shape != Region::from(at)).then_some(shape);
    }
    problems
}

/// Moves a layer, by its index among the laid ones, with the layer under it, which
/// may have taken another shape.
fn carry_along(recipe: &Recipe, laid: &mut LaidOut, layer: &Layer, index: usize) {
    let Seat::Layer(_) = layer.on else { return };
    let under = seat_corner(laid, layer);
    let Some(placed) = laid.layers.get_mut(index) else {
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
            let panel = laid.panels.get(laid.index_of(face.panel)?)?;
            Some(reading.place.region(&panel.facet.region()))
        }
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
