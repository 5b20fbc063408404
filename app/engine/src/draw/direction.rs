//! From where the card is looked at.

use super::Spot;
use crate::motion::{Rigid, Vector, add, cross, dot, length, scale};

/// From where the light comes: to the reader's right, away from them, and up.
/// (Own choice, as drawings of solids mostly have it.)
const LIGHT: Vector = [-0.42, -0.28, 0.86];

/// How far the parts of the light are from each other.
const WINDOW: f64 = 0.05;

/// A direction from which the card on its table is looked at. Rays run side by
/// side, so that what lies in one plane keeps its shape but for being
/// foreshortened, and its print with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Direction {
    /// How far the reader has gone round the table to the right from its foot, in
    /// degrees.
    pub round: f64,
    /// How far above the table the reader is, in degrees: 0 looks along it, 90
    /// down on it.
    pub above: f64,
}

impl Direction {
    /// The reader who has gone on to the right and up by so many degrees, never
    /// over the top nor under the table.
    #[must_use]
    pub fn turned(self, round: f64, above: f64) -> Self {
        Self {
            round: (self.round + round).rem_euclid(360.0),
            above: (self.above + above).clamp(0.0, 90.0),
        }
    }

    pub(super) fn projection(self) -> Projection {
        let (round, along) = self.round.to_radians().sin_cos();
        let (above, level) = self.above.to_radians().sin_cos();
        Projection::of([along, round, 0.0], [-round * above, along * above, level])
    }

    /// Where a place in space is seen, in millimetres to the right and up.
    pub fn seen(self, at: Vector) -> Spot {
        self.projection().seen(at)
    }
}

/// A projection by rays that run side by side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Projection {
    /// What each millimetre of space adds to the right and up.
    right: Vector,
    up: Vector,
    /// To the reader, of length one.
    pub(super) towards: Vector,
    /// Where a place seen to the right and up may be.
    back: [Vector; 2],
}

impl Projection {
    /// Where two measures of a place are seen to the right and up.
    pub(super) fn of(right: Vector, up: Vector) -> Self {
        let towards = cross(right, up);
        let long = length(towards);
        let back = [cross(up, towards), cross(towards, right)];
        Self {
            right,
            up,
            towards: scale(towards, 1.0 / long),
            back: back.map(|way| scale(way, 1.0 / (long * long))),
        }
    }

    pub(super) fn seen(&self, at: Vector) -> Spot {
        [dot(self.right, at), dot(self.up, at)]
    }

    /// Where a place of a flat part is seen.
    pub(super) fn of_flat(&self, place: &Rigid, [x, y]: Spot) -> Spot {
        self.seen(place.point([x, y, 0.0]))
    }

    /// How far along the ray through something seen a flat part lies, as it grows
    /// to the right, up, and from where nothing is added.
    pub(super) fn nearness(&self, place: &Rigid) -> [f64; 3] {
        let normal = place.turn[2];
        let along = dot(normal, self.towards);
        let [right, up] = self.back.map(|way| -dot(normal, way) / along);
        [right, up, dot(normal, place.shift) / along]
    }

    /// How much of the front of a flat part is turned to the reader.
    pub(super) fn turned_to(&self, place: &Rigid) -> f64 {
        dot(place.turn[2], self.towards)
    }

    /// The way to the light, of length one, which comes over the reader's left
    /// shoulder.
    pub(super) fn light(&self) -> Vector {
        self.light_aside(0.0)
    }

    /// The ways to the parts of the light from side to side: it is as wide as a
    /// window, and what it leaves dark has no sharp edge.
    pub(super) fn lights(&self) -> [Vector; 5] {
        [-2.0, -1.0, 0.0, 1.0, 2.0].map(|part| self.light_aside(part * WINDOW))
    }

    fn light_aside(&self, aside: f64) -> Vector {
        let [x, y, _] = self.right;
        let long = x.hypot(y);
        let right = [x / long, y / long, 0.0];
        let away = cross([0.0, 0.0, 1.0], right);
        let [across, towards, up] = LIGHT;
        let level = add(scale(right, across + aside), scale(away, towards));
        let light = add(level, [0.0, 0.0, up]);
        scale(light, 1.0 / length(light))
    }
}
