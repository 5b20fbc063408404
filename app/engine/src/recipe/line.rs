//! Creases and cuts besides the scores across the strip.

use serde::{Deserialize, Serialize};

use super::{End, MeasureId, PanelId, PieceId, Recipe, Stacked};
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

/// A crease or a cut at any angle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Line {
    /// Its lasting name.
    pub id: LineId,
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
    /// The name in the pattern of a score, by its place along the strip.
    pub fn of_score(score: usize) -> Self {
        Self(u32::try_from(score).unwrap_or(u32::MAX))
    }

    /// The name in the pattern of a line of the recipe.
    pub const fn of_line(line: Self) -> Self {
        Self(line.0.saturating_add(MOST_NAMES))
    }

    /// The name in its pattern of a score of a piece glued in, by the panel
    /// before it.
    pub const fn of_piece_score(after: PanelId) -> Self {
        Self(after.strip_panel().0 + 2 * MOST_NAMES)
    }

    /// The score's place along the base, where the pattern's line is one.
    pub fn score(self) -> Option<usize> {
        (self.0 < MOST_NAMES).then_some(self.0 as usize)
    }

    /// The recipe's line, where the pattern's line is one.
    pub fn line(self) -> Option<Self> {
        let line = self.0.checked_sub(MOST_NAMES)?;
        (line < MOST_NAMES).then_some(Self(line))
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
    pub fn line(&self, id: LineId) -> Option<&Line> {
        let mut lines = self.strips().flat_map(|(_, strip)| &strip.lines);
        lines.find(|line| line.id == id)
    }

    /// The piece a line of a pattern is a score of, `None` for the base, and the
    /// score's place along it.
    pub fn score(&self, line: LineId) -> Option<(Option<PieceId>, usize)> {
        if let Some(place) = line.score() {
            return (place < self.base.folds.len()).then_some((None, place));
        }
        let (of, strip, place) = self.strip_with(line.piece_score()?)?;
        (place < strip.folds.len()).then_some((of, place))
    }

    /// Where a corner lies on the strip.
    pub fn corner(&self, corner: Corner) -> Point<PieceFrame> {
        Point::new(self.value(corner.x), self.value(corner.y))
    }

    /// What the maker calls a sheet.
    pub fn stacked_name(&self, sheet: Stacked) -> String {
        match sheet {
            Stacked::Panel(panel) => self.panel_name(panel),
            Stacked::Layer { layer } => match self.layer(layer) {
                Some(layer) => layer.name.clone(),
                None => "a missing layer".to_owned(),
            },
        }
    }

    /// What the maker calls a panel, or a part of one.
    pub fn panel_name(&self, id: PanelId) -> String {
        let name = self
            .panel(id)
            .map_or("a missing panel", |(_, panel)| panel.name.as_str());
        match id.part_number() {
            0 => name.to_owned(),
            part => format!("{name}, part {}", part.saturating_add(1)),
        }
    }
}
