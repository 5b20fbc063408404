//! The order of edges round each knot, and the walks it gives.
//!
//! Every edge is walked both ways: way `2e` is edge `e` from its first knot to
//! its second, way `2e + 1` goes back. Turning at every knot to the next edge
//! clockwise keeps one and the same panel to the left.

use super::net::{Edge, Net};
use crate::plane::{PieceFrame, Point, by_direction, step};
use crate::sorted::InOrder as _;

/// Some edges of a net in their order round each knot.
pub(super) struct Web<'a> {
    net: &'a Net,
    /// For each knot the ways that leave it, anticlockwise from the right.
    leaving: Vec<Vec<usize>>,
    /// For each way its index among those that leave its knot; `None` for the
    /// edges left out.
    index: Vec<Option<usize>>,
}

/// The same edge walked the other way.
pub(super) const fn back(way: usize) -> usize {
    way ^ 1
}

impl<'a> Web<'a> {
    /// The edges for which `takes` says so.
    pub(super) fn of(net: &'a Net, takes: &dyn Fn(usize) -> bool) -> Self {
        let mut web = Self {
            net,
            leaving: vec![Vec::new(); net.knots.len()],
            index: vec![None; net.edges.len() * 2],
        };
        for (number, edge) in net.edges.iter().enumerate() {
            if takes(number) {
                web.leaving[edge.from].push(number * 2);
                web.leaving[edge.to].push(number * 2 + 1);
            }
        }
        for (knot, ways) in web.leaving.iter_mut().enumerate() {
            let at = net.knots[knot];
            let direction = |way: &usize| step(at, net.knots[end(&net.edges, *way)]);
            ways.put_in_order_by(|a, b| by_direction(direction(a), direction(b)));
            for (index, way) in ways.iter().enumerate() {
                web.index[*way] = Some(index);
            }
        }
        web
    }

    /// The knot a way begins at.
    pub(super) fn start(&self, way: usize) -> usize {
        end(&self.net.edges, back(way))
    }

    /// The ways that leave a knot, anticlockwise.
    pub(super) fn leaving(&self, knot: usize) -> &[usize] {
        &self.leaving[knot]
    }

    fn turned(&self, way: usize, by: impl Fn(usize, usize) -> usize) -> usize {
        let ways = &self.leaving[self.start(way)];
        let index = self.index[way].unwrap_or_default();
        ways.get(by(index, ways.len())).copied().unwrap_or(way)
    }

    /// The next way anticlockwise round the knot it begins at.
    pub(super) fn anticlockwise(&self, way: usize) -> usize {
        self.turned(way, |index, count| (index + 1) % count.max(1))
    }

    fn clockwise(&self, way: usize) -> usize {
        self.turned(way, |index, count| {
            (index + count.max(1) - 1) % count.max(1)
        })
    }

    /// The closed walks that keep one panel to the left; every way of the web
    /// is in exactly one.
    pub(super) fn contours(&self) -> Vec<Vec<usize>> {
        self.walks(|way| self.clockwise(back(way)))
    }

    /// The closed walks under a rule that gives each way exactly one next.
    pub(super) fn walks(&self, next: impl Fn(usize) -> usize) -> Vec<Vec<usize>> {
        let mut seen: Vec<bool> = self.index.iter().map(Option::is_none).collect();
        let mut walks = Vec::new();
        for first in 0..seen.len() {
            let mut walk = Vec::new();
            let mut way = first;
            while !seen[way] {
                seen[way] = true;
                walk.push(way);
                way = next(way);
            }
            if !walk.is_empty() {
                walks.push(walk);
            }
        }
        walks
    }

    /// The points a walk begins its ways at.
    pub(super) fn points(&self, walk: &[usize]) -> Vec<Point<PieceFrame>> {
        let start = |way: &usize| self.net.knots[self.start(*way)];
        walk.iter().map(start).collect()
    }
}

/// The knot a way ends at.
fn end(edges: &[Edge], way: usize) -> usize {
    let edge = edges[way / 2];
    if way.is_multiple_of(2) {
        edge.to
    } else {
        edge.from
    }
}
