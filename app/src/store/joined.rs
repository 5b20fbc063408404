//! What came together of changes made in several places and did not go
//! together, until somebody has looked at it.

use std::collections::BTreeMap;

use foldwright_engine::recipe::{self, Recipe};
use serde::{Deserialize, Serialize};

use super::versioned;
use crate::spoken::texts;

const JOINED: &str = "foldwright/joined/";

/// The key under which it is kept for a recipe.
pub(crate) fn joined_key(id: &str) -> String {
    format!("{JOINED}{id}")
}

/// What was done to bring a recipe together.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Joined {
    /// What tells this from what was brought together before and after.
    pub mark: String,
    /// What was decided where, one a line.
    pub decided: Vec<String>,
    /// What became of it, one a line.
    pub became: Vec<String>,
    /// The numbers that merely followed, a line for each measure.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub followed: BTreeMap<u32, String>,
    /// Whether what came can't be shown, and this device goes on with its own.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub apart: bool,
    /// The recipe as this device had it before, as the text of a file; nothing
    /// where it had none.
    before: Option<String>,
    /// Whether somebody has looked at it here.
    pub looked: bool,
}

impl Joined {
    pub(crate) fn new(
        mark: String,
        decided: Vec<String>,
        became: Vec<String>,
        followed: BTreeMap<u32, String>,
        before: Option<&Recipe>,
    ) -> Self {
        Self {
            mark,
            decided,
            became,
            followed,
            apart: false,
            before: before.map(|before| recipe::write(std::slice::from_ref(before))),
            looked: false,
        }
    }

    /// The recipe as this device had it before.
    pub(crate) fn before(&self) -> Option<Recipe> {
        let recipes = recipe::read_kept(self.before.as_ref()?).ok()?;
        recipes.into_iter().next()
    }

    /// What became of it, in the reader's words where these are not kept.
    pub(crate) fn outcome(&self) -> impl Iterator<Item = String> {
        let apart = self.apart.then(|| texts().merging.apart.to_owned());
        self.became.iter().cloned().chain(apart)
    }

    /// The same once it was looked at, without what is not needed any more.
    #[must_use]
    pub(crate) fn looked_at(self) -> Self {
        Self {
            before: None,
            looked: true,
            ..self
        }
    }

    pub(crate) fn parse(text: &str) -> Option<Self> {
        Self::deserialize(versioned::body(text)?).ok()
    }

    pub(crate) fn text(&self) -> String {
        versioned::text(self)
    }
}
