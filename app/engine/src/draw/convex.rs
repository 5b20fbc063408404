//! Polygons in the picture without a corner that points inwards, so that what
//! two of them have in common is soon told.

use std::ops::Range;

use super::Spot;
use crate::sorted::InOrder as _;

/// A polygon parted into ones without corners that point inwards: it itself
/// where it has none, otherwise slices from side to side.
pub(super) fn parts(outline: &[Spot], holes: &[Vec<Spot>]) -> Vec<Vec<Spot>> {
    if holes.is_empty() && is_convex(outline) {
        return vec![outline.to_vec()];
    }
    let rings = || std::iter::once(outline).chain(holes.iter().map(Vec::as_slice));
    let edges: Vec<[Spot; 2]> = rings()
        .flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)))
        .map(|(a, b)| if a[1] <= b[1] { [*a, *b] } else { [*b, *a] })
        .collect();
    let mut heights: Vec<f64> = rings().flatten().map(|at| at[1]).collect();
    heights.put_in_order_by(f64::total_cmp);
    heights.dedup();
    let mut slices: Vec<Slice> = Vec::new();
    for (step, (low, high)) in heights.iter().zip(heights.iter().skip(1)).enumerate() {
        let middle = f64::midpoint(*low, *high);
        // No edge ends or meets another between two heights.
        let mut across: Vec<(f64, usize)> = edges
            .iter()
            .enumerate()
            .filter(|(_, [from, to])| from[1] <= *low && to[1] >= *high)
            .map(|(number, edge)| (at_height(edge, middle), number))
            .collect();
        across.put_in_order_by(|a, b| a.0.total_cmp(&b.0));
        for pair in across.chunks_exact(2) {
            let [(_, left), (_, right)] = pair else {
                continue;
            };
            let sides = [*left, *right];
            let mut below = slices.iter_mut();
            match below.find(|slice| slice.steps.end == step && slice.sides == sides) {
                Some(slice) => slice.steps.end += 1,
                None => slices.push(Slice {
                    sides,
                    steps: step..step + 1,
                }),
            }
        }
    }
    let corner = |side: usize, step: usize| {
        let height = *heights.get(step)?;
        Some([at_height(edges.get(side)?, height), height])
    };
    let corners = |slice: Slice| {
        let ([left, right], Range { start, end }) = (slice.sides, slice.steps);
        let round = [(left, start), (right, start), (right, end), (left, end)];
        let corners = round.into_iter();
        corners
            .filter_map(|(side, step)| corner(side, step))
            .collect()
    };
    slices.into_iter().map(corners).collect()
}

/// What lies between two edges over some steps from height to height.
struct Slice {
    sides: [usize; 2],
    steps: Range<usize>,
}

/// How far to the right an edge, its lower end first, passes a height.
fn at_height([from, to]: &[Spot; 2], height: f64) -> f64 {
    let rise = to[1] - from[1];
    if rise <= 0.0 {
        return from[0];
    }
    from[0] + (to[0] - from[0]) * ((height - from[1]) / rise)
}

fn is_convex(ring: &[Spot]) -> bool {
    let next = ring.iter().cycle().skip(1);
    let after = ring.iter().cycle().skip(2);
    let mut turns = ring.iter().zip(next).zip(after);
    turns.all(|((a, b), c)| side(*a, *b, *c) >= 0.0)
}

/// Twice the area of a triangle; positive where its corners go anticlockwise.
fn side(a: Spot, b: Spot, c: Spot) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

/// Whether a polygon, corners anticlockwise and none pointing inwards, holds a
/// place.
pub(super) fn holds(ring: &[Spot], at: Spot) -> bool {
    let mut edges = ring.iter().zip(ring.iter().cycle().skip(1));
    edges.all(|(from, to)| side(*from, *to, at) >= 0.0)
}

/// Twice the area of a polygon; positive where its corners go anticlockwise.
pub(super) fn twice_area(ring: &[Spot]) -> f64 {
    let Some(first) = ring.first() else {
        return 0.0;
    };
    let pairs = ring.iter().zip(ring.iter().skip(1));
    pairs.map(|(a, b)| side(*first, *a, *b)).sum()
}

/// What two polygons, corners anticlockwise and none pointing inwards, have in
/// common. `room` is where it is worked out, so that many pairs share it.
pub(super) fn common<'a>(one: &[Spot], other: &[Spot], room: &'a mut [Vec<Spot>; 2]) -> &'a [Spot] {
    let [now, next] = room;
    now.clear();
    now.extend_from_slice(one);
    // Sutherland and Hodgman: edge by edge of the other, what lies outside goes.
    for (from, to) in other.iter().zip(other.iter().cycle().skip(1)) {
        next.clear();
        let Some(last) = now.last() else { break };
        let mut before = (*last, side(*from, *to, *last));
        for at in now.iter() {
            let within = side(*from, *to, *at);
            if (before.1 > 0.0 && within < 0.0) || (before.1 < 0.0 && within > 0.0) {
                let share = before.1 / (before.1 - within);
                next.push([0, 1].map(|i| before.0[i] + (at[i] - before.0[i]) * share));
            }
            if within >= 0.0 {
                next.push(*at);
            }
            before = (*at, within);
        }
        std::mem::swap(now, next);
    }
    now
}

/// The part of a polygon without corners that point inwards where a value that
/// grows evenly is positive.
pub(super) fn where_positive(ring: &[Spot], value: impl Fn(Spot) -> f64) -> Vec<Spot> {
    let mut kept = Vec::new();
    for (from, to) in ring.iter().zip(ring.iter().cycle().skip(1)) {
        let (here, there) = (value(*from), value(*to));
        if here >= 0.0 {
            kept.push(*from);
        }
        if (here > 0.0 && there < 0.0) || (here < 0.0 && there > 0.0) {
            let share = here / (here - there);
            kept.push([0, 1].map(|i| from[i] + (to[i] - from[i]) * share));
        }
    }
    kept
}
