//! What the maker works with and how they write lengths, whatever the recipe.

use foldwright_engine::card::Tools;
use foldwright_engine::length::{DecimalMark, Length, Notation, Step, Unit};
use serde::{Deserialize, Serialize};

use super::versioned;

pub(super) const KEY: &str = "foldwright/settings";

/// The maker's settings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Settings {
    /// How lengths of new recipes are written.
    pub notation: Notation,
    /// How far the scoring board reaches from its stop.
    pub board: Length,
}

impl Settings {
    /// What somebody probably uses, by the language of their browser, such as
    /// "en-US", and by how it writes one and a half. North America measures in
    /// inches.
    pub fn for_locale(language: &str, one_and_a_half: &str) -> Self {
        let inches = ["US", "CA"]
            .iter()
            .any(|country| language.split('-').skip(1).any(|part| part == *country));
        Self {
            notation: Notation {
                step: if inches {
                    Step::Sixteenth
                } else {
                    Step::Millimetre
                },
                decimal: if one_and_a_half.contains(',') {
                    DecimalMark::Comma
                } else {
                    DecimalMark::Point
                },
            },
            board: if inches {
                Length::inches(12)
            } else {
                Length::mm(300)
            },
        }
    }

    /// The unit lengths are written in.
    pub fn unit(&self) -> Unit {
        self.notation.unit()
    }

    /// What the engine is told of the tools.
    pub fn tools(&self) -> Tools {
        Tools { board: self.board }
    }

    pub(super) fn parse(text: &str) -> Option<Self> {
        Self::deserialize(versioned::body(text)?).ok()
    }

    pub(super) fn text(&self) -> String {
        versioned::text(self)
    }
}
