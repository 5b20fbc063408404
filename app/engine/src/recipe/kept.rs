//! Which part of a strip the maker keeps where cuts part it.

use serde::{Deserialize, Serialize};

use super::edit::Edited;
use super::{Change, EditError, PanelId, Recipe, Strip, StripId, part};
use crate::length::{Length, half_even};
use crate::plane::{PieceFrame, Point};

/// A spot on the part of a strip that is kept. It is told by shares of a panel,
/// so that it stays on its part when the card is made to another size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Kept {
    /// The panel of the strip it is in.
    pub panel: PanelId,
    /// How far it is along the panel, in thousandths of the panel's width.
    pub along: u16,
    /// How far it is across the strip, in thousandths of the strip's height.
    pub across: u16,
}

/// Thousandths in a whole.
const WHOLE: i64 = 1000;

impl Recipe {
    /// Keeps the part of a strip that a spot is on; all that no crease joins to
    /// it falls off. Nothing moves.
    pub fn keep_part(&mut self, of: StripId, keep: Kept) -> Edited<Vec<Change>> {
        let strip = self.strip_mut(of).ok_or(EditError::NoPiece)?;
        strip.index_of(keep.panel).ok_or(EditError::NoPanel)?;
        strip.keep = Some(keep);
        Ok(Vec::new())
    }

    /// Where the spot is that the maker chose on a strip; `None` where none was,
    /// or where its panel is gone.
    pub(crate) fn spot_kept(&self, strip: &Strip) -> Option<Point<PieceFrame>> {
        let keep = strip.keep?;
        let index = strip.index_of(keep.panel)?;
        let before = strip.panels.iter().take(index);
        let left: Length = before.map(|panel| self.value(panel.width)).sum();
        let width = self.value(strip.panels.get(index)?.width);
        let share = |of: Length, thousandths: u16| part(of, thousandths.into(), WHOLE);
        Some(Point::new(
            left + share(width, keep.along),
            share(self.value(strip.height), keep.across),
        ))
    }

    /// A place on a strip as a spot to keep; `None` beside the strip.
    pub(crate) fn as_kept(&self, strip: &Strip, at: Point<PieceFrame>) -> Option<Kept> {
        let mut left = Length::ZERO;
        for panel in &strip.panels {
            let width = self.value(panel.width);
            if at.x < left + width {
                return Some(Kept {
                    panel: panel.id,
                    along: thousandths(at.x - left, width)?,
                    across: thousandths(at.y, self.value(strip.height))?,
                });
            }
            left += width;
        }
        None
    }
}

fn thousandths(part: Length, of: Length) -> Option<u16> {
    if of <= Length::ZERO {
        return None;
    }
    let part = i128::from(part.units()) * i128::from(WHOLE);
    u16::try_from(half_even(part, of.units().into())).ok()
}
