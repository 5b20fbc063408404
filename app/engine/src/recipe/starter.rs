//! Folds to start from.

use std::sync::OnceLock;

use serde::Deserialize;

use super::{MeasureId, Recipe, plain};
use crate::length::Length;
use crate::paper::StockId;

/// How a fold works, by which it is found among others.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FoldGroup {
    /// Panels side by side, folded along scores.
    Strip,
    /// Corners turned, edges and windows cut to a shape.
    Shaped,
    /// Folded along the sheet and across it.
    Crosswise,
    /// Creases that only move together, so that something rises as it opens.
    Rising,
    /// Pieces of another sheet glued in.
    Glued,
}

impl FoldGroup {
    /// All of them, in the order in which they are shown: the simplest first.
    pub const ALL: [Self; 5] = [
        Self::Strip,
        Self::Shaped,
        Self::Crosswise,
        Self::Rising,
        Self::Glued,
    ];
}

/// What a fold does, by which it is found too.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Does {
    /// It is folded from one sheet, and nothing folded is glued in.
    OneSheet,
    /// The closed card shows both sides of its paper on its front.
    ShowsBothSides,
    /// Something rises as it opens.
    Rises,
}

impl Does {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::OneSheet, Self::ShowsBothSides, Self::Rises];
}

/// A fold to start from: a recipe in inches, and what is different in metric.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Starter {
    /// Its lasting name.
    pub id: String,
    /// How it works.
    pub group: FoldGroup,
    /// What it does, of what takes long to find out; the tests find it out.
    pub does: Vec<Does>,
    /// The recipe in inches. What has a name is named by a key there, for the
    /// words of a language.
    pub recipe: Recipe,
    /// What is different where millimetres are used.
    pub metric: Metric,
}

/// The metric values of a starting fold. What they leave out follows from its
/// relations.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Metric {
    /// The values of the measures.
    pub measures: Vec<(MeasureId, Length)>,
    /// The paper the strip is cut from.
    pub stock: StockId,
    /// The rule for panels folded in.
    pub folding_in: String,
    /// The rule for envelopes.
    pub posting: String,
}

/// The folds to start from, simplest first within each group.
pub fn starters() -> &'static [Starter] {
    static STARTERS: OnceLock<Vec<Starter>> = OnceLock::new();
    #[expect(
        clippy::expect_used,
        reason = "the text is part of the program, and the tests read it"
    )]
    STARTERS.get_or_init(|| {
        plain::read_text(include_str!("starters.json")).expect("the starters are well-formed")
    })
}
