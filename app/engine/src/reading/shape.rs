//! The base of a list, and one way it may fold.

use super::sense::Way;
use crate::length::Length;
use crate::plane::Size;
use crate::recipe::Fold;

/// A panel folded inside others is shorter by no more than this: 1/8 in, as the
/// widest printed allowance is, or 4 mm. Our own bound above the printed ones.
pub(super) const MOST_SHORTER: Length = Length::mm(4);

/// What a strip of panels is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    /// One panel.
    Flat,
    /// Two panels, the first one in front.
    Book,
    /// Two panels, the last one in front.
    Flap,
    /// Two leaves that meet, or nearly, over the middle.
    Gate { gap: Length },
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
    pub(super) form: Form,
    /// The panel that rests on the table, by its place.
    pub(super) rests: usize,
    /// The card stands like a tent: its folds run across.
    pub(super) tent: bool,
}

impl Form {
    /// How it folds, in a few words.
    pub(super) const fn words(self) -> &'static str {
        match self {
            Self::Flat => "One panel, no fold",
            Self::Book => "The first panel is the front",
            Self::Flap => "The last panel is the front",
            Self::Gate { .. } => "Two leaves close over the middle",
            Self::Leaves => "Two leaves overlap over the middle",
            Self::LastIn => "The last panel folds in, the first closes over it",
            Self::FirstIn => "The first panel folds in, the last closes over it",
            Self::BackOver | Self::BackOverFirst => "The front folds back over itself",
            Self::FrontIn | Self::FrontInFirst => "The front folds in",
            Self::Zigzag => "Folded to and fro, the first panel in front",
            Self::ZigzagBack => "Folded to and fro, the last panel at the back",
            Self::Roll => "Rolled up, each panel into the one before",
            Self::DoubleParallel => "Folded in half, and in half again",
            Self::Told => "Folded as the list says",
        }
    }

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

    /// What the first panels are called.
    const fn names(self) -> &'static [&'static str] {
        match self {
            Self::Flat => &["card"],
            Self::Book | Self::Roll => &["front", "back"],
            Self::Flap => &["back", "front"],
            Self::Gate { .. } | Self::Leaves => &["left leaf", "middle", "right leaf"],
            Self::LastIn => &["front", "middle", "folded-in"],
            Self::FirstIn => &["folded-in", "middle", "front"],
            Self::BackOver => &["front", "behind the front", "back"],
            Self::BackOverFirst => &["back", "behind the front", "front"],
            Self::FrontIn => &["folded-in", "front", "back"],
            Self::FrontInFirst => &["back", "front", "folded-in"],
            Self::DoubleParallel => &["front", "back", "inner right", "inner left"],
            Self::Zigzag | Self::ZigzagBack | Self::Told => &[],
        }
    }
}

impl Shape {
    /// What the panels are called, in order.
    pub(super) fn names(&self) -> Vec<String> {
        let names = self.form.names();
        let numbers = names.len() + 1..=self.widths.len();
        let numbered = numbers.map(|number| format!("panel {number}"));
        names
            .iter()
            .map(|name| (*name).to_owned())
            .chain(numbered)
            .collect()
    }

    /// The size of the panel at a place, as its reader sees it.
    pub(super) fn panel(&self, place: usize) -> Option<Size> {
        let size = Size {
            width: *self.widths.get(place)?,
            height: self.height,
        };
        Some(if self.tent { size.turned() } else { size })
    }

    /// Which panel lies over which where the paper leaves it open, by their
    /// places.
    pub(super) fn on_top(&self) -> &'static [(usize, usize)] {
        match self.form {
            Form::FirstIn => &[(2, 0)],
            Form::Roll | Form::DoubleParallel if self.widths.len() == 4 => &[(0, 2), (0, 3)],
            Form::LastIn | Form::Leaves | Form::Roll => &[(0, 2)],
            _ => &[],
        }
    }

    /// How much shorter the panel that is folded in is than the one it lies on,
    /// where that is an allowance.
    pub(super) fn shorter(&self) -> Option<Length> {
        let shorter = match (self.form, &self.widths[..]) {
            (Form::LastIn, [_, middle, last]) => *middle - *last,
            (Form::FirstIn, [first, middle, _]) => *middle - *first,
            _ => return None,
        };
        (shorter > Length::ZERO && shorter <= MOST_SHORTER).then_some(shorter)
    }
}
