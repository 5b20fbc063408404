//! How far somebody has come at the bench.

use std::collections::BTreeMap;

use foldwright_engine::steps::Trims;
use serde::{Deserialize, Serialize};

use super::versioned;

const PROGRESS: &str = "foldwright/bench/";

/// The key the progress of a recipe is kept under.
pub(crate) fn progress_key(id: &str) -> String {
    format!("{PROGRESS}{id}")
}

/// How far the making of a recipe's cards has come.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Progress {
    /// The lasting name of the step that is open; empty before the first.
    #[serde(default)]
    pub step: String,
    /// For how many cards each step is done, by the step's lasting name.
    #[serde(default)]
    pub done: BTreeMap<String, u32>,
    /// What is cut and larger than the recipe has it, to be trimmed.
    #[serde(default, skip_serializing_if = "Trims::is_empty")]
    pub trims: Trims,
}

impl Progress {
    pub(crate) fn parse(text: &str) -> Option<Self> {
        Self::deserialize(versioned::body(text)?).ok()
    }

    pub(crate) fn text(&self) -> String {
        versioned::text(self)
    }
}
