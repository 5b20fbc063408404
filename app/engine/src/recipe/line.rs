//! Creases and cuts besides the scores across the strip.

use serde::{Deserialize, Serialize};

use super::{End, MeasureId, PanelId, Recipe, StripId};
use crate::pattern::{LineId, LineKind};
use crate::plane::{PieceFrame, Point};

/// One more than the largest number a panel or a line may be named by in a
/// recipe; above it the parts of panels and the pattern's lines are numbered.
pub(crate) const MOST_NAMES: u32 = 1 << 16;

/// A point of the strip by its distances from the lower left corner, seen from
/// side A.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Corner {
    /// Along the strip.
    pub x: MeasureId,
    /// Across it, upwards.
    pub y: MeasureId,
}

/// Names a crease or a cut for as long as it exists. In the pattern of its strip
/// it has another name, [`LineId::of_line`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct DrawnLineId(pub u32);

/// A crease or a cut at any angle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Line {
    /// Its lasting name.
    pub id: DrawnLineId,
    /// What the maker calls it.
    pub name: String,
    /// What it does.
    pub kind: LineKind,
    /// One end.
    pub from: Corner,
    /// The other end.
    pub to: Corner,
}

impl Line {
    /// One of its ends.
    pub const fn corner(&self, end: End) -> Corner {
        match end {
            End::From => self.from,
            End::To => self.to,
        }
    }

    pub(super) const fn corner_mut(&mut self, end: End) -> &mut Corner {
        match end {
            End::From => &mut self.from,
            End::To => &mut self.to,
        }
    }

    /// The measures it is drawn by.
    pub fn measures(&self) -> impl Iterator<Item = MeasureId> + use<> {
        [self.from.x, self.from.y, self.to.x, self.to.y].into_iter()
    }
}

impl LineId {
    /// The name in the pattern of a score, by its index along the strip.
    pub fn of_score(score: usize) -> Self {
        Self(u32::try_from(score).unwrap_or(u32::MAX))
    }

    /// The name in the pattern of a line of the recipe.
    pub const fn of_line(line: DrawnLineId) -> Self {
        Self(line.0.saturating_add(MOST_NAMES))
    }

    /// The name in its pattern of a score of a piece glued in, by the panel
    /// before it.
    pub const fn of_piece_score(after: PanelId) -> Self {
        Self(after.strip_panel().0 + 2 * MOST_NAMES)
    }

    /// The name in its pattern of a score of a strip, by its index along it and
    /// the panel before it.
    pub fn of_strip_score(of: StripId, score: usize, after: PanelId) -> Self {
        match of {
            StripId::Base => Self::of_score(score),
            StripId::Piece(_) => Self::of_piece_score(after),
        }
    }

    /// The score's index along the base, where the pattern's line is one.
    pub fn score(self) -> Option<usize> {
        (self.0 < MOST_NAMES).then_some(self.0 as usize)
    }

    /// The recipe's line, where the pattern's line is one.
    pub fn line(self) -> Option<DrawnLineId> {
        let line = self.0.checked_sub(MOST_NAMES)?;
        (line < MOST_NAMES).then_some(DrawnLineId(line))
    }

    /// The panel before it, where the pattern's line is a score of a piece
    /// glued in.
    pub fn piece_score(self) -> Option<PanelId> {
        let panel = self.0.checked_sub(2 * MOST_NAMES)?;
        (panel < MOST_NAMES).then_some(PanelId(panel))
    }
}

impl PanelId {
    /// The name of a part that lines make of a strip's panel; the part numbered
    /// 0 has the panel's own.
    #[must_use]
    pub const fn part(self, number: u32) -> Self {
        Self(self.0 % MOST_NAMES + number.saturating_mul(MOST_NAMES))
    }

    /// The strip's panel it is, or is part of.
    #[must_use]
    pub const fn strip_panel(self) -> Self {
        Self(self.0 % MOST_NAMES)
    }

    /// Which part it is of the strip's panel.
    pub const fn part_number(self) -> u32 {
        self.0 / MOST_NAMES
    }
}

impl Recipe {
    /// The line of that name, on the base or on a piece.
    pub fn line(&self, id: DrawnLineId) -> Option<&Line> {
        let mut lines = self.strips().flat_map(|(_, strip)| &strip.lines);
        lines.find(|line| line.id == id)
    }

    /// The strip a line of a pattern is a score of, and the score's index along
    /// it.
    pub fn score(&self, line: LineId) -> Option<(StripId, usize)> {
        if let Some(index) = line.score() {
            return (index < self.base.folds.len()).then_some((StripId::Base, index));
        }
        let (of, strip, index) = self.strip_with(line.piece_score()?)?;
        (index < strip.folds.len()).then_some((of, index))
    }

    /// Where a corner lies on the strip.
    pub fn corner(&self, corner: Corner) -> Point<PieceFrame> {
        Point::new(self.value(corner.x), self.value(corner.y))
    }
}
