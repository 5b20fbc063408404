//! What there is to say of a card at a glance.

use super::Card;
use crate::length::Length;
use crate::paper::Mass;
use crate::plane::Size;
use crate::recipe::{PanelId, PieceId};

/// A card at a glance.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Facts {
    /// How many panels its base has.
    pub panels: usize,
    /// What comes of it closed; `None` where it does not fold flat.
    pub closed: Option<Closed>,
    /// The size of its base before it is folded.
    pub flat: Size,
}

/// A closed card at a glance.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Closed {
    /// The panel in front.
    pub front: Option<PanelId>,
    /// The pieces that would keep it from closing, without which it is shown.
    pub without: Vec<PieceId>,
    /// Width and height, with all that overhangs.
    pub size: Size,
    /// How thick it is at its thickest.
    pub thickness: Length,
    /// What it weighs.
    pub mass: Mass,
}

impl Card {
    /// The card at a glance.
    pub fn facts(&self) -> Facts {
        let closed = self.folded.as_ref().map(|folded| {
            let closed = folded.states.first();
            let front = closed.and_then(|closed| closed.order.last());
            let front = front.and_then(|index| self.laid.panels.get(*index));
            let thickest = self.thickest.as_ref();
            Closed {
                front: front.map(|panel| panel.id),
                without: self.left_out.clone(),
                size: self.finished,
                thickness: thickest.map_or(Length::ZERO, |place| place.thickness),
                mass: self.mass,
            }
        });
        Facts {
            panels: self.laid.panels_of(&self.laid.base).len(),
            closed,
            flat: self.laid.base.size,
        }
    }
}
