//! One closed way round.

use foldwright_engine::plane::FLAT_WITHIN;
use kurbo::{BezPath, ParamCurve, ParamCurveExtrema, PathEl, PathSeg, Point, Rect, Shape, flatten};

use crate::walk::LeftOut;

/// The largest that is taken, in millimetres: nothing of a recipe is larger.
const LARGEST_MM: f64 = 10_000.0;

/// How near the ends of a way lie that is closed, of its size, where that is not told in
/// millimetres. Our own bound.
const ENDS_MEET: f64 = 1e-4;

/// How fine the corners are by which outlines are compared and drawn small, of an
/// outline's size. Our own bound.
const COARSE: f64 = 1e-3;

/// The most corners that are looked at. Our own bound.
const MOST_CORNERS: usize = 20_000;

/// A closed way round.
#[derive(Debug, Clone)]
pub(crate) struct Ring {
    path: BezPath,
    bounds: Rect,
    area: f64,
    /// Its corners, coarsely.
    corners: Vec<Point>,
}

impl Ring {
    /// A part of a path, where it is closed and encloses something: told so, or its ends
    /// meet.
    pub(crate) fn of(part: &[PathEl], told: bool) -> Result<Self, LeftOut> {
        let mut path = BezPath::from_vec(part.to_vec());
        if !path.is_finite() {
            return Err(LeftOut::Unread);
        }
        let bounds = path.bounding_box();
        let size = bounds.width().max(bounds.height());
        let ends = part.first().and_then(PathEl::end_point);
        let ends = ends.zip(part.iter().rev().find_map(PathEl::end_point));
        let near = if told {
            FLAT_WITHIN.as_mm_f64()
        } else {
            size * ENDS_MEET
        };
        if part.last() != Some(&PathEl::ClosePath) {
            if ends.is_none_or(|(start, end)| start.distance(end) > near) {
                return Err(LeftOut::Open);
            }
            path.close_path();
        }
        if told && size > LARGEST_MM {
            return Err(LeftOut::Huge);
        }
        let area = path.area().abs();
        // What can't be told from a line, or from a point.
        let is_line = bounds.width().min(bounds.height()) <= size * 1e-6;
        let encloses = area > size * size * 1e-9;
        if is_line || !encloses || size < 1e-9 {
            return Err(LeftOut::Open);
        }
        let corners = flat(&path, size * COARSE).ok_or(LeftOut::Unread)?;
        Ok(Self {
            path,
            bounds,
            area,
            corners,
        })
    }

    pub(crate) fn bounds(&self) -> Rect {
        self.bounds
    }

    pub(crate) fn area(&self) -> f64 {
        self.area
    }

    /// Its corners, coarsely.
    pub(crate) fn corners(&self) -> &[Point] {
        &self.corners
    }

    /// Its corners, each so near to it; `None` where they are more than are looked at.
    pub(crate) fn fine(&self, within: f64) -> Option<Vec<Point>> {
        // Half of it for curves, and half for leaving out what hardly turns.
        let corners = flat(&self.path, within / 2.0)?;
        Some(spared(&corners, within / 2.0))
    }

    /// Whether both are the same way round, drawn twice.
    pub(crate) fn is_same(&self, other: &Self) -> bool {
        let near = self.bounds.width().max(self.bounds.height()) * 1e-6;
        let [a, b] = [self.bounds, other.bounds];
        let far = [a.x0 - b.x0, a.x1 - b.x1, a.y0 - b.y0, a.y1 - b.y1];
        far.into_iter().all(|it| it.abs() <= near)
            && (self.area - other.area).abs() <= self.area * 1e-6
    }

    /// Whether another lies in it, by some of its corners.
    pub(crate) fn holds(&self, other: &Self) -> bool {
        let [a, b] = [self.bounds, other.bounds];
        if b.x0 < a.x0 || b.x1 > a.x1 || b.y0 < a.y0 || b.y1 > a.y1 {
            return false;
        }
        let each = other.corners.len() / 16 + 1;
        let mut some = other.corners.iter().step_by(each);
        some.all(|at| is_in(&self.corners, *at))
    }
}

/// Whether a point lies in a ring: a ray from it leaves as often as it enters, and once
/// more.
fn is_in(ring: &[Point], at: Point) -> bool {
    let sides = ring.iter().zip(ring.iter().cycle().skip(1));
    let crossed = sides.filter(|(from, to)| {
        (from.y > at.y) != (to.y > at.y)
            && at.x < from.x + (at.y - from.y) / (to.y - from.y) * (to.x - from.x)
    });
    crossed.count() % 2 == 1
}

/// The corners of straight pieces that lie so near a way round, those farthest out at
/// their exact places.
fn flat(path: &BezPath, within: f64) -> Option<Vec<Point>> {
    let mut parted = BezPath::new();
    for piece in path.segments() {
        if parted.elements().is_empty() {
            parted.move_to(piece.start());
        }
        if let PathSeg::Line(line) = piece {
            parted.line_to(line.p1);
            continue;
        }
        for range in piece.extrema_ranges() {
            if range.start < range.end {
                parted.push(piece.subsegment(range).as_path_el());
            }
        }
    }
    let mut corners: Vec<Point> = Vec::new();
    let mut is_whole = true;
    flatten(parted, within, |piece| {
        if let Some(at) = piece.end_point()
            && corners.last() != Some(&at)
        {
            is_whole &= corners.len() < MOST_CORNERS && at.is_finite();
            if is_whole {
                corners.push(at);
            }
        }
    });
    while corners.len() > 1 && corners.first() == corners.last() {
        corners.pop();
    }
    (is_whole && corners.len() >= 3).then_some(corners)
}

/// A ring without the corners that lie so near the way between others (by Ramer, and by
/// Douglas and Peucker). Those farthest out at its four sides stay.
fn spared(ring: &[Point], within: f64) -> Vec<Point> {
    let farthest = |of: fn(&Point) -> f64| {
        let all = ring.iter().enumerate();
        all.max_by(|a, b| of(a.1).total_cmp(&of(b.1)))
            .map(|it| it.0)
    };
    let sides: [fn(&Point) -> f64; 4] = [|at| at.x, |at| -at.x, |at| at.y, |at| -at.y];
    let mut stays: Vec<usize> = sides.into_iter().filter_map(farthest).collect();
    stays.sort_unstable();
    stays.dedup();
    let firsts = stays.clone();
    let count = ring.len();
    let at = |index: usize| ring[index % count];
    for (place, from) in firsts.iter().enumerate() {
        let to = firsts.get(place + 1).map_or(firsts[0] + count, |to| *to);
        let mut ways = vec![(*from, to)];
        while let Some((from, to)) = ways.pop() {
            let far = (from + 1..to).map(|it| (distance(at(it), at(from), at(to)), it));
            let far = far.max_by(|a, b| a.0.total_cmp(&b.0));
            if let Some((_, it)) = far.filter(|(far, _)| *far > within) {
                stays.push(it % count);
                ways.extend([(from, it), (it, to)]);
            }
        }
    }
    stays.sort_unstable();
    stays.into_iter().map(at).collect()
}

/// How far a point is from a straight way.
fn distance(at: Point, from: Point, to: Point) -> f64 {
    let (along, off) = (to - from, at - from);
    let square = along.hypot2();
    let share = if square > 0.0 {
        (off.dot(along) / square).clamp(0.0, 1.0)
    } else {
        0.0
    };
    at.distance(from + along * share)
}
