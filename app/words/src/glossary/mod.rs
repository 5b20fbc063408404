//! The words of the trade, each explained in a sentence or two: terms as makers of
//! folded cards use them (common practice).

mod de;
mod en;

use crate::Language;

/// A word of the trade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "each is explained in every language")]
pub enum Term {
    Sheet,
    Base,
    Panel,
    FlatSize,
    FinishedSize,
    Score,
    Mountain,
    Valley,
    Layer,
    Mat,
    Border,
    FocalPiece,
    Overhang,
    Tab,
    Insert,
    PrintDirection,
    Grain,
    Weight,
    Caliper,
    Trimmer,
    Fence,
    ScoringBoard,
    BoneFolder,
    Kit,
    Recipe,
    Bench,
}

/// Words that are explained together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "the names say it")]
pub enum Group {
    Card,
    Folds,
    Layers,
    Paper,
    Tools,
    Making,
}

impl Group {
    /// All of them, in the order in which a card comes about.
    pub const ALL: [Self; 6] = [
        Self::Card,
        Self::Folds,
        Self::Layers,
        Self::Paper,
        Self::Tools,
        Self::Making,
    ];

    /// Its words.
    pub const fn terms(self) -> &'static [Term] {
        match self {
            Self::Card => &[Term::Base, Term::Panel, Term::FlatSize, Term::FinishedSize],
            Self::Folds => &[Term::Score, Term::Mountain, Term::Valley],
            Self::Layers => &[
                Term::Layer,
                Term::Mat,
                Term::Border,
                Term::FocalPiece,
                Term::Overhang,
                Term::Tab,
                Term::Insert,
            ],
            Self::Paper => &[
                Term::Sheet,
                Term::PrintDirection,
                Term::Grain,
                Term::Weight,
                Term::Caliper,
            ],
            Self::Tools => &[
                Term::Trimmer,
                Term::Fence,
                Term::ScoringBoard,
                Term::BoneFolder,
            ],
            Self::Making => &[Term::Recipe, Term::Kit, Term::Bench],
        }
    }
}

impl Term {
    /// Where it is explained on the page of all words.
    pub const fn anchor(self) -> &'static str {
        match self {
            Self::Sheet => "sheet",
            Self::Base => "base",
            Self::Panel => "panel",
            Self::FlatSize => "flat-size",
            Self::FinishedSize => "finished-size",
            Self::Score => "score",
            Self::Mountain => "mountain",
            Self::Valley => "valley",
            Self::Layer => "layer",
            Self::Mat => "mat",
            Self::Border => "border",
            Self::FocalPiece => "focal-piece",
            Self::Overhang => "overhang",
            Self::Tab => "tab",
            Self::Insert => "insert",
            Self::PrintDirection => "print-direction",
            Self::Grain => "grain",
            Self::Weight => "weight",
            Self::Caliper => "caliper",
            Self::Trimmer => "trimmer",
            Self::Fence => "fence",
            Self::ScoringBoard => "scoring-board",
            Self::BoneFolder => "bone-folder",
            Self::Kit => "kit",
            Self::Recipe => "recipe",
            Self::Bench => "bench",
        }
    }
}

/// A word, and what it means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Explained {
    /// The word as it stands in a list.
    pub word: &'static str,
    /// What it means, in whole sentences.
    pub means: &'static str,
}

impl Language {
    /// What words that are explained together are about.
    pub const fn about(self, group: Group) -> &'static str {
        match self {
            Self::English => en::about(group),
            Self::German => de::about(group),
        }
    }

    /// What a word of the trade means.
    pub const fn explained(self, term: Term) -> Explained {
        match self {
            Self::English => en::explained(term),
            Self::German => de::explained(term),
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::{Group, Term};
    use crate::Language;

    /// Three lines of a phone are some 120 characters; two sentences may take six.
    const LONGEST: usize = 240;

    #[test]
    fn every_word_is_explained_shortly_and_in_one_place() {
        let all: Vec<Term> = Group::ALL
            .iter()
            .flat_map(|it| it.terms())
            .copied()
            .collect();
        let anchors: BTreeSet<_> = all.iter().map(|term| term.anchor()).collect();
        assert_eq!(anchors.len(), all.len());
        for language in Language::ALL {
            let words: BTreeSet<_> = all
                .iter()
                .map(|term| language.explained(*term).word)
                .collect();
            assert_eq!(words.len(), all.len());
            for term in all.iter().copied() {
                let said = language.explained(term);
                let length = said.means.chars().count();
                assert!(said.means.ends_with('.') && length <= LONGEST, "{said:?}");
            }
        }
    }
}
