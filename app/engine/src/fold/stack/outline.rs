//! Outlines as straight edges for measuring along and across them.

use crate::plane::{CardFrame, Point, Region, SAME_WITHIN};
use crate::sorted::InOrder as _;

/// Widths below this do not count, and lines nearer than this to each other
/// are one: what paper that fits may miss, in units of lengths.
pub(super) const HAIR: f64 = SAME_WITHIN.as_units_f64();

/// A point in units of lengths.
pub(super) type Spot = [f64; 2];

pub(super) fn spot(at: Point<CardFrame>) -> Spot {
    [at.x.as_units_f64(), at.y.as_units_f64()]
}

/// A stretch of a line, as distances from where the line begins.
pub(super) type Stretch = (f64, f64);

/// The edges round a region, and the smallest upright box round them.
pub(super) struct Outline {
    pub(super) edges: Vec<[Spot; 2]>,
    pub(super) low: Spot,
    pub(super) high: Spot,
}

impl Outline {
    pub(super) fn of(region: &Region<CardFrame>) -> Self {
        let mut outline = Self {
            edges: Vec::new(),
            low: [f64::INFINITY; 2],
            high: [f64::NEG_INFINITY; 2],
        };
        for corners in region.contours() {
            let Some(mut last) = corners.last().map(|at| spot(*at)) else {
                continue;
            };
            for next in corners.into_iter().map(spot) {
                for axis in [0, 1] {
                    outline.low[axis] = outline.low[axis].min(next[axis]);
                    outline.high[axis] = outline.high[axis].max(next[axis]);
                }
                outline.edges.push([last, next]);
                last = next;
            }
        }
        outline
    }

    /// The stretches of a segment that run inside.
    pub(super) fn along(&self, line: &Line) -> Vec<Stretch> {
        let ends = [line.from, line.at(line.length)];
        let misses = (0..2).any(|axis| {
            ends[0][axis].max(ends[1][axis]) < self.low[axis]
                || ends[0][axis].min(ends[1][axis]) > self.high[axis]
        });
        if misses {
            return Vec::new();
        }
        let mut crossings: Vec<f64> = Vec::new();
        for [from, to] in &self.edges {
            let ((x, over), (to_x, to_over)) = (line.measure(*from), line.measure(*to));
            if (over > 0.0) != (to_over > 0.0) {
                crossings.push(x + (to_x - x) * over / (over - to_over));
            }
        }
        crossings.put_in_order_by(f64::total_cmp);
        crossings
            .chunks_exact(2)
            .map(|ends| (ends[0].max(0.0), ends[1].min(line.length)))
            .filter(|(from, to)| from < to)
            .collect()
    }
}

/// A segment, measured along and across.
#[derive(Clone, Copy)]
pub(super) struct Line {
    from: Spot,
    along: Spot,
    pub(super) length: f64,
}

impl Line {
    /// `None` where the ends are one.
    pub(super) fn between(from: Spot, to: Spot) -> Option<Self> {
        let (x, y) = (to[0] - from[0], to[1] - from[1]);
        let length = x.hypot(y);
        (length > HAIR).then(|| Self {
            from,
            along: [x / length, y / length],
            length,
        })
    }

    fn at(&self, distance: f64) -> Spot {
        [0, 1].map(|axis| self.from[axis] + self.along[axis] * distance)
    }

    /// The segment moved to its left, or to its right where negative.
    pub(super) fn beside(&self, left: f64) -> Self {
        let [x, y] = self.along;
        Self {
            from: [self.from[0] - y * left, self.from[1] + x * left],
            ..*self
        }
    }

    /// How far along the line a point is, and how far to the left of it.
    fn measure(&self, of: Spot) -> (f64, f64) {
        let (x, y) = (of[0] - self.from[0], of[1] - self.from[1]);
        let [along_x, along_y] = self.along;
        (x * along_x + y * along_y, y * along_x - x * along_y)
    }

    /// The stretch where another segment runs on this one; `None` where they
    /// do not.
    pub(super) fn shared(&self, other: &Self) -> Option<Stretch> {
        let (a, a_off) = self.measure(other.from);
        let (b, b_off) = self.measure(other.at(other.length));
        let (from, to) = (a.min(b).max(0.0), a.max(b).min(self.length));
        if to - from <= HAIR {
            return None;
        }
        // Lines that nearly agree may part far away: measured where they meet.
        let off = |at: f64| a_off + (b_off - a_off) * (at - a) / (b - a);
        (off(from).abs() <= HAIR && off(to).abs() <= HAIR).then_some((from, to))
    }
}

/// What two lists of stretches have in common, in all.
pub(super) fn common(one: &[Stretch], other: &[Stretch]) -> f64 {
    one.iter()
        .flat_map(|a| other.iter().map(|b| a.1.min(b.1) - a.0.max(b.0)))
        .filter(|shared| *shared > 0.0)
        .sum()
}
