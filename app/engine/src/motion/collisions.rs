//! Facets that pass through each other.

use super::linkage::Linkage;
use super::space::{Rigid, Vector, add, cross, dot, length, scale};
use crate::sorted::InOrder as _;

/// How far one facet has to reach through another, in millimetres, before they
/// collide: about a heavy card's caliper, so that what touches may touch.
/// (Own choice.)
const TOUCH: f64 = 0.25;

/// Sine of the angle between planes (1°) under which facets only lie on each
/// other: what lies in a stack is for the stack order to judge.
const STACKED: f64 = 0.0175;

/// A facet placed in space.
struct Placed {
    rings: Vec<Vec<Vector>>,
    facing: Vector,
    /// Distance of its plane from the origin along `facing`.
    off: f64,
    low: Vector,
    high: Vector,
}

impl Placed {
    fn of(rings: &[Vec<Vector>], lay: &Rigid) -> Self {
        let placed = |ring: &Vec<Vector>| ring.iter().map(|at| lay.point(*at)).collect();
        let rings: Vec<Vec<Vector>> = rings.iter().map(placed).collect();
        let ends = |pick: fn(f64, f64) -> f64| {
            let corners = rings.iter().flatten().copied();
            corners
                .reduce(|a, b| [0, 1, 2].map(|way| pick(a[way], b[way])))
                .unwrap_or(lay.shift)
        };
        Self {
            facing: lay.turn[2],
            off: dot(lay.turn[2], lay.shift),
            low: ends(f64::min),
            high: ends(f64::max),
            rings,
        }
    }

    /// Where the facet's inside lies on the line at `height` from the plane of
    /// `other`, as stretches along `way`, which is a direction in both planes.
    fn slice(&self, other: &Self, height: f64, way: Vector) -> Vec<[f64; 2]> {
        let above = |at: Vector| dot(at, other.facing) - other.off - height;
        let mut crossings = Vec::new();
        for ring in &self.rings {
            for (&before, &corner) in ring.iter().zip(ring.iter().cycle().skip(1)) {
                let (from, to) = (above(before), above(corner));
                if (from > 0.0) != (to > 0.0) {
                    let share = from / (from - to);
                    let [start, end] = [before, corner].map(|at| dot(at, way));
                    crossings.push(start + (end - start) * share);
                }
            }
        }
        crossings.put_in_order_by(f64::total_cmp);
        let pairs = crossings.chunks_exact(2);
        pairs.map(|pair| [pair[0], pair[1]]).collect()
    }

    /// Where the facet reaches through the plane of `other` to both sides.
    fn through(&self, other: &Self, way: Vector) -> Vec<[f64; 2]> {
        let [above, on, below] = [TOUCH, 0.0, -TOUCH].map(|height| self.slice(other, height, way));
        common(&common(&above, &on), &below)
    }

    /// A place where two facets pass through each other.
    fn meets(&self, other: &Self) -> Option<Vector> {
        let apart =
            (0..3).any(|way| self.low[way] > other.high[way] || other.low[way] > self.high[way]);
        if apart {
            return None;
        }
        let along = cross(self.facing, other.facing);
        let sine = length(along);
        if sine < STACKED {
            return None;
        }
        let way = scale(along, 1.0 / sine);
        let mine = self.through(other, way);
        if mine.is_empty() {
            return None;
        }
        let [from, to] = common(&mine, &other.through(self, way))
            .into_iter()
            .find(|[from, to]| to - from > TOUCH)?;
        // The point in both planes at the middle of the stretch.
        let across = scale(cross(other.facing, way), self.off / sine);
        let back = scale(cross(way, self.facing), other.off / sine);
        Some(add(add(across, back), scale(way, f64::midpoint(from, to))))
    }
}

/// What two lists of stretches have in common.
fn common(a: &[[f64; 2]], b: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut both = Vec::new();
    for [from, to] in a {
        for [other_from, other_to] in b {
            let stretch = [from.max(*other_from), to.min(*other_to)];
            if stretch[0] < stretch[1] {
                both.push(stretch);
            }
        }
    }
    both
}

/// Looks for collisions pose after pose, each pair of facets once.
pub(super) struct Collisions {
    /// Outline and holes of each facet, in it.
    rings: Vec<Vec<Vec<Vector>>>,
    /// Pairs of facets that may meet and have not been found to.
    pairs: Vec<[usize; 2]>,
}

impl Collisions {
    /// `joined` pairs of facets share a crease.
    pub(super) fn new(
        linkage: &Linkage,
        rings: Vec<Vec<Vec<Vector>>>,
        mut joined: Vec<[usize; 2]>,
    ) -> Self {
        for pair in &mut joined {
            pair.put_in_order();
        }
        joined.put_in_order();
        let body = |facet: usize| linkage.lays[facet].0;
        let mut pairs = Vec::new();
        for second in 0..rings.len() {
            for first in 0..second {
                let shared = joined.binary_search(&[first, second]).is_ok();
                if body(first) != body(second) && !shared {
                    pairs.push([first, second]);
                }
            }
        }
        Self { rings, pairs }
    }

    /// The pairs that first meet in this pose, and where.
    pub(super) fn in_pose(&mut self, facets: &[Rigid]) -> Vec<([usize; 2], Vector)> {
        let placed: Vec<Placed> = self
            .rings
            .iter()
            .zip(facets)
            .map(|(rings, lay)| Placed::of(rings, lay))
            .collect();
        let mut met = Vec::new();
        self.pairs.retain(|[first, second]| {
            let place = placed[*first].meets(&placed[*second]);
            met.extend(place.map(|at| ([*first, *second], at)));
            place.is_none()
        });
        met
    }
}
