//! A layer where it is drawn, to be taken hold of: moved, or stretched by a corner.

use super::direction::Direction;
use super::flat::{affine, side_up};
use super::folded::face_place;
use super::{Affine, Spot, spot};
use crate::card::Card;
use crate::faces::View;
use crate::laid::LaidLayer;
use crate::length::{Length, Step, nearest};
use crate::plane::{FaceFrame, Rect};
use crate::posed::Posed;
use crate::recipe::{LayerId, Recipe, Seat, Side, StripId};

/// Which share of a layer's area is seen at least where it can be taken hold of: of one
/// seen nearly from its edge a hair's breadth on the drawing is a hand's on the card.
/// (Own choice.)
const EDGE_ON: f64 = 0.2;

/// A layer that is seen from its front, as large as it is or aslant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held {
    /// Which.
    pub layer: LayerId,
    at: Rect<FaceFrame>,
    /// What carries it, as far as it reaches.
    seat: Rect<FaceFrame>,
    /// From its face to the drawing.
    place: Affine,
}

/// A layer in the drawing of a flat piece with a side up; `None` where it is not seen
/// there.
pub fn held_flat(
    recipe: &Recipe,
    card: &Card,
    (of, up): (StripId, Side),
    layer: LayerId,
) -> Option<Held> {
    let laid = card.laid.layer(layer)?;
    let piece = card.laid.piece(of)?;
    let is_there = piece.panels.contains(&card.laid.index_of(laid.face.panel)?);
    let mut readings = card.readings.iter();
    let reading = readings.find(|reading| reading.face == laid.face)?;
    let place = affine(&reading.place.back().then(&side_up(piece, up)));
    Held::of(recipe, card, laid, place).filter(|_| is_there && laid.face.side == up)
}

/// A layer in the drawing of the closed card from a view; `None` where its back is
/// turned to that.
pub fn held_closed(recipe: &Recipe, card: &Card, view: View, layer: LayerId) -> Option<Held> {
    let laid = card.laid.layer(layer)?;
    let state = card.folded.as_ref()?.states.first()?;
    let place = affine(&face_place(card, state, laid.face)?);
    let turned = |[x, y]: Spot| match view {
        View::Front => [x, y],
        View::Back => [-x, y],
    };
    let place = Affine {
        x: turned(place.x),
        y: turned(place.y),
        origin: turned(place.origin),
    };
    let is_seen = cross(place.x, place.y) > 0.0;
    Held::of(recipe, card, laid, place).filter(|_| is_seen)
}

/// A layer in the drawing of a card in space from a direction; `None` where its back is
/// turned to that, or hardly more than its edge is seen.
pub fn held_standing(
    recipe: &Recipe,
    card: &Card,
    (posed, direction): (&Posed, Direction),
    layer: LayerId,
) -> Option<Held> {
    let laid = card.laid.layer(layer)?;
    let panel = posed.panels.get(card.laid.index_of(laid.face.panel)?)?;
    let panel = panel.as_ref()?;
    let mut readings = card.readings.iter();
    let reading = readings.find(|reading| reading.face == laid.face)?;
    let on_piece = affine(&reading.place.back());
    let from = direction.projection();
    let seen = |at: Spot| from.of_flat(panel, on_piece.apply(at));
    let origin = seen([0.0, 0.0]);
    let way = |at: Spot| {
        let [x, y] = seen(at);
        [x - origin[0], y - origin[1]]
    };
    let place = Affine {
        x: way([1.0, 0.0]),
        y: way([0.0, 1.0]),
        origin,
    };
    let is_seen = cross(place.x, place.y) >= EDGE_ON;
    Held::of(recipe, card, laid, place).filter(|_| is_seen)
}

/// How much larger than a square an area is that two ways span; less than nothing where
/// the second is to the right of the first.
fn cross(one: Spot, other: Spot) -> f64 {
    one[0] * other[1] - one[1] * other[0]
}

impl Held {
    fn of(recipe: &Recipe, card: &Card, laid: &LaidLayer, place: Affine) -> Option<Self> {
        let seat = match recipe.layer(laid.id)?.on {
            Seat::Layer(id) => card.laid.layer(id)?.at,
            Seat::Face(face) => {
                let panel = card.laid.panels.get(card.laid.index_of(face.panel)?)?;
                let mut readings = card.readings.iter();
                let reading = readings.find(|reading| reading.face == face)?;
                reading.place.region(&panel.facet.region()).bounds()?
            }
        };
        Some(Self {
            layer: laid.id,
            at: laid.at,
            seat,
            place,
        })
    }

    /// Where its middle is drawn.
    pub fn middle(&self) -> Spot {
        let [low, _, high, _] = self.at.corners().map(spot);
        self.place
            .apply([0, 1].map(|i| f64::midpoint(low[i], high[i])))
    }

