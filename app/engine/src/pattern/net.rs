//! Lines broken wherever they meet, so that what is left meets at ends only.

use super::border::{Border, edges_of};
use super::{Fault, Pattern, TOUCHES_WITHIN};
use crate::length::Length;
use crate::plane::{PieceFrame, Point, Segment, step};

/// The most points at which lines may end or meet.
const MOST_KNOTS: usize = 2000;

/// How often the pieces of lines are looked through for meetings. Breaking a
/// line moves it by a thousandth of a millimetre at most, so that it may come
/// to meet another; twice is the rule.
const MOST_ROUNDS: usize = 16;

/// What a piece of line was cut from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Source {
    /// The edge of the piece; the paper lies to the left.
    Outline,
    /// The edge of a hole; the paper lies to the left.
    Hole,
    /// A line, by its place in the pattern.
    Line(usize),
}

impl Source {
    pub(super) const fn is_border(self) -> bool {
        matches!(self, Self::Outline | Self::Hole)
    }
}

/// A piece of line between two knots, in the direction of what it was cut
/// from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Edge {
    pub from: usize,
    pub to: usize,
    pub source: Source,
    /// The straight line it was cut from, as drawn, by its place among these.
    drawn: usize,
}

/// Points and the pieces of line between them, which meet nowhere else.
#[derive(Default)]
pub(super) struct Net {
    pub knots: Vec<Point<PieceFrame>>,
    pub edges: Vec<Edge>,
    drawn: Vec<Segment<PieceFrame>>,
}

impl Net {
    /// The border with those lines that can be drawn, broken at each other.
    /// `None` where the border does not survive.
    pub(super) fn of(pattern: &Pattern, border: &Border, faults: &mut Vec<Fault>) -> Option<Self> {
        let mut net = Self::default();
        let holes = std::iter::repeat(Source::Hole);
        let sources = std::iter::once(Source::Outline).chain(holes);
        for (chain, source) in border.chains.iter().zip(sources) {
            for edge in edges_of(chain) {
                net.draw(edge, source);
            }
        }
        for (place, line) in pattern.lines.iter().enumerate() {
            let far = |at: &Point<PieceFrame>| at.x.abs().max(at.y.abs()) > Length::LIMIT;
            if let Some(at) = [line.from, line.to].into_iter().find(far) {
                faults.push(Fault::TooFar { at });
                continue;
            }
            if !net.draw(line.course(), Source::Line(place)) {
                faults.push(Fault::NoLength {
                    line: line.id,
                    at: line.from,
                });
            }
        }
        let mut settled = false;
        for _ in 0..MOST_ROUNDS {
            let breaks = net.meetings();
            settled = breaks.iter().all(Vec::is_empty);
            if settled || net.knots.len() > MOST_KNOTS {
                break;
            }
            net.break_up(breaks);
        }
        if !settled {
            faults.push(Fault::TooMany);
            return None;
        }
        if let Some(at) = net.border_fault() {
            faults.push(Fault::Outline { at });
            return None;
        }
        net.drop_doubles(pattern, faults);
        net.drop_outside(pattern, faults);
        Some(net)
    }

    /// The knot at a point, or one so near that the two are meant to be one.
    fn knot(&mut self, at: Point<PieceFrame>) -> usize {
        let near = |knot: &Point<PieceFrame>| {
            let apart = (knot.x - at.x).abs().max((knot.y - at.y).abs());
            apart <= TOUCHES_WITHIN && Segment::new(*knot, at).length() <= TOUCHES_WITHIN
        };
        self.knots.iter().position(near).unwrap_or_else(|| {
            self.knots.push(at);
            self.knots.len() - 1
        })
    }

    /// Adds a line; `false` where it has no length.
    fn draw(&mut self, course: Segment<PieceFrame>, source: Source) -> bool {
        let (from, to) = (self.knot(course.from), self.knot(course.to));
        let drawn = self.drawn.len();
        self.drawn.push(course);
        if from != to {
            self.edges.push(Edge {
                from,
                to,
                source,
                drawn,
            });
        }
        from != to
    }

