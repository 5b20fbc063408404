//! The edge of a piece and of its holes.

use std::cmp::Ordering;

use super::{Fault, MOST_CORNERS, Pattern};
use crate::length::Length;
use crate::plane::{PieceFrame, Point, Polygon, Segment, step};

type Corner = Point<PieceFrame>;

/// A sound edge: the outline anticlockwise, then the holes clockwise, so that
/// the paper always lies to the left.
pub(super) struct Border {
    pub chains: Vec<Vec<Corner>>,
}

impl Border {
    /// The sound part of a pattern's edge; `None` where not even the outline
    /// is. A hole that is not is left out.
    pub(super) fn of(pattern: &Pattern, faults: &mut Vec<Fault>) -> Option<Self> {
        let polygons = || std::iter::once(&pattern.outline).chain(&pattern.holes);
        if polygons()
            .map(|polygon| polygon.corners.len())
            .sum::<usize>()
            > MOST_CORNERS
        {
            faults.push(Fault::TooMany);
            return None;
        }
        if let Some(fault) = unsound(&pattern.outline, |at| Fault::Outline { at }) {
            faults.push(fault);
            return None;
        }
        let mut border = Self {
            chains: vec![turned(&pattern.outline, Ordering::Greater)],
        };
        for (number, hole) in pattern.holes.iter().enumerate() {
            let fault = |at| Fault::Hole { hole: number, at };
            let wrong = unsound(hole, fault).or_else(|| border.keeps_out(hole).map(fault));
            match wrong {
                Some(fault) => faults.push(fault),
                None => border.chains.push(turned(hole, Ordering::Less)),
            }
        }
        Some(border)
    }

    fn edges(&self) -> impl Iterator<Item = Segment<PieceFrame>> + '_ {
        self.chains.iter().flat_map(|chain| edges_of(chain))
    }

    /// Where a further hole would meet the border or lie off the paper.
    fn keeps_out(&self, hole: &Polygon<PieceFrame>) -> Option<Corner> {
        for edge in edges_of(&hole.corners) {
            if let Some(other) = self.edges().find(|other| edge.meets(other)) {
                return Some(meeting(&edge, &other));
            }
        }
        // Whatever does not meet lies wholly on one side.
        let first = *hole.corners.first()?;
        if !is_inside(self.edges(), first, first) {
            return Some(first);
        }
        let around = |chain: &&Vec<Corner>| {
            let at = chain.first().copied().unwrap_or(first);
            is_inside(edges_of(&hole.corners), at, at)
        };
        let swallowed = self.chains.iter().skip(1).find(around)?;
        swallowed.first().copied()
    }
}

/// The edges of a closed chain of corners.
pub(super) fn edges_of(corners: &[Corner]) -> impl Iterator<Item = Segment<PieceFrame>> + '_ {
    let next = corners.iter().cycle().skip(1);
    corners
        .iter()
        .zip(next)
        .map(|(from, to)| Segment::new(*from, *to))
}

/// Whether the point half-way between two lies inside closed chains, counted
/// by how often a line from it to the right leaves them.
pub(super) fn is_inside(
    edges: impl Iterator<Item = Segment<PieceFrame>>,
    a: Corner,
    b: Corner,
) -> bool {
    // Doubled, half-way is a whole number.
    let doubled = |at: Corner| Point::<PieceFrame>::new(at.x * 2, at.y * 2);
    let at = Point::new(a.x + b.x, a.y + b.y);
    let leaves = |edge: &Segment<PieceFrame>| {
        let (from, to) = (doubled(edge.from), doubled(edge.to));
        if (from.y <= at.y) == (to.y <= at.y) {
            return false;
        }
        let upwards = if from.y < to.y {
            Segment::new(from, to)
        } else {
            Segment::new(to, from)
        };
        upwards.side_of(at) == Ordering::Greater
    };
    edges.filter(leaves).count() % 2 == 1
}

/// The fault of a polygon that is no simple one.
fn unsound(polygon: &Polygon<PieceFrame>, fault: impl Fn(Corner) -> Fault) -> Option<Fault> {
    let corners = &polygon.corners;
    let far = |at: &&Corner| at.x.abs() > Length::LIMIT || at.y.abs() > Length::LIMIT;
    if let Some(at) = corners.iter().find(far) {
        return Some(Fault::TooFar { at: *at });
    }
    touches_itself(corners).map(fault)
}

fn touches_itself(corners: &[Corner]) -> Option<Corner> {
    let edges: Vec<_> = edges_of(corners).collect();
    if edges.len() < 3 {
        let nowhere = Point::new(Length::ZERO, Length::ZERO);
        return Some(corners.first().copied().unwrap_or(nowhere));
    }
    if let Some(point) = edges.iter().find(|edge| edge.is_point()) {
        return Some(point.from);
    }
    for (number, edge) in edges.iter().enumerate() {
        for (other_number, other) in edges.iter().enumerate().skip(number + 1) {
            let follows = other_number == number + 1;
            let closes = number == 0 && other_number + 1 == edges.len();
            let touch = if follows || closes {
                edge.overlaps(other)
            } else {
                edge.meets(other)
            };
            if touch {
                return Some(meeting(edge, other));
            }
        }
    }
    None
}

/// A point that two segments which meet have in common.
fn meeting(a: &Segment<PieceFrame>, b: &Segment<PieceFrame>) -> Corner {
    a.crossing(b).unwrap_or_else(|| {
        let ends = [(a, b.from), (a, b.to), (b, a.from), (b, a.to)];
        let shared = ends.iter().find(|(of, end)| of.touches(*end));
        shared.map_or(a.from, |(_, end)| *end)
    })
}

/// The corners, reversed where they do not run as asked: `Greater` for
/// anticlockwise.
fn turned(polygon: &Polygon<PieceFrame>, way: Ordering) -> Vec<Corner> {
    let mut corners = polygon.corners.clone();
    if twice_area(&corners).cmp(&0) != way {
        corners.reverse();
    }
    corners
}

/// Twice the area inside a closed chain, positive where it runs anticlockwise.
pub(super) fn twice_area(corners: &[Corner]) -> i128 {
    let Some(first) = corners.first() else {
        return 0;
    };
    let next = corners.iter().skip(1);
    corners
        .iter()
        .zip(next)
        .map(|(from, to)| {
            let (a, b) = (step(*first, *from), step(*first, *to));
            a.0 * b.1 - a.1 * b.0
        })
        .sum()
}
