//! What can be wrong with the flat pieces.

use crate::pattern::{Fault, Misfit};
use crate::recipe::{LayerId, PanelId, PieceId, Shaped, StripId};

/// What is wrong with how the flat pieces lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LaidFinding {
    /// A piece has no first place where it is glued.
    NoPlace(PieceId),
    /// A piece is glued by a panel, to a panel or along a line that is not
    /// there.
    NoJoin {
        /// The piece.
        piece: PieceId,
        /// Its panel.
        part: PanelId,
        /// The panel that was to carry it.
        on: PanelId,
    },
    /// What a layer lay on is gone, or comes after it.
    OnNothing(LayerId),
    /// Cuts part a strip, and the maker has not said which part is kept.
    Falls {
        /// Which strip.
        of: StripId,
        /// How many parts fall off.
        parts: usize,
    },
}

/// What is wrong with an outline. Rounded corners of a panel count as a
/// window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OutlineFinding {
    /// It is rounder than there is room for.
    TooRound(Shaped),
    /// It crosses itself, and is drawn as a rectangle.
    Crossed(Shaped),
    /// The border of a layer that follows what carries it leaves nothing of it.
    NoRoom(LayerId),
}

/// Why something is not cut out of a strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CutoutFinding {
    /// The panel it is cut out of is gone.
    NoPanel,
    /// It lies beside the strip.
    Beside,
    /// With it the strip would have more corners than can be worked on.
    TooManyCorners,
    /// Scores bound its panel on both sides, so that no corner is free to be
    /// rounded.
    NoFreeCorner,
    /// Its panel ends there at a score and not at an edge.
    AtScore,
    /// It would leave nothing of the strip.
    LeavesNothing,
    /// It would cut the strip in two.
    Parts,
}

/// What is wrong with the creases and cuts of a strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PatternFinding {
    /// It can't be cut and creased as drawn.
    Fault(Fault),
    /// It can't be folded flat at a place.
    Misfit(Misfit),
}
