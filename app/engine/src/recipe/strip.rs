//! A strip of paper with scores across it.

use serde::{Deserialize, Serialize};

use super::{Cutout, Fold, Kept, Line, MeasureId, PieceId, Relation};
use crate::paper::StockId;
use crate::plane::{Point, SheetFrame};

/// Names a panel of the strip for as long as it exists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct PanelId(pub u32);

/// Names a strip for as long as it exists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum StripId {
    /// That of the base.
    Base,
    /// That of a piece glued in.
    Piece(PieceId),
}

impl StripId {
    /// The piece glued in, where it is one's.
    pub const fn piece(self) -> Option<PieceId> {
        match self {
            Self::Base => None,
            Self::Piece(id) => Some(id),
        }
    }

    /// Whether it is the base's.
    pub const fn is_base(self) -> bool {
        matches!(self, Self::Base)
    }
}

/// A panel of the strip.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Panel {
    /// Its lasting name.
    pub id: PanelId,
    /// What the maker calls it.
    pub name: String,
    /// Its width along the strip.
    pub width: MeasureId,
}

/// A piece that is folded: a strip with scores across it, and creases and cuts
/// besides.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Strip {
    /// The paper it is cut from.
    pub stock: StockId,
    /// Length of the strip, along which the panels follow each other.
    pub length: MeasureId,
    /// Height of the strip, along the scores.
    pub height: MeasureId,
    /// The panels in order along the strip, seen from side A.
    pub panels: Vec<Panel>,
    /// The folds between neighbouring panels: one fewer than panels.
    pub folds: Vec<Fold>,
    /// Creases and cuts besides the scores.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lines: Vec<Line>,
    /// What is cut out of its panels.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cutouts: Vec<Cutout>,
    /// The part that is kept where cuts part it, once the maker has said so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub keep: Option<Kept>,
    /// Where on its sheet the maker wants it cut: the lower left corner of the
    /// rectangle it takes there, the sheet face up and its print upright. Otherwise it
    /// is cut from anywhere.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cut_at: Option<Point<SheetFrame>>,
}

impl Strip {
    /// The index along the strip of a panel, or of the one a part of that name
    /// belongs to.
    pub fn index_of(&self, id: PanelId) -> Option<usize> {
        let whole = id.strip_panel();
        self.panels.iter().position(|panel| panel.id == whole)
    }

    /// The panels make up the strip.
    pub(crate) fn sum(&self) -> Relation {
        let panels = self.panels.iter().map(|panel| panel.width);
        Relation::sum(self.length, panels)
    }

    /// The measures it is made of.
    pub(super) fn measures(&self) -> impl Iterator<Item = MeasureId> + '_ {
        let lines = self.lines.iter().flat_map(Line::measures);
        let cutouts = self.cutouts.iter().flat_map(|it| it.cut.measures());
        self.sizes().chain(lines).chain(cutouts)
    }

    /// The measures that are sizes of paper.
    pub(super) fn sizes(&self) -> impl Iterator<Item = MeasureId> + '_ {
        let panels = self.panels.iter().map(|panel| panel.width);
        let cutouts = self.cutouts.iter().flat_map(|it| it.cut.sizes());
        [self.length, self.height]
            .into_iter()
            .chain(panels)
            .chain(cutouts)
    }
}
