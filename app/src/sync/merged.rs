//! Recipes as documents that merge.

use foldwright_document::{Document, Oddity, mend};
use foldwright_engine::recipe::{Recipe, VERSION};
use serde::Deserialize as _;
use serde_json::Value;

/// The field that says in which version of files a recipe is written.
const FORMAT: &str = "format";

/// What a document says a recipe is.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Merged {
    /// The recipe.
    pub(crate) recipe: Recipe,
    /// What merging made of it that nobody meant.
    pub(crate) oddities: Vec<Oddity>,
}

/// Why a document holds no recipe that can be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum NoRecipe {
    /// Nothing was written in it yet.
    Empty,
    /// A later Foldwright wrote it. It is passed on untouched.
    Newer,
    /// What came together makes no sense, whatever is left out.
    Unsound,
}

/// A recipe as an object that merges. What later versions add to an object is
/// not part of this one, so that writing what differs leaves it alone.
pub(crate) fn object(recipe: &Recipe) -> Value {
    // Serialising to a value fails for maps whose keys are no text; a recipe
    // has none.
    let mut object = serde_json::to_value(recipe).unwrap_or_default();
    if let Some(fields) = object.as_object_mut() {
        fields.insert(FORMAT.to_owned(), VERSION.into());
    }
    object
}

/// The recipe in a document.
pub(crate) fn recipe(document: &Document) -> Result<Merged, NoRecipe> {
    let mended = mend(document, &|object| read(object).is_some()).ok_or(NoRecipe::Empty)?;
    let format = mended.object.get(FORMAT).and_then(Value::as_u64);
    if format.is_some_and(|format| format > VERSION) {
        return Err(NoRecipe::Newer);
    }
    let recipe = read(&mended.object).ok_or(NoRecipe::Unsound)?;
    Ok(Merged {
        recipe,
        oddities: mended.oddities,
    })
}

fn read(object: &Value) -> Option<Recipe> {
    let recipe = Recipe::deserialize(object).ok()?;
    recipe.check_kept().is_empty().then_some(recipe)
}
