//! The flat pattern of a piece: its edge, its creases and its cuts at any
//! angle, the panels they divide it into, and where these lie when every
//! crease is folded.

mod angle;
mod border;
mod clean;
mod divide;
mod facet;
mod fault;
mod flat;
mod misfit;
mod net;
mod ring;
mod side;
mod web;

use serde::{Deserialize, Serialize};

use crate::length::Length;
use crate::plane::{PieceFrame, Point, Polygon, Segment};

pub use angle::Angle;
pub use divide::{Divided, divide};
pub use facet::{Facet, Hinge, Slit};
pub use fault::Fault;
pub use flat::{Flat, fold_flat, places};
pub use misfit::{Misfit, misfits};
pub use ring::{Opening, Vertex};
pub use side::{Fold, Side};

/// How near two ends, or an end and a line, count as touching. A thousandth of
/// a millimetre is finer than anyone cuts or scores, and far more than the
/// rounding of a point that was meant to lie on a slanting line.
pub const TOUCHES_WITHIN: Length = Length::microns(1);

/// The most lines a pattern may have: ten times what a card asks for, and
/// still divided while a finger drags.
pub const MOST_LINES: usize = 400;

/// The most corners the edge and the holes may have together, arcs drawn as
/// short lines included.
pub const MOST_CORNERS: usize = 1000;

/// Names a line of a pattern for as long as it exists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct LineId(pub u32);

/// What a line does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LineKind {
    /// It folds, as seen from side A.
    Crease(Fold),
    /// It is cut through.
    Cut,
}

/// A crease or a cut, straight from one end to the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Line {
    /// Its lasting name.
    pub id: LineId,
    /// One end.
    pub from: Point<PieceFrame>,
    /// The other end.
    pub to: Point<PieceFrame>,
    /// What it does.
    pub kind: LineKind,
}

impl Line {
    /// Its course.
    pub const fn course(&self) -> Segment<PieceFrame> {
        Segment::new(self.from, self.to)
    }

    /// How it folds; `None` for a cut.
    pub const fn fold(&self) -> Option<Fold> {
        match self.kind {
            LineKind::Crease(fold) => Some(fold),
            LineKind::Cut => None,
        }
    }
}

/// A piece before it is folded, seen from side A.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pattern {
    /// The edge it is cut along.
    pub outline: Polygon<PieceFrame>,
    /// What is cut out of it.
    pub holes: Vec<Polygon<PieceFrame>>,
    /// The creases and cuts.
    pub lines: Vec<Line>,
}

impl Pattern {
    /// The line of that name.
    pub fn line(&self, id: LineId) -> Option<&Line> {
        self.lines.iter().find(|line| line.id == id)
    }
}
