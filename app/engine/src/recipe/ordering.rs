//! Steps of the maker's own, and the order in which the maker takes all of them.

use serde::{Deserialize, Serialize};

use super::Recipe;
use super::edit::Edited;

/// The longest text of a maker's own step, in characters: it is a heading. Our own
/// bound; what is longer goes into the note beside it.
pub const MOST_OWN_STEP: usize = 200;

/// The lasting name of a maker's own step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct OwnStepId(pub u32);

/// A step of the maker's own between those of the work.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct OwnStep {
    /// Its name in the recipe.
    pub id: OwnStepId,
    /// What to do, in the maker's words.
    pub text: String,
    /// Whether it is done for each card, and not once for all of them.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub each: bool,
}

impl Recipe {
    /// The maker's own step of that name.
    pub fn own_step(&self, id: OwnStepId) -> Option<&OwnStep> {
        self.own_steps.iter().find(|step| step.id == id)
    }

    /// Adds a step of the maker's own; where it stands is said by the order. Refuses
    /// more than a recipe can have.
    pub fn add_own_step(&mut self, text: &str, each: bool) -> Edited<OwnStepId> {
        self.whole(|recipe| {
            let used = recipe.own_steps.iter().map(|step| step.id.0);
            let id = OwnStepId(recipe.ids.fresh(used, u32::MAX)?);
            recipe.own_steps.push(OwnStep {
                id,
                text: heading(text),
                each,
            });
            Ok(id)
        })
    }

    /// Says a step of the maker's own in other words.
    pub fn change_own_step(&mut self, id: OwnStepId, text: &str, each: bool) {
        let mut steps = self.own_steps.iter_mut();
        if let Some(step) = steps.find(|step| step.id == id) {
            step.text = heading(text);
            step.each = each;
        }
    }

    /// Takes a step of the maker's own away.
    pub fn remove_own_step(&mut self, id: OwnStepId) {
        self.own_steps.retain(|step| step.id != id);
    }
}

/// A text as it is shown in one line, or its beginning.
fn heading(text: &str) -> String {
    let words: Vec<_> = text.split_whitespace().collect();
    words.join(" ").chars().take(MOST_OWN_STEP).collect()
}
