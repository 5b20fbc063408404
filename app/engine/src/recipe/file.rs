//! Recipes in a file: JSON with a version.

use serde::Serialize;
use serde_json::Value;

use super::misshapen::{self, Detail, Spot};
use super::{Fault, Recipe};

/// The version written now; files of later versions are refused.
pub const VERSION: u64 = 4;

/// The first in which measures know the part they are of.
const KNOWING: u64 = 4;

/// What a file holds. The version's name is also what tells our files.
#[derive(Serialize)]
struct RecipeFile<'a> {
    foldwright: u64,
    recipes: &'a [Recipe],
}

impl<'a> RecipeFile<'a> {
    fn of(recipes: &'a [Recipe]) -> Self {
        Self {
            foldwright: VERSION,
            recipes,
        }
    }
}

/// Why a file's recipes can't be taken over. None of them is then.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FileError {
    /// The text is not JSON.
    NotJson {
        /// Where it stops making sense, counted from 1.
        line: usize,
    },
    /// It is JSON, but not a file of recipes.
    NotOurs,
    /// It was written by a later version.
    Newer {
        /// The version it names.
        version: u64,
    },
    /// A recipe lacks something or holds something out of place.
    Misshapen {
        /// Which recipe, counted from 1.
        recipe: usize,
        /// What the maker called it; empty where that can't be read either.
        name: String,
        /// Where in the recipe.
        at: Spot,
        /// What of that, where it is one thing.
        detail: Option<Detail>,
    },
    /// A recipe does not hold together.
    Faulty {
        /// Which recipe, counted from 1.
        recipe: usize,
        /// What is wrong with it.
        of: Misread,
    },
    /// A recipe has more parts than can be worked with without a pause.
    TooLarge {
        /// Which recipe, counted from 1.
        recipe: usize,
        /// What there is too much of.
        of: Misread,
    },
}

/// A recipe that was read and can't be taken over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misread {
    /// The recipe, which has the names of what is wrong.
    pub recipe: Box<Recipe>,
    /// What is wrong with it; never empty.
    pub faults: Vec<Fault>,
}

/// One recipe as it stands in a file, for [`write_parts`].
pub fn write_part(recipe: &Recipe) -> String {
    #[expect(
        clippy::expect_used,
        reason = "a recipe is plain data whose maps have text keys, which JSON can always hold"
    )]
    let part = serde_json::to_string_pretty(recipe as &dyn erased_serde::Serialize)
        .expect("a recipe is plain data");
    // No line ends within a text.
    part.replace('\n', "\n    ")
}

/// What stands in a file before its recipes, between two, and after the last.
/// With the texts that [`write_part`] gives, it is what [`write()`] writes.
pub fn write_parts() -> [String; 3] {
    [
        format!("{{\n  \"foldwright\": {VERSION},\n  \"recipes\": [\n    "),
        String::from(",\n    "),
        String::from("\n  ]\n}"),
    ]
}

/// The recipes as the text of a file, laid out for people to read.
pub fn write(recipes: &[Recipe]) -> String {
    #[expect(
        clippy::expect_used,
        reason = "recipes are plain data whose maps have text keys, which JSON can always hold"
    )]
    serde_json::to_string_pretty(&RecipeFile::of(recipes) as &dyn erased_serde::Serialize)
        .expect("a recipe is plain data")
}

/// The same without line breaks and blanks, for what only programs read.
pub fn write_dense(recipes: &[Recipe]) -> String {
    #[expect(
        clippy::expect_used,
        reason = "recipes are plain data whose maps have text keys, which JSON can always hold"
    )]
    serde_json::to_string(&RecipeFile::of(recipes) as &dyn erased_serde::Serialize)
        .expect("a recipe is plain data")
}

/// The recipes in the text of a file. A file that is faulty anywhere is refused
/// whole.
pub fn read(text: &str) -> Result<Vec<Recipe>, FileError> {
    read_checked(text, Recipe::check)
}

/// The same for what is kept already, which may have more parts than a recipe
/// can have that is made now.
pub fn read_kept(text: &str) -> Result<Vec<Recipe>, FileError> {
    read_checked(text, Recipe::check_kept)
}

fn read_checked(text: &str, check: fn(&Recipe) -> Vec<Fault>) -> Result<Vec<Recipe>, FileError> {
    let json: Value = serde_json::from_str(text.trim_start_matches('\u{FEFF}'))
        .map_err(|error| FileError::NotJson { line: error.line() })?;
    let version = check_version(json.get("foldwright").and_then(Value::as_u64))?;
    let recipes = json.get("recipes").and_then(Value::as_array);
    recipes
        .ok_or(FileError::NotOurs)?
        .iter()
        .zip(1..)
        .map(|(value, number)| read_one(version, value, number, check))
        .collect()
}

/// One recipe of a file, for whoever takes the file apart: what stands in its
/// list at that place, counted from 1 as is the line it begins in.
pub fn read_part(
    version: u64,
    text: &str,
    number: usize,
    line: usize,
) -> Result<Recipe, FileError> {
    check_version(Some(version))?;
    // What is sound is read at once, since files may have thousands; the slower way
    // tells what is wrong.
    if let Ok(recipe) = serde_json::from_str(text) {
        return checked(version, recipe, number, Recipe::check);
    }
    let value: Value = serde_json::from_str(text).map_err(|error| FileError::NotJson {
        line: line.saturating_add(error.line()).saturating_sub(1),
    })?;
    read_one(version, &value, number, Recipe::check)
}

/// The version of a file, if it can be read here.
pub fn check_version(version: Option<u64>) -> Result<u64, FileError> {
    match version {
        None | Some(0) => Err(FileError::NotOurs),
        Some(version) if version > VERSION => Err(FileError::Newer { version }),
        Some(version) => Ok(version),
    }
}

fn read_one(
    version: u64,
    value: &Value,
    number: usize,
    check: fn(&Recipe) -> Vec<Fault>,
) -> Result<Recipe, FileError> {
    let recipe = misshapen::read(value).map_err(|(at, detail)| FileError::Misshapen {
        recipe: number,
        name: name_in(value),
        at,
        detail,
    })?;
    checked(version, recipe, number, check)
}

fn checked(
    version: u64,
    mut recipe: Recipe,
    number: usize,
    check: fn(&Recipe) -> Vec<Fault>,
) -> Result<Recipe, FileError> {
    if version < KNOWING {
        recipe.know_measures();
    }
    let faults = check(&recipe);
    if faults.is_empty() {
        return Ok(recipe);
    }
    let too_large = faults.iter().all(|it| matches!(it, Fault::TooMany { .. }));
    let recipe = Box::new(recipe);
    let of = Misread { recipe, faults };
    Err(if too_large {
        FileError::TooLarge { recipe: number, of }
    } else {
        FileError::Faulty { recipe: number, of }
    })
}

fn name_in(recipe: &Value) -> String {
    let name = recipe.get("name").and_then(Value::as_str);
    name.unwrap_or_default().to_owned()
}
