//! Judges an opening from where its panels lie, without asking the engine how
//! it came to them.

use foldwright_engine::fold::State;
use foldwright_engine::laid::LaidOut;
use foldwright_engine::pattern::Hinge;
use foldwright_engine::plane::{CardFrame, Point, Region};

/// Millimetres that count as nothing.
const NOTHING: f64 = 0.02;

type Spot = [f64; 2];

fn spot(at: Point<CardFrame>) -> Spot {
    [at.x.as_mm_f64(), at.y.as_mm_f64()]
}

fn distance(a: Spot, b: Spot) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// Where the ends of a crease lie as one of its panels has them.
fn ends(state: &State, hinge: &Hinge, panel: usize) -> [Spot; 2] {
    let place = &state.poses[panel].place;
    [hinge.course.from, hinge.course.to].map(|at| spot(place.point(at)))
}

fn is_open(state: &State, hinge: &Hinge) -> bool {
    state.poses[hinge.left].place.mirrored == state.poses[hinge.right].place.mirrored
}

/// How far a point lies to the left of the line through two others.
fn off([from, to]: [Spot; 2], at: Spot) -> f64 {
    let way = [to[0] - from[0], to[1] - from[1]];
    let long = way[0].hypot(way[1]);
    ((at[1] - from[1]) * way[0] - (at[0] - from[0]) * way[1]) / long
}

/// The ways in which a region lies off a line: to its right, and to its left.
fn sides(line: [Spot; 2], region: &Region<CardFrame>) -> [bool; 2] {
    let offs: Vec<f64> = region
        .contours()
        .flatten()
        .map(|at| off(line, spot(at)))
        .collect();
    [
        offs.iter().any(|off| *off < -NOTHING),
        offs.iter().any(|off| *off > NOTHING),
    ]
}

/// Whether paper holds together in a state, and none passes through a closed
/// crease.
fn state(laid: &LaidOut, state: &State) -> Result<(), String> {
    for (number, hinge) in laid.hinges.iter().enumerate() {
        let [left, right] = [hinge.left, hinge.right].map(|panel| ends(state, hinge, panel));
        if distance(left[0], right[0]) > NOTHING || distance(left[1], right[1]) > NOTHING {
            return Err(format!("hinge {number} is torn"));
        }
        if is_open(state, hinge) {
            continue;
        }
        for (other, pose) in state.poses.iter().enumerate() {
            if other == hinge.left || other == hinge.right {
                continue;
            }
            // A hair to each side of the crease, at its middle part.
            let middle = [0.31, 0.5, 0.73].iter().any(|share| {
                let at = [0, 1].map(|way| left[0][way] + (left[1][way] - left[0][way]) * share);
                let long = distance(left[0], left[1]);
                let square = [left[0][1] - left[1][1], left[1][0] - left[0][0]];
                [1.0, -1.0].iter().all(|side| {
                    let by = side * 10.0 * NOTHING / long;
                    contains(
                        pose.area().contours(),
                        [0, 1].map(|way| at[way] + square[way] * by),
                    )
                })
            });
            let over = [hinge.left, hinge.right].map(|panel| state.is_over(other, panel));
            if middle && over[0] != over[1] {
                return Err(format!("panel {other} passes through hinge {number}"));
            }
        }
    }
    Ok(())
}

fn contains(contours: Vec<Vec<Point<CardFrame>>>, at: Spot) -> bool {
    let mut inside = false;
    for ring in contours {
        let next = ring.iter().cycle().skip(1);
        for (from, to) in ring.iter().zip(next) {
            let (from, to) = (spot(*from), spot(*to));
            if (from[1] > at[1]) != (to[1] > at[1]) {
                let x = from[0] + (at[1] - from[1]) / (to[1] - from[1]) * (to[0] - from[0]);
                inside ^= x > at[0];
            }
        }
    }
    inside
}

/// Whether two states are one simple unfolding apart.
fn step(laid: &LaidOut, now: &State, next: &State) -> Result<(), String> {
    let moved: Vec<bool> = now
        .poses
        .iter()
        .zip(&next.poses)
        .map(|(a, b)| a.place != b.place)
        .collect();
    // Every crease between what moved and what did not lies on one line, is
    // closed before and open after; no other changes.
    let mut axis: Option<[Spot; 2]> = None;
    for (number, hinge) in laid.hinges.iter().enumerate() {
        let parts = moved[hinge.left] != moved[hinge.right];
        let opens = !is_open(now, hinge) && is_open(next, hinge);
        if parts != opens || (is_open(now, hinge) && !is_open(next, hinge)) {
            return Err(format!("hinge {number} does not open with what moves"));
        }
        if !parts {
            continue;
        }
        let line = ends(now, hinge, hinge.left);
        let longer = |axis: &[Spot; 2]| distance(axis[0], axis[1]) >= distance(line[0], line[1]);
        let with = *axis.get_or_insert(line);
        let (long, short) = if longer(&with) {
            (with, line)
        } else {
            (line, with)
        };
        if short.iter().any(|at| off(long, *at).abs() > NOTHING) {
            return Err(format!("hinge {number} opens off the line of the others"));
        }
        axis = Some(long);
    }
    let axis = axis.ok_or("nothing opens")?;
    // Half a turn about the line: each moved point comes to its mirror image.
    for (panel, laid) in laid
        .panels
        .iter()
        .enumerate()
        .filter(|(panel, _)| moved[*panel])
    {
        for corner in laid.facet.corners() {
            let before = spot(now.poses[panel].place.point(corner));
            let after = spot(next.poses[panel].place.point(corner));
            let middle = [0, 1].map(|way| f64::midpoint(before[way], after[way]));
            let same = (off(axis, before) + off(axis, after)).abs() <= NOTHING;
            if !same || off(axis, middle).abs() > NOTHING {
                return Err(format!("panel {panel} does not turn about the line"));
            }
        }
    }
    // One side rises, the other sinks; what moves is outermost on both, before
    // and after.
    let mut rises: Option<bool> = None;
    for (state, is_after) in [(now, false), (next, true)] {
        for m in 0..moved.len() {
            for s in 0..moved.len() {
                if !moved[m] || moved[s] || !state.poses[m].overlaps(&state.poses[s]) {
                    continue;
                }
                let (a, b) = (state.poses[m].area(), state.poses[s].area());
                let common = a.region().common(&b.region());
                let front = state.is_over(m, s);
                if front == state.is_over(s, m) {
                    return Err(format!("panels {m} and {s} lie in no order"));
                }
                for (left, on) in sides(axis, &common).into_iter().rev().enumerate() {
                    // Whether the left side rises, by this overlap.
                    let left = left == 0;
                    let by = (front == left) != is_after;
                    if on && *rises.get_or_insert(by) != by {
                        return Err(format!("panels {m} and {s} are in each other's way"));
                    }
                }
            }
        }
    }
    Ok(())
}

/// Whether the states lead from closed to flat, one simple unfolding after
/// another.
pub(crate) fn opening(laid: &LaidOut, states: &[State]) -> Result<(), String> {
    for (number, now) in states.iter().enumerate() {
        state(laid, now).map_err(|why| format!("in state {number} {why}"))?;
    }
    for (number, two) in states.windows(2).enumerate() {
        step(laid, &two[0], &two[1]).map_err(|why| format!("after state {number} {why}"))?;
    }
    let last = states.last().ok_or("no state")?;
    if laid.hinges.iter().all(|hinge| is_open(last, hinge)) {
        Ok(())
    } else {
        Err("it does not lie flat at the end".to_owned())
    }
}
