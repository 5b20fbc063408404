//! Lines broken wherever they meet, so that what is left meets at ends only.
//!
//! Every line as drawn is led through all the points where lines end or cross
//! that lie on it, or so near that they count as on it, in their order along
//! it.

use super::border::{Border, edges_of};
use super::{Fault, Pattern, TOUCHES_WITHIN};
use crate::length::Length;
use crate::plane::{PieceFrame, Point, Segment, step};
use crate::sorted::InOrder as _;

/// The most points at which lines may end or cross.
const MOST_KNOTS: usize = 2000;

/// How often the lines are led anew. Led through points beside it a line moves
/// by a thousandth of a millimetre, so that it may come to cross another; once
/// is the rule.
const MOST_ROUNDS: i64 = 8;

/// What a piece of line was cut from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Source {
    /// The edge of the piece; the paper lies to the left.
    Outline,
    /// The edge of a hole; the paper lies to the left.
    Hole,
    /// A line, by its index in the pattern.
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
        let mut drawn = Vec::new();
        let holes = std::iter::repeat(Source::Hole);
        let sources = std::iter::once(Source::Outline).chain(holes);
        for (chain, source) in border.chains.iter().zip(sources) {
            drawn.extend(edges_of(chain).map(|course| (course, source)));
            for corner in chain {
                net.knot(*corner);
            }
        }
        let far = |at: &Point<PieceFrame>| at.x.abs().max(at.y.abs()) > Length::LIMIT;
        for (index, line) in pattern.lines.iter().enumerate() {
            match [line.from, line.to].into_iter().find(far) {
                Some(at) => faults.push(Fault::TooFar { at }),
                None => drawn.push((line.course(), Source::Line(index))),
            }
        }
        // In an order of their own, so that which of two near points is kept
        // does not hang on the order of the lines.
        let ends = drawn
            .iter()
            .flat_map(|(course, _)| [course.from, course.to]);
        net.add_knots(ends.collect());
        let no_length = |(course, _): &(Segment<_>, _)| net.ends(course).is_none();
        for (course, source) in drawn.extract_if(.., |drawn| no_length(drawn)) {
            if let Source::Line(index) = source {
                faults.push(Fault::NoLength {
                    line: pattern.lines[index].id,
                    at: course.from,
                });
            }
        }
        if !net.settle(&drawn) {
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

    /// Breaks the lines until their pieces cross nowhere; `false` where that
    /// does not come to an end.
    fn settle(&mut self, drawn: &[(Segment<PieceFrame>, Source)]) -> bool {
        let courses: Vec<_> = drawn.iter().map(|(course, _)| *course).collect();
        let mut crossings = crossings(&courses);
        for round in 1..=MOST_ROUNDS {
            self.add_knots(crossings);
            if self.knots.len() > MOST_KNOTS {
                return false;
            }
            self.lead(drawn, TOUCHES_WITHIN * round);
            let courses: Vec<_> = self.edges.iter().map(|edge| self.course(edge)).collect();
            crossings = self::crossings(&courses);
            if crossings.is_empty() {
                return true;
            }
        }
        false
    }

    /// The knot that stands for a point: at it, or so near that the two are
    /// meant to be one.
    fn knot_at(&self, at: Point<PieceFrame>) -> Option<usize> {
        self.knots.iter().position(|knot| {
            let apart = (knot.x - at.x).abs().max((knot.y - at.y).abs());
            apart <= TOUCHES_WITHIN && Segment::new(*knot, at).length() <= TOUCHES_WITHIN
        })
    }

    fn knot(&mut self, at: Point<PieceFrame>) {
        if self.knot_at(at).is_none() {
            self.knots.push(at);
        }
    }

    fn add_knots(&mut self, mut points: Vec<Point<PieceFrame>>) {
        points.put_in_order();
        points.dedup();
        for at in points {
            if self.knots.len() > MOST_KNOTS {
                return;
            }
            self.knot(at);
        }
    }

    /// The knots a line runs between; `None` where they are one.
    fn ends(&self, course: &Segment<PieceFrame>) -> Option<(usize, usize)> {
        let (from, to) = (self.knot_at(course.from)?, self.knot_at(course.to)?);
        (from != to).then_some((from, to))
    }

    /// Leads every line through the knots that lie on it.
    fn lead(&mut self, drawn: &[(Segment<PieceFrame>, Source)], reach: Length) {
        self.edges.clear();
        for (course, source) in drawn {
            let Some((mut from, last)) = self.ends(course) else {
                continue;
            };
            let around = Frame::of(course, reach);
            let on_it = |(number, knot): &(usize, &Point<PieceFrame>)| {
                around.holds(**knot)
                    && *number != from
                    && *number != last
                    && course.is_near(**knot, reach)
            };
            let knots = self.knots.iter().enumerate().filter(on_it);
            let along = step(course.from, course.to);
            let mut knots: Vec<_> = knots
                .map(|(number, knot)| {
                    let to = step(course.from, *knot);
                    (along.0 * to.0 + along.1 * to.1, number)
                })
                .collect();
            knots.put_in_order();
            for to in knots.into_iter().map(|(_, number)| number).chain([last]) {
                let source = *source;
                self.edges.push(Edge { from, to, source });
                from = to;
            }
        }
    }

    /// The course of an edge.
    pub(super) fn course(&self, edge: &Edge) -> Segment<PieceFrame> {
        Segment::new(self.knots[edge.from], self.knots[edge.to])
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

/// Where lines cross within each other; a few more than can be worked on are
/// enough.
fn crossings(courses: &[Segment<PieceFrame>]) -> Vec<Point<PieceFrame>> {
    let frames: Vec<_> = courses
        .iter()
        .map(|course| Frame::of(course, Length::ZERO))
        .collect();
    let mut found = Vec::new();
    for (number, course) in courses.iter().enumerate() {
        for other in number + 1..courses.len() {
            if frames[number].meets(&frames[other]) {
                found.extend(course.crossing(&courses[other]));
            }
        }
        if found.len() > MOST_KNOTS * 4 {
            break;
        }
    }
    found
}

/// The upright rectangle round a line, widened by some reach.
struct Frame {
    low: Point<PieceFrame>,
    high: Point<PieceFrame>,
}

impl Frame {
    fn of(course: &Segment<PieceFrame>, reach: Length) -> Self {
        let (a, b) = (course.from, course.to);
        Self {
            low: Point::new(a.x.min(b.x) - reach, a.y.min(b.y) - reach),
            high: Point::new(a.x.max(b.x) + reach, a.y.max(b.y) + reach),
        }
    }

    fn holds(&self, at: Point<PieceFrame>) -> bool {
        self.low.x <= at.x && at.x <= self.high.x && self.low.y <= at.y && at.y <= self.high.y
    }

    fn meets(&self, other: &Self) -> bool {
        self.low.x <= other.high.x
            && other.low.x <= self.high.x
            && self.low.y <= other.high.y
            && other.low.y <= self.high.y
    }
}
