//! The parts of a divided pattern.

use super::{Fold, LineId};
use crate::plane::{PieceFrame, Point, Polygon, Region, SAME_WITHIN, Segment};

/// A panel: what lies between creases, cuts and edges.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Facet {
    /// Its outline, beginning at the corner farthest left, the lowest of these.
    pub outline: Polygon<PieceFrame>,
    /// What is left out of it, each anticlockwise: holes of the piece, and
    /// panels that lie wholly within.
    pub holes: Vec<Polygon<PieceFrame>>,
    /// The cuts that end within it and so do not divide it.
    pub slits: Vec<Slit>,
}

impl Facet {
    /// Every corner of its outline and of its holes.
    pub fn corners(&self) -> impl Iterator<Item = Point<PieceFrame>> + '_ {
        std::iter::once(&self.outline)
            .chain(&self.holes)
            .flat_map(|polygon| polygon.corners.iter().copied())
    }

    /// What it covers.
    pub fn region(&self) -> Region<PieceFrame> {
        let holes = self.holes.iter().map(Region::from);
        holes.fold(Region::from(&self.outline), |all, hole| all.minus(&hole))
    }

    /// Whether a point is on it; on an edge it may be either way.
    pub fn holds(&self, at: Point<PieceFrame>) -> bool {
        self.outline.holds(at) && !self.holes.iter().any(|hole| hole.holds(at))
    }

    /// A point well inside: half as far from its edges as any can be, or
    /// farther. `None` where it is too narrow for one.
    pub fn inner(&self) -> Option<Point<PieceFrame>> {
        let region = self.region();
        let size = region.bounds()?.size();
        let mut margin = size.width.min(size.height).half_down();
        while margin > SAME_WITHIN {
            let inner = region.inset(margin).contours().next();
            if let Some(corner) = inner.and_then(|corners| corners.first().copied()) {
                return Some(corner);
            }
            margin = margin.half_down();
        }
        None
    }

    /// Twice its area in square units, holes taken off.
    pub fn twice_area(&self) -> i128 {
        let of = |polygon: &Polygon<PieceFrame>| super::border::twice_area(&polygon.corners);
        of(&self.outline) - self.holes.iter().map(of).sum::<i128>()
    }
}

/// A stretch of a cut with the same panel on both sides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Slit {
    /// The line it is part of.
    pub line: LineId,
    /// Where it runs.
    pub course: Segment<PieceFrame>,
}

/// A stretch of a crease between two panels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hinge {
    /// The line it is part of.
    pub line: LineId,
    /// How it folds, seen from side A.
    pub fold: Fold,
    /// Whether it is shut in the closed card, as creases are unless it is said
    /// that they lie flat there.
    pub folded: bool,
    /// Where it runs, in the direction of the line.
    pub course: Segment<PieceFrame>,
    /// The whole line as drawn: the axis, truer than a stretch whose ends are
    /// rounded.
    pub axis: Segment<PieceFrame>,
    /// The panel on the left along its course, by its index among the facets.
    pub left: usize,
    /// The panel on the right.
    pub right: usize,
}

impl Hinge {
    /// The panel across it from one of its two.
    pub fn across(&self, from: usize) -> usize {
        if from == self.left {
            self.right
        } else {
            self.left
        }
    }
}