    /// The course of an edge.
    pub(super) fn course(&self, edge: &Edge) -> Segment<PieceFrame> {
        Segment::new(self.knots[edge.from], self.knots[edge.to])
    }

    /// For each edge the knots at which it has to be broken.
    fn meetings(&mut self) -> Vec<Vec<usize>> {
        let courses: Vec<_> = self.edges.iter().map(|edge| self.course(edge)).collect();
        let boxes: Vec<_> = courses.iter().map(Reach::of).collect();
        let mut breaks = vec![Vec::new(); courses.len()];
        for (place, edge) in self.edges.iter().enumerate() {
            for (number, knot) in self.knots.iter().enumerate() {
                if boxes[place].holds(*knot)
                    && number != edge.from
                    && number != edge.to
                    && courses[place].is_near(*knot, TOUCHES_WITHIN)
                {
                    breaks[place].push(number);
                }
            }
        }
        for first in 0..courses.len() {
            for second in first + 1..courses.len() {
                // One broken already is looked at again in its pieces.
                if !boxes[first].meets(&boxes[second])
                    || !breaks[first].is_empty() && !breaks[second].is_empty()
                {
                    continue;
                }
                let Some(at) = courses[first].crossing(&courses[second]) else {
                    continue;
                };
                // Where the lines as drawn cross, their pieces do not decide.
                let drawn = [first, second].map(|place| self.drawn[self.edges[place].drawn]);
                let at = drawn[0].crossing(&drawn[1]).unwrap_or(at);
                let knot = self.knot(at);
                for place in [first, second] {
                    let edge = self.edges[place];
                    if knot != edge.from && knot != edge.to && !breaks[place].contains(&knot) {
                        breaks[place].push(knot);
                    }
                }
                if self.knots.len() > MOST_KNOTS {
                    return breaks;
                }
            }
        }
        breaks
    }

    /// Breaks every edge at its knots, in their order along it.
    fn break_up(&mut self, breaks: Vec<Vec<usize>>) {
        let edges = std::mem::take(&mut self.edges);
        for (edge, mut knots) in edges.into_iter().zip(breaks) {
            let start = self.knots[edge.from];
            let along = step(start, self.knots[edge.to]);
            knots.sort_by_key(|knot| {
                let to = step(start, self.knots[*knot]);
                along.0 * to.0 + along.1 * to.1
            });
            let mut from = edge.from;
            for to in knots.into_iter().chain([edge.to]) {
                if from != to {
                    self.edges.push(Edge { from, to, ..edge });
                }
                from = to;
            }
        }
    }

    /// A knot through which the border does not run exactly once: two parts of
    /// it come nearer to each other than can be told apart.
    fn border_fault(&self) -> Option<Point<PieceFrame>> {
        let mut leaving = vec![0; self.knots.len()];
        let border = self.edges.iter().filter(|edge| edge.source.is_border());
        border.for_each(|edge| leaving[edge.from] += 1);
        let twice = leaving.iter().position(|count| *count > 1);
        twice.map(|knot| self.knots[knot])
    }
}

/// The upright rectangle round an edge, widened by what counts as touching.
struct Reach {
    low: (i64, i64),
    high: (i64, i64),
}

impl Reach {
    fn of(course: &Segment<PieceFrame>) -> Self {
        let wide = TOUCHES_WITHIN.units();
        let [a, b] = [course.from, course.to].map(|at| (at.x.units(), at.y.units()));
        Self {
            low: (a.0.min(b.0) - wide, a.1.min(b.1) - wide),
            high: (a.0.max(b.0) + wide, a.1.max(b.1) + wide),
        }
    }

    fn holds(&self, at: Point<PieceFrame>) -> bool {
        let (x, y) = (at.x.units(), at.y.units());
        self.low.0 <= x && x <= self.high.0 && self.low.1 <= y && y <= self.high.1
    }

    fn meets(&self, other: &Self) -> bool {
        self.low.0 <= other.high.0
            && other.low.0 <= self.high.0
            && self.low.1 <= other.high.1
            && other.low.1 <= self.high.1
    }
}
