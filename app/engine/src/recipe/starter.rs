//! Folds to start from.

use std::sync::OnceLock;

use serde::Deserialize;

use super::{MeasureId, Recipe, plain};
use crate::length::Length;
use crate::paper::StockId;

/// A fold to start from: a recipe in inches, and what is different in metric.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Starter {
    /// Its lasting name.
    pub id: String,
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

/// The folds to start from, simplest first.
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
