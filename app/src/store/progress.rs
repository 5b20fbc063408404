//! How far somebody has come at the bench.

use std::collections::BTreeMap;

use foldwright_engine::cut_plan::Scraps;
use foldwright_engine::recipe::RunId;
use foldwright_engine::rescue::Done;
use foldwright_engine::steps::{StepKey, Trim, Trims};
use serde::{Deserialize, Serialize};

use super::versioned;

const PROGRESS: &str = "foldwright/bench/";

/// The key the progress of a recipe is kept under.
pub(crate) fn progress_key(id: &str) -> String {
    format!("{PROGRESS}{id}")
}

/// What stands for the screen after the last step in addresses and progress. No
/// step has this name.
pub(crate) const FINISH: &str = "finish";

/// A step in addresses and progress; `None` after the last one.
pub(crate) fn step_text(step: Option<StepKey>) -> String {
    step.map_or_else(|| FINISH.to_owned(), |key| key.to_string())
}

/// How far the making of a recipe's cards has come, as it is kept and brought
/// together: by the texts of lasting names, of which other releases may know more.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Progress {
    /// The lasting name of the step that is open; empty before the first.
    #[serde(default)]
    pub step: String,
    /// For how many cards each step is done, by the step's lasting name.
    #[serde(default)]
    pub done: BTreeMap<String, u32>,
    /// What is cut and larger than the recipe has it, to be trimmed, by the lasting
    /// name of the step it is cut in.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub trims: BTreeMap<String, Trim>,
    /// The scraps that lay on the shelf when cutting began, as its plan is made of
    /// them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub scraps: Vec<Scraps>,
    /// Under which name the log has it, once all was done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub run: Option<RunId>,
}

impl Progress {
    pub(crate) fn parse(text: &str) -> Option<Self> {
        Self::deserialize(versioned::body(text)?).ok()
    }

    pub(crate) fn text(&self) -> String {
        versioned::text(self)
    }

    /// Work that goes on at a step, or has none left.
    pub(crate) fn of(step: Option<StepKey>, done: &Done, trims: &Trims) -> Self {
        let done = done.iter().map(|(key, done)| (key.to_string(), *done));
        let trims = trims.iter();
        let trims = trims.map(|(part, trim)| (StepKey::Cut(*part).to_string(), *trim));
        Self {
            step: step_text(step),
            done: done.collect(),
            trims: trims.collect(),
            scraps: Vec::new(),
            run: None,
        }
    }

    /// For how many cards a step is done; nothing where it was not begun.
    pub(crate) fn done_at(&self, key: StepKey) -> Option<u32> {
        self.done.get(&key.to_string()).copied()
    }

    /// For how many cards each step is done that this release knows.
    pub(crate) fn known_done(&self) -> Done {
        let done = self.done.iter();
        done.filter_map(|(key, done)| Some((StepKey::of_text(key)?, *done)))
            .collect()
    }

    /// What is to be trimmed of what this release knows.
    pub(crate) fn known_trims(&self) -> Trims {
        let trims = self.trims.iter();
        trims
            .filter_map(|(key, trim)| match StepKey::of_text(key)? {
                StepKey::Cut(part) => Some((part, *trim)),
                _ => None,
            })
            .collect()
    }
}