    /// Where its corners are drawn: lower left, lower right, upper right and upper left
    /// as its reader sees it.
    pub fn corners(&self) -> [Spot; 4] {
        self.at.corners().map(|at| self.place.apply(spot(at)))
    }

    /// A way on the drawing as its reader goes it on the layer, in the same unit.
    pub fn way(&self, way: Spot) -> Spot {
        let Affine { x, y, .. } = self.place;
        // More than nothing, since its front is seen.
        let all = cross(x, y);
        [cross(way, y) / all, cross(x, way) / all]
    }

    /// The same along the edge of the layer that is drawn most like it, and just as
    /// far.
    pub fn way_along(&self, way: Spot) -> Spot {
        let far = way[0].hypot(way[1]);
        let like = [self.place.x, self.place.y].map(|edge| {
            let along = way[0] * edge[0] + way[1] * edge[1];
            along / edge[0].hypot(edge[1])
        });
        if like[0].abs() >= like[1].abs() {
            [far.copysign(like[0]), 0.0]
        } else {
            [0.0, far.copysign(like[1])]
        }
    }

    /// How far its left and its bottom edge are from those of what carries it, and its
    /// width and height.
    pub fn lies(&self) -> [Length; 4] {
        let size = self.at.size();
        [
            self.at.low.x - self.seat.low.x,
            self.at.low.y - self.seat.low.y,
            size.width,
            size.height,
        ]
    }

    /// How it lies once it was moved to the right and up: at an edge or in the middle of what carries it, or
    /// as far from one edge as from the other, where that is within reach; otherwise on
    /// the marks of a ruler.
    pub fn moved(&self, by: [Length; 2], step: Step, reach: Length) -> [Length; 4] {
        let [left, bottom, width, height] = self.lies();
        let seat = self.seat.size();
        let across = Span {
            size: width,
            seat: seat.width,
        };
        let up = Span {
            size: height,
            seat: seat.height,
        };
        let left = across.caught(left + by[0], bottom, (step, reach));
        let bottom = up.caught(bottom + by[1], left, (step, reach));
        [left, bottom, width, height]
    }

    /// How it lies once it was turned by a quarter about its middle, to a unit.
    pub fn turned(&self) -> [Length; 4] {
        let [left, bottom, width, height] = self.lies();
        let by = (width - height).half_down();
        [left + by, bottom - by, height, width]
    }

    /// How it lies once a corner was moved, by its place in
    /// [`corners`](Self::corners); the opposite one stays.
    pub fn stretched(
        &self,
        corner: usize,
        by: [Length; 2],
        step: Step,
        reach: Length,
    ) -> [Length; 4] {
        let [left, bottom, width, height] = self.lies();
        let seat = self.seat.size();
        let is_right = matches!(corner, 1 | 2);
        let is_upper = matches!(corner, 2 | 3);
        let [left, width] = drawn_out(is_right, [left, width], by[0], seat.width, (step, reach));
        let [bottom, height] = drawn_out(
            is_upper,
            [bottom, height],
            by[1],
            seat.height,
            (step, reach),
        );
        [left, bottom, width, height]
    }
}

/// One way across what carries a layer.
struct Span {
    size: Length,
    seat: Length,
}

impl Span {
    /// Where the lower edge comes to lie that is let go there, while the border the
    /// other way is so wide.
    fn caught(&self, at: Length, border: Length, (step, reach): (Step, Length)) -> Length {
        let room = self.seat - self.size;
        let firm = [room.half_down(), Length::ZERO, room, border, room - border];
        nearest_of(&firm, at, reach).unwrap_or_else(|| nearest(at, step).at)
    }
}

/// The lower edge and the size of a layer of which one edge was moved, on the edges of
/// what carries it or on marks from the edge that stays; never smaller than a step.
fn drawn_out(
    is_upper: bool,
    [low, size]: [Length; 2],
    by: Length,
    seat: Length,
    (step, reach): (Step, Length),
) -> [Length; 2] {
    let least = step.length();
    if is_upper {
        let high = nearest_of(&[seat], low + size + by, reach);
        let size = high.map_or_else(|| nearest(size + by, step).at, |high| high - low);
        [low, size.max(least)]
    } else {
        let high = low + size;
        let low = nearest_of(&[Length::ZERO], low + by, reach);
        let size = low.map_or_else(|| nearest(size - by, step).at, |low| high - low);
        let size = size.max(least);
        [high - size, size]
    }
}

/// The nearest of some places within reach; the first of equals.
fn nearest_of(places: &[Length], at: Length, reach: Length) -> Option<Length> {
    let near = places.iter().filter(|place| (**place - at).abs() <= reach);
    near.min_by_key(|place| (**place - at).abs()).copied()
}
