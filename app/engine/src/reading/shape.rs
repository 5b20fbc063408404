//! How the panels of a list fold, as far as their widths tell.

use super::piece::Panels;
use crate::length::Length;
use crate::plane::Size;
use crate::recipe::Fold;

/// A panel folded inside others is shorter by no more than this: 1/8 in, as the
/// widest printed allowance is, or 4 mm. Our own bound above the printed ones.
const MOST_SHORTER: Length = Length::mm(4);

/// The widest gap between the leaves of a gate: 1/4 in (common practice).
const WIDEST_GAP: Length = Length::sixty_fourths(16);

/// What a strip of panels is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    /// One panel.
    Flat,
    /// Two panels.
    Book,
    /// Two leaves that meet, or nearly, over the middle.
    Gate { gap: Length },
    /// Three panels, the last one folded in first.
    LastIn,
    /// Three panels, the first one folded in first.
    FirstIn,
    /// Folded to and fro.
    Zigzag,
}

/// The base, and how it folds.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Shape {
    pub(super) length: Length,
    pub(super) height: Length,
    pub(super) widths: Vec<Length>,
    pub(super) folds: Vec<Fold>,
    pub(super) form: Form,
    /// The card stands like a tent: its folds run across.
    pub(super) tent: bool,
}

/// The folds that the widths suggest, where the list does not tell them.
pub(super) fn shape(panels: &Panels, tent: bool) -> Shape {
    let form = match panels.widths[..] {
        [] | [_] => Form::Flat,
        [_, _] => Form::Book,
        [first, middle, last] => {
            let gap = middle - first - last;
            let shorter = |inner: Length, other: Length| {
                inner < middle && middle - inner <= MOST_SHORTER && other >= middle
            };
            if first == last && !gap.is_negative() && gap <= WIDEST_GAP {
                Form::Gate { gap }
            } else if shorter(last, first) {
                Form::LastIn
            } else if shorter(first, last) {
                Form::FirstIn
            } else {
                Form::Zigzag
            }
        }
        _ => Form::Zigzag,
    };
    let folds = panels.folds.iter().enumerate().map(|(place, told)| {
        told.unwrap_or(match form {
            Form::Zigzag if place % 2 == 1 => Fold::Mountain,
            _ => Fold::Valley,
        })
    });
    Shape {
        length: panels.length,
        height: panels.height,
        folds: folds.collect(),
        widths: panels.widths.clone(),
        form,
        tent,
    }
}

impl Shape {
    /// What the panels are called, in order.
    pub(super) fn names(&self) -> Vec<String> {
        let names: &[&str] = match self.form {
            Form::Flat => &["card"],
            Form::Book => &["front", "back"],
            Form::Gate { .. } => &["left leaf", "middle", "right leaf"],
            Form::LastIn => &["front", "middle", "folded-in"],
            Form::FirstIn => &["folded-in", "middle", "front"],
            Form::Zigzag => &[],
        };
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

    /// The panel in front of the closed card, by its place.
    pub(super) fn front(&self) -> usize {
        match self.form {
            Form::FirstIn => 2,
            _ => 0,
        }
    }

    /// The panel that rests on the table, by its place.
    pub(super) fn rests(&self) -> usize {
        match self.widths.len() {
            0 | 1 => 0,
            2 | 3 => 1,
            count => count - 1,
        }
    }
}
