//! Parts of a file of recipes, made ready to be kept before it is known what is here:
//! so a worker can do what takes long, and the page has only to keep them.

use foldwright_engine::recipe::read_part;
use serde::{Deserialize, Serialize};

use super::print::Print;
use super::split::Part;
use crate::store::packed;

/// A part of a file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum Ready {
    /// A sound recipe.
    Recipe {
        /// Tells it from all others.
        print: Print,
        /// Its text as it is kept, without its stamp.
        packed: String,
    },
    /// What is to be looked at where what comes of it can be said.
    Part(Part),
}

impl Ready {
    /// Reads a part of a file of recipes of that version, the `number`th.
    pub(crate) fn of(version: u64, number: usize, part: Part) -> Self {
        match read_part(version, &part.text, number, part.line) {
            Ok(recipe) => Self::Recipe {
                print: Print::of(&recipe),
                packed: packed(&recipe),
            },
            Err(_) => Self::Part(part),
        }
    }
}
