//! What can be wrong with the card as it folds, opens and is glued.

use crate::length::Length;
use crate::pattern::{Angle, LineId};
use crate::plane::{Edge, Size};
use crate::recipe::{Fold, LayerId, PanelId, PieceId};

/// What is wrong with how a card folds shut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FoldingFinding {
    /// There is no panel that could rest on the table.
    NoPanel,
    /// Panels are shorter than both neighbours, and all scores round them fold
    /// the same way.
    Trapped {
        /// The first and the last of them.
        panels: [PanelId; 2],
        /// The neighbours.
        between: [PanelId; 2],
        /// How the scores fold.
        fold: Fold,
    },
    /// Panels cannot lie on each other in any order.
    NoOrder(Vec<PanelId>),
    /// The search for an order was given up.
    Undecided,
    /// The panels cannot lie as the maker chose.
    OtherOrder,
    /// Pieces keep the card from closing, which is shown without them.
    LeftOut {
        /// The pieces, with what is glued to them.
        pieces: Vec<PieceId>,
        /// Why.
        why: Unclosed,
    },
}

/// Why a card does not close with a piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unclosed {
    /// These panels cannot lie on each other in any order.
    NoOrder(Vec<PanelId>),
    /// The search for an order was given up.
    Undecided,
    /// The creases of the piece do not come together.
    Misfits,
}

/// What is wrong with how a card opens.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum OpeningFinding {
    /// A crease cannot open.
    Locked {
        /// The crease.
        line: LineId,
        /// A piece that is glued down in several places, where there is one;
        /// otherwise the creases that move with it hold it.
        glued: Option<PieceId>,
    },
    /// The card opens so far and no further.
    Jam {
        /// The crease that stops.
        line: LineId,
        /// How far it is open there, 180° being flat.
        opened: Angle,
    },
    /// The creases round a ring do not come together.
    Unclosed {
        /// The panels round it.
        panels: Vec<PanelId>,
        /// By how much they miss.
        gap: Length,
    },
    /// Two panels run into each other.
    Collision {
        /// The panels.
        panels: [PanelId; 2],
        /// How far the card is open there.
        opened: Angle,
    },
    /// More creases move each other than can be followed.
    TooCoupled,
    /// A part that pops up reaches past the pages of the closed card.
    PastThePages {
        /// The panel that does.
        panel: PanelId,
        /// How far.
        by: Length,
        /// The size of the closed card with it.
        finished: Size,
    },
}

/// What is wrong with where a panel of a piece is glued.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum JoinFinding {
    /// It comes to lie there the other side up.
    TurnedOver,
    /// It misses its line by so much.
    Misses(Length),
    /// It does not lie there by more than the margin all round.
    NoRoom {
        /// How far glue stays from edges and creases.
        margin: Length,
    },
    /// It reaches past what carries it.
    Past {
        /// Past which edges and by how much; none where it is only a shaped
        /// one.
        edges: Vec<(Edge, Length)>,
        /// The farthest that any part of it lies past.
        most: Length,
    },
}

/// What is wrong with the glue of a layer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GlueFinding {
    /// It lies nowhere on what carries it by more than the margin.
    NoRoom {
        /// How far glue stays from edges and creases.
        margin: Length,
    },
    /// The distances leave nothing of the back, or reach past it.
    OffItsBack,
    /// The glue crosses a crease.
    Across(LineId),
    /// The glue ties panels together that part when the card opens.
    Ties {
        /// The panel that carries the layer.
        carrier: PanelId,
        /// The other.
        other: PanelId,
    },
    /// The glue reaches past what carries the layer.
    PastItsSeat,
}

/// Something that comes nearer to the fold it lies in than that has room for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cramped {
    /// What it is.
    pub what: Contents,
    /// How far it stays from the fold.
    pub gap: Length,
    /// How far it should, exactly.
    pub asked: Length,
    /// The panels that fold onto each other over it.
    pub between: [PanelId; 2],
}

/// What is folded inside.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Contents {
    /// A panel.
    Panel(PanelId),
    /// A layer.
    Layer(LayerId),
}
