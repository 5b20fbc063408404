//! A card in its envelope.

use super::Card;
use crate::length::Length;
use crate::paper::{Envelope, Mail};
use crate::recipe::Recipe;

/// A card as it is posted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Posted {
    /// Its envelope.
    pub envelope: &'static Envelope,
    /// Both together.
    pub mail: Mail,
}

impl Card {
    /// The card in the envelope its maker chose, or else in the tightest that takes
    /// it. `None` where there is none, or the card does not close.
    pub fn posted(&self, recipe: &Recipe) -> Option<Posted> {
        self.folded.as_ref()?;
        let chosen = recipe.posting.envelope.as_deref();
        let envelope = match chosen.and_then(Envelope::by_id) {
            Some(envelope) => envelope,
            None => self.envelopes.first()?.envelope,
        };
        let thickness = self.thickest.map_or(Length::ZERO, |place| place.thickness);
        Some(Posted {
            envelope,
            mail: envelope.around(thickness, self.mass),
        })
    }
}
