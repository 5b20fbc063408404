//! Folds to start from.

use std::sync::OnceLock;

use serde::Deserialize;

use super::{MeasureId, Recipe};
use crate::length::{Length, Notation, Unit};
use crate::paper::StockId;

/// A fold to start from: a recipe in inches, and what is different in metric.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Starter {
    /// Its lasting name.
    pub id: String,
    /// What it is good for, in a sentence.
    pub about: String,
    /// The recipe in inches.
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

impl Starter {
    /// The recipe in a notation, in round inches or round millimetres.
    pub fn recipe_in(&self, notation: Notation) -> Recipe {
        let mut recipe = self.recipe.clone();
        recipe.notation = notation;
        // Values that clash leave the recipe in inches, which is right too.
        if notation.unit() == Unit::Millimetre
            && recipe.settle(&self.metric.measures, &[], &[]).is_ok()
        {
            recipe.base.stock = self.metric.stock;
            recipe.folding_in.rule.clone_from(&self.metric.folding_in);
            recipe.posting.rule.clone_from(&self.metric.posting);
        }
        recipe
    }
}

/// The folds to start from, simplest first.
pub fn starters() -> &'static [Starter] {
    static STARTERS: OnceLock<Vec<Starter>> = OnceLock::new();
    #[expect(
        clippy::expect_used,
        reason = "the text is part of the program, and the tests read it"
    )]
    STARTERS.get_or_init(|| {
        serde_json::from_str(include_str!("starters.json")).expect("the starters are well-formed")
    })
}
