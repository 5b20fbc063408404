//! Lines broken wherever they meet, so that what is left meets at ends only.

use std::collections::BTreeMap;

use super::border::{Border, is_inside};
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
}

/// Points and the pieces of line between them, which meet nowhere else.
#[derive(Default)]
pub(super) struct Net {
    pub knots: Vec<Point<PieceFrame>>,
    pub edges: Vec<Edge>,
}

impl Net {
    /// The border with those lines that can be drawn, broken at each other.
    /// `None` where the border does not survive.
    pub(super) fn of(pattern: &Pattern, border: &Border, faults: &mut Vec<Fault>) -> Option<Self> {
        let mut net = Self::default();
        let holes = std::iter::repeat(Source::Hole);
        let sources = std::iter::once(Source::Outline).chain(holes);
        for (chain, source) in border.chains.iter().zip(sources) {
            let knots: Vec<_> = chain.iter().map(|corner| net.knot(*corner)).collect();
            for (place, from) in knots.iter().enumerate() {
                let to = knots[(place + 1) % knots.len()];
                net.connect(*from, to, source);
            }
        }
        for (place, line) in pattern.lines.iter().enumerate() {
            let far = |at: &Point<PieceFrame>| at.x.abs().max(at.y.abs()) > Length::LIMIT;
            if let Some(at) = [line.from, line.to].into_iter().find(far) {
                faults.push(Fault::TooFar { at });
                continue;
            }
            let (from, to) = (net.knot(line.from), net.knot(line.to));
            if !net.connect(from, to, Source::Line(place)) {
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

    fn connect(&mut self, from: usize, to: usize, source: Source) -> bool {
        if from != to {
            self.edges.push(Edge { from, to, source });
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
                self.connect(from, to, edge.source);
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

    /// Keeps one of several edges between the same knots, the border before
    /// the lines.
    fn drop_doubles(&mut self, pattern: &Pattern, faults: &mut Vec<Fault>) {
        let mut kept: BTreeMap<(usize, usize), Source> = BTreeMap::new();
        let mut doubled = Vec::new();
        self.edges.retain(|edge| {
            let ends = (edge.from.min(edge.to), edge.from.max(edge.to));
            let Some(first) = kept.get(&ends) else {
                kept.insert(ends, edge.source);
                return true;
            };
            doubled.push((*first, *edge));
            false
        });
        let id = |place: usize| pattern.lines.get(place).map(|line| line.id);
        let mut found: Vec<Fault> = Vec::new();
        for (first, edge) in doubled {
            let part = self.course(&edge);
            let Source::Line(second) = edge.source else {
                continue;
            };
            let Some(line) = id(second) else { continue };
            let fault = match first {
                Source::Outline | Source::Hole => Fault::AlongEdge { line, part },
                Source::Line(first) => Fault::Overlap {
                    lines: [id(first).unwrap_or(line), line],
                    part,
                },
            };
            match found.last_mut() {
                Some(last) if joins(last, &fault) => *last = joined(last, &fault),
                _ => found.push(fault),
            }
        }
        faults.append(&mut found);
    }

    /// Drops the parts of lines that lie off the paper.
    fn drop_outside(&mut self, pattern: &Pattern, faults: &mut Vec<Fault>) {
        let border: Vec<_> = self
            .edges
            .iter()
            .filter(|edge| edge.source.is_border())
            .map(|edge| self.course(edge))
            .collect();
        let mut found: Vec<Fault> = Vec::new();
        let knots = &self.knots;
        self.edges.retain(|edge| {
            let Source::Line(place) = edge.source else {
                return true;
            };
            let part = Segment::new(knots[edge.from], knots[edge.to]);
            let inside = is_inside(border.iter().copied(), part.from, part.to);
            if let (false, Some(line)) = (inside, pattern.lines.get(place)) {
                let fault = Fault::Outside {
                    line: line.id,
                    part,
                };
                match found.last_mut() {
                    Some(last) if joins(last, &fault) => *last = joined(last, &fault),
                    _ => found.push(fault),
                }
            }
            inside
        });
        faults.append(&mut found);
    }

    /// The creases that cross two by two, both running on unchanged, where
    /// nothing else meets them.
    pub(super) fn crossings(&self, pattern: &Pattern) -> Vec<Fault> {
        let mut at_knot: Vec<Vec<Source>> = vec![Vec::new(); self.knots.len()];
        for edge in &self.edges {
            at_knot[edge.from].push(edge.source);
            at_knot[edge.to].push(edge.source);
        }
        let crease = |source: &Source| match source {
            Source::Outline | Source::Hole => None,
            Source::Line(place) => pattern.lines.get(*place).filter(|line| line.fold().is_some()),
        };
        let mut faults = Vec::new();
        for (at, mut sources) in self.knots.iter().zip(at_knot) {
            sources.sort_unstable();
            let [a, b, c, d] = sources[..] else { continue };
            if let (true, Some(first), Some(second)) = (a == b && c == d, crease(&a), crease(&c)) {
                faults.push(Fault::Crossing {
                    lines: [first.id, second.id],
                    at: *at,
                });
            }
        }
        faults
    }
}

/// Whether one fault goes on where another ends.
fn joins(first: &Fault, next: &Fault) -> bool {
    match (first, next) {
        (
            Fault::Outside { line, part },
            Fault::Outside {
                line: other,
                part: next,
            },
        )
        | (
            Fault::AlongEdge { line, part },
            Fault::AlongEdge {
                line: other,
                part: next,
            },
        ) => line == other && part.to == next.from,
        (
            Fault::Overlap { lines, part },
            Fault::Overlap {
                lines: other,
                part: next,
            },
        ) => lines == other && part.to == next.from,
        _ => false,
    }
}

/// Two faults of which the second goes on where the first ends.
fn joined(first: &Fault, next: &Fault) -> Fault {
    let mut both = *first;
    if let (
        Fault::Outside { part, .. } | Fault::AlongEdge { part, .. } | Fault::Overlap { part, .. },
        Fault::Outside { part: next, .. }
        | Fault::AlongEdge { part: next, .. }
        | Fault::Overlap { part: next, .. },
    ) = (&mut both, next)
    {
        part.to = next.to;
    }
    both
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
