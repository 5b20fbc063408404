//! A drawing in words, for those who cannot see it, and the stages of the
//! opening.

pub(crate) mod de;
pub(crate) mod en;

use foldwright_engine::posed::Stands;
use foldwright_engine::seen::{Fallen, FlatSeen, StateSeen};
use foldwright_engine::stage::Stage;

use crate::Speaker;

/// What is seen of a card.
#[derive(Debug, Clone, Copy)]
pub enum OfLook<'a> {
    /// The base, or a piece glued in, flat. Sentences.
    Flat(&'a FlatSeen),
    /// A state of the folded card. Sentences.
    State(&'a StateSeen),
    /// The card on its table, partly open. A sentence.
    Stands(Stands),
    /// A stage of the opening. A label.
    Stage(&'a Stage),
    /// A part that falls off, by its size and where it is. A label.
    Fallen(&'a Fallen),
    /// The same of what can be chosen in a drawing. A label.
    FallsOff(&'a Fallen),
}

impl Speaker<'_> {
    /// The base, or a piece glued in, flat, in sentences.
    pub fn flat(&self, seen: &FlatSeen) -> String {
        self.of_look(OfLook::Flat(seen))
    }

    /// A state of the folded card, in sentences.
    pub fn state(&self, seen: &StateSeen) -> String {
        self.of_look(OfLook::State(seen))
    }

    /// Whether the card stands by itself, in a sentence.
    pub fn stands(&self, stands: Stands) -> String {
        self.of_look(OfLook::Stands(stands))
    }

    /// A stage of the opening, as a label.
    pub fn stage(&self, stage: &Stage) -> String {
        self.of_look(OfLook::Stage(stage))
    }

    /// A part that falls off, by its size and where it is, as a label.
    pub fn fallen(&self, fallen: &Fallen) -> String {
        self.of_look(OfLook::Fallen(fallen))
    }

    /// The same of what can be chosen in a drawing.
    pub fn falls_off(&self, fallen: &Fallen) -> String {
        self.of_look(OfLook::FallsOff(fallen))
    }

    fn of_look(&self, of: OfLook<'_>) -> String {
        self.tongue().of_look(self.names(), of)
    }
}
