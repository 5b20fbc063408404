//! Named lengths of a recipe.

use serde::{Deserialize, Serialize};

use super::MeasureOf;
use crate::length::Length;

/// Names a measure for as long as it exists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct MeasureId(pub u32);

/// One length of the recipe that the maker can read and change.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Measure {
    /// Its lasting name.
    pub id: MeasureId,
    /// What the maker calls it, such as "panel 1 width".
    pub name: String,
    /// Its present value.
    pub value: Length,
    /// The part it is of and named after; `None` for one that has a name of its
    /// own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<MeasureOf>,
    /// Whether the maker holds it still.
    #[serde(default)]
    pub pinned: bool,
    /// The least a refit may make it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least: Option<Length>,
    /// The most a refit may make it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most: Option<Length>,
    /// What it was as the card was designed, where a refit has made it another.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub designed: Option<Length>,
}

impl Measure {
    /// A measure that may move, without limits of its own.
    pub const fn new(id: MeasureId, name: String, value: Length) -> Self {
        Self {
            id,
            name,
            value,
            of: None,
            pinned: false,
            least: None,
            most: None,
            designed: None,
        }
    }
}
