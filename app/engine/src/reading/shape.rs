//! The base of a list, and one way it may fold.

use super::sense::Way;
use crate::length::Length;
use crate::plane::Size;
use crate::recipe::{Fold, Listed, ListedPanel, Naming, New};

/// A panel folded inside others is shorter by no more than this: 1/8 in, as the
/// widest printed allowance is, or 4 mm. Our own bound above the printed ones.
pub(super) const MOST_SHORTER: Length = Length::mm(4);

/// What a strip of panels is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FoldForm {
    /// One panel.
    Flat,
    /// Two panels, the first one in front.
    Book,
    /// Two panels, the last one in front.
    Flap,
    /// Two leaves that meet, or nearly, over the middle.
    Gate {
        /// How far apart; below zero where they overlap.
        gap: Length,
    },
    /// Two leaves over the middle, the first one over the last.
    Leaves,
    /// Three panels, the last one folded in first.
    LastIn,
    /// Three panels, the first one folded in first.
    FirstIn,
    /// Three panels: the middle one closes over the last, and the first one is
    /// folded back over it.
    BackOver,
    /// The same from the other end.
    BackOverFirst,
    /// Three panels: the middle one closes over the last, and the first one is
    /// folded in between.
    FrontIn,
    /// The same from the other end.
    FrontInFirst,
    /// Folded to and fro.
    Zigzag,
    /// The same, begun the other way.
    ZigzagBack,
    /// Each panel folded into the one before.
    Roll,
    /// In half and in half again, both creases one way.
    DoubleParallel,
    /// As the list tells it.
    Told,
}

/// The base, and how it folds.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Shape {
    pub(super) length: Length,
    pub(super) height: Length,
    pub(super) widths: Vec<Length>,
    pub(super) folds: Vec<Fold>,
    pub(super) form: FoldForm,
    /// The panel that rests on the table, by its index.
    pub(super) rests: usize,
    /// The card stands like a tent: its folds run across.
    pub(super) tent: bool,
}

impl FoldForm {
    /// The way of folding that has a name.
    pub(super) const fn way(self) -> Option<Way> {
        match self {
            Self::Zigzag | Self::ZigzagBack | Self::BackOver | Self::BackOverFirst => {
                Some(Way::Zigzag)
            }
            Self::LastIn | Self::FirstIn | Self::FrontIn | Self::FrontInFirst | Self::Roll => {
                Some(Way::Roll)
            }
            Self::Gate { .. } | Self::Leaves => Some(Way::Gate),
            Self::DoubleParallel => Some(Way::DoubleParallel),
            Self::Flat | Self::Book | Self::Flap | Self::Told => None,
        }
    }

    /// What the first panels are.
    const fn panels(self) -> &'static [ListedPanel] {
        use ListedPanel::{
            Back, BehindTheFront, Card, FoldedIn, Front, InnerLeft, InnerRight, LeftLeaf, Middle,
            RightLeaf,
        };
        match self {
            Self::Flat => &[Card],
            Self::Book | Self::Roll => &[Front, Back],
            Self::Flap => &[Back, Front],
            Self::Gate { .. } | Self::Leaves => &[LeftLeaf, Middle, RightLeaf],
            Self::LastIn => &[Front, Middle, FoldedIn],
            Self::FirstIn => &[FoldedIn, Middle, Front],
            Self::BackOver => &[Front, BehindTheFront, Back],
            Self::BackOverFirst => &[Back, BehindTheFront, Front],
            Self::FrontIn => &[FoldedIn, Front, Back],
            Self::FrontInFirst => &[Back, Front, FoldedIn],
            Self::DoubleParallel => &[Front, Back, InnerRight, InnerLeft],
            Self::Zigzag | Self::ZigzagBack | Self::Told => &[],
        }
    }
}

impl Shape {
    /// What the panels are called, in order.
    pub(super) fn names(&self, naming: &dyn Naming) -> Vec<String> {
        let panels = self.form.panels();
        let numbers = panels.len() + 1..=self.widths.len();
        let panels = panels
            .iter()
            .map(|panel| New::Listed(Listed::Panel(*panel)));
        let panels = panels.chain(numbers.map(New::Panel));
        panels.map(|new| naming.name(new)).collect()
    }

    /// The size of the panel at an index, as its reader sees it.
    pub(super) fn panel(&self, index: usize) -> Option<Size> {
        let size = Size {
            width: *self.widths.get(index)?,
            height: self.height,
        };
        Some(if self.tent { size.turned() } else { size })
    }

    /// Which panel lies over which where the paper leaves it open, by their
    /// indices.
    pub(super) fn on_top(&self) -> &'static [(usize, usize)] {
        match self.form {
            FoldForm::FirstIn => &[(2, 0)],
            FoldForm::Roll | FoldForm::DoubleParallel if self.widths.len() == 4 => {
                &[(0, 2), (0, 3)]
            }
            FoldForm::LastIn | FoldForm::Leaves | FoldForm::Roll => &[(0, 2)],
            _ => &[],
        }
    }

    /// How much shorter the panel that is folded in is than the one it lies on,
    /// where that is an allowance.
    pub(super) fn shorter(&self) -> Option<Length> {
        let shorter = match (self.form, &self.widths[..]) {
            (FoldForm::LastIn, [_, middle, last]) => *middle - *last,
            (FoldForm::FirstIn, [first, middle, _]) => *middle - *first,
            _ => return None,
        };
        (shorter > Length::ZERO && shorter <= MOST_SHORTER).then_some(shorter)
    }
}
