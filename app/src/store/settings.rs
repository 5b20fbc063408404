//! What the maker works with and how they write lengths, whatever the recipe.

use foldwright_engine::card::Tools;
use foldwright_engine::length::{DecimalMark, Length, Notation, Step, Unit};
use foldwright_words::Language;
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
    /// The language to speak, where another one may be than the browser asks
    /// for.
    #[serde(default, with = "tag", skip_serializing_if = "Option::is_none")]
    pub language: Option<Language>,
    /// Whether the finished cards to look into are put away.
    #[serde(default)]
    pub samples_away: bool,
}

/// A language is kept as its tag; one that is not spoken here is none.
mod tag {
    use foldwright_words::Language;
    use serde::{Deserialize as _, Deserializer, Serialize as _, Serializer};

    #[expect(
        clippy::ref_option,
        clippy::trivially_copy_pass_by_ref,
        reason = "serde hands it over so"
    )]
    pub(super) fn serialize<S: Serializer>(
        language: &Option<Language>,
        to: S,
    ) -> Result<S::Ok, S::Error> {
        language.map(Language::tag).serialize(to)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(
        from: D,
    ) -> Result<Option<Language>, D::Error> {
        let tag = Option::<String>::deserialize(from)?;
        Ok(tag.and_then(|tag| Language::of_tag(&tag)))
    }
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
            language: None,
            samples_away: false,
        }
    }

    /// Chooses a language. What is still as is usual in the one before becomes
    /// what is usual in the new one.
    pub fn choose_language(&mut self, language: Option<Language>, before: Self, now: Self) {
        self.language = language;
        if self.notation == before.notation {
            self.notation = now.notation;
        }
        if self.board == before.board {
            self.board = now.board;
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
