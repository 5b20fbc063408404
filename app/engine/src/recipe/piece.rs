//! Pieces folded from other sheets and glued into the card.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::{Corner, Face, Lay, MeasureId, PanelId, Side, Strip};
use crate::pattern::LineId;

/// Names a piece for as long as it exists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct PieceId(pub u32);

/// A strip folded from a sheet of its own and glued into the card: a pop-up, a
/// pocket, a stand, a strip nested in another.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Piece {
    /// Its lasting name.
    pub id: PieceId,
    /// What the maker calls it.
    pub name: String,
    /// What is cut and folded. Its panels and lines are named as no others of
    /// the recipe are.
    pub strip: Strip,
    /// The creases, by their names in the pattern, that lie flat while the card
    /// is closed, such as that of a tab glued outwards; all others are shut.
    #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
    pub flat: BTreeSet<LineId>,
    /// Where it is glued, in the order of the work. The first settles where the
    /// piece lies.
    pub joins: Vec<Join>,
    /// How the maker chose to lay its paper; otherwise the best lay is used.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lay: Option<Lay>,
}

/// A panel of a piece glued flat onto a face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Join {
    /// The panel that is glued down.
    pub panel: PanelId,
    /// What it is glued to.
    pub on: Face,
    /// The line its crease is laid along; where there is none, it is glued
    /// where it comes to lie in the closed card.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<Mark>,
}

/// A line to lay a crease along.
///
/// The crease is the first of the panel's in its pattern, taken the way it is
/// drawn (a score from the bottom up); a panel without one is laid by its left
/// edge, from the bottom up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mark {
    /// The side of the piece that is seen once it is glued down.
    pub shows: Side,
    /// Where the crease begins, measured on the piece that carries it, seen
    /// from that piece's side A.
    pub from: Corner,
    /// A point the crease runs towards.
    pub to: Corner,
}

impl Mark {
    /// The measures it is drawn by.
    pub(super) fn measures(&self) -> impl Iterator<Item = MeasureId> + use<> {
        [self.from.x, self.from.y, self.to.x, self.to.y].into_iter()
    }
}

impl Piece {
    /// The lines it is laid along.
    pub(super) fn marks(&self) -> impl Iterator<Item = Mark> + '_ {
        self.joins.iter().filter_map(|join| join.at)
    }
}
