//! What is wrong with the lines of a pattern, and where.

use super::LineId;
use crate::plane::{PieceFrame, Point, Segment};

/// Something that keeps a pattern from being cut and creased as drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// There are more lines, corners or crossings than can be worked on.
    TooMany,
    /// A corner, or the end of a line, lies farther away than can be typed.
    TooFar {
        /// Where.
        at: Point<PieceFrame>,
    },
    /// The edge of the piece crosses or touches itself, or encloses nothing.
    Outline {
        /// Where.
        at: Point<PieceFrame>,
    },
    /// A hole crosses or touches itself, another hole or the edge, or lies
    /// outside the piece or inside another hole.
    Hole {
        /// Which hole, by its index in the pattern.
        hole: usize,
        /// Where.
        at: Point<PieceFrame>,
    },
    /// A line has no length.
    NoLength {
        /// The line.
        line: LineId,
        /// Where it is.
        at: Point<PieceFrame>,
    },
    /// A line leaves the paper, over the edge or into a hole.
    Outside {
        /// The line.
        line: LineId,
        /// The part that lies outside.
        part: Segment<PieceFrame>,
    },
    /// A line runs along the edge of the piece or of a hole.
    AlongEdge {
        /// The line.
        line: LineId,
        /// The part that does.
        part: Segment<PieceFrame>,
    },
    /// Two lines run along each other.
    Overlap {
        /// The lines, the one drawn first in front.
        lines: [LineId; 2],
        /// The part they share.
        part: Segment<PieceFrame>,
    },
    /// Two creases cross where nothing else meets them, each going on unchanged
    /// on the other side: their mountains and valleys cannot differ by two.
    Crossing {
        /// The creases, the one drawn first in front.
        lines: [LineId; 2],
        /// Where they cross.
        at: Point<PieceFrame>,
    },
    /// A crease ends within a panel.
    Dangles {
        /// The crease.
        line: LineId,
        /// Its loose end.
        end: Point<PieceFrame>,
    },
    /// A crease has one panel on both its sides, which lead round a hole or
    /// round other creases.
    SamePanel {
        /// The crease.
        line: LineId,
        /// The part that does.
        part: Segment<PieceFrame>,
    },
    /// A part of the piece hangs on nothing.
    Loose {
        /// One of its panels, by its index among the facets.
        facet: usize,
        /// The lowest left corner of that panel.
        at: Point<PieceFrame>,
    },
}

impl Fault {
    /// The line that is wrong, the later drawn of two; `None` where none is.
    pub fn line(&self) -> Option<LineId> {
        match self {
            Self::TooMany
            | Self::TooFar { .. }
            | Self::Outline { .. }
            | Self::Hole { .. }
            | Self::Loose { .. } => None,
            Self::NoLength { line, .. }
            | Self::Outside { line, .. }
            | Self::AlongEdge { line, .. }
            | Self::Dangles { line, .. }
            | Self::SamePanel { line, .. } => Some(*line),
            Self::Overlap { lines, .. } | Self::Crossing { lines, .. } => Some(lines[1]),
        }
    }

    /// Where to point at; `None` where it is the pattern as a whole.
    pub fn at(&self) -> Option<Point<PieceFrame>> {
        match self {
            Self::TooMany => None,
            Self::TooFar { at }
            | Self::Outline { at }
            | Self::Hole { at, .. }
            | Self::NoLength { at, .. }
            | Self::Crossing { at, .. }
            | Self::Dangles { end: at, .. }
            | Self::Loose { at, .. } => Some(*at),
            Self::Outside { part, .. }
            | Self::AlongEdge { part, .. }
            | Self::Overlap { part, .. }
            | Self::SamePanel { part, .. } => Some(part.middle()),
        }
    }
}
