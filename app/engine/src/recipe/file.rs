//! Recipes in a file: JSON with a version.

use std::fmt;

use serde::Serialize;
use serde_json::Value;
use serde_path_to_error::{Path, Segment};

use super::{Fault, Recipe};

/// The version written now; files of later versions are refused.
pub const VERSION: u64 = 3;

/// What a file holds. The version's name is also what tells our files.
#[derive(Serialize)]
struct RecipeFile<'a> {
    foldwright: u64,
    recipes: &'a [Recipe],
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
        /// Where in the recipe, in words.
        place: String,
    },
    /// A recipe does not hold together.
    Faulty {
        /// Which recipe, counted from 1.
        recipe: usize,
        /// What the maker called it.
        name: String,
        /// What is wrong with it; never empty.
        faults: Vec<Fault>,
    },
    /// A recipe has more parts than can be worked with without a pause.
    TooLarge {
        /// Which recipe, counted from 1.
        recipe: usize,
        /// What the maker called it.
        name: String,
        /// What there is too much of; never empty.
        faults: Vec<Fault>,
    },
}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotJson { line } => write!(
                f,
                "This file can't be read: it stops making sense in line {line}. It may be \
                 incomplete; fetch or save it again."
            ),
            Self::NotOurs => f.write_str(
                "This is not a file of recipes. Choose a file that was saved from Foldwright.",
            ),
            Self::Newer { version } => write!(
                f,
                "This file is of version {version}; this Foldwright reads up to {VERSION}. \
                 Update Foldwright and open it again."
            ),
            Self::Misshapen {
                recipe,
                name,
                place,
            } => write!(
                f,
                "{} can't be read: something about {place} is missing or is no value Foldwright \
                 knows. Save it again where it came from.",
                recipe_words(*recipe, name)
            ),
            Self::Faulty {
                recipe,
                name,
                faults,
            } => {
                write!(
                    f,
                    "{} does not hold together: {} Save it again where it came from.",
                    recipe_words(*recipe, name),
                    sentences(faults)
                )
            }
            Self::TooLarge {
                recipe,
                name,
                faults,
            } => write!(
                f,
                "{} is too large: {} Make it smaller where it came from, or make two recipes of \
                 it.",
                recipe_words(*recipe, name),
                sentences(faults)
            ),
        }
    }
}

fn recipe_words(number: usize, name: &str) -> String {
    match name.trim() {
        "" => format!("Recipe {number} of this file"),
        name => format!("Recipe {number} of this file, “{name}”,"),
    }
}

fn sentences(faults: &[Fault]) -> String {
    let faults: Vec<_> = faults.iter().map(Fault::to_string).collect();
    faults.join(" ")
}

impl std::error::Error for FileError {}

/// The recipes as the text of a file, laid out for people to read.
pub fn write(recipes: &[Recipe]) -> String {
    let file = RecipeFile {
        foldwright: VERSION,
        recipes,
    };
    #[expect(
        clippy::expect_used,
        reason = "recipes are plain data whose maps have text keys, which JSON can always hold"
    )]
    serde_json::to_string_pretty(&file).expect("a recipe is plain data")
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
    let version = json.get("foldwright").and_then(Value::as_u64);
    match version {
        None | Some(0) => return Err(FileError::NotOurs),
        Some(version) if version > VERSION => return Err(FileError::Newer { version }),
        Some(_) => {}
    }
    let recipes = json.get("recipes").and_then(Value::as_array);
    recipes
        .ok_or(FileError::NotOurs)?
        .iter()
        .zip(1..)
        .map(|(value, number)| read_one(value, number, check))
        .collect()
}

fn read_one(
    value: &Value,
    number: usize,
    check: fn(&Recipe) -> Vec<Fault>,
) -> Result<Recipe, FileError> {
    let recipe: Recipe =
        serde_path_to_error::deserialize(value).map_err(|error| FileError::Misshapen {
            recipe: number,
            name: name_in(value),
            place: place(error.path()),
        })?;
    let faults = check(&recipe);
    if faults.is_empty() {
        Ok(recipe)
    } else if faults.iter().all(|it| matches!(it, Fault::TooMany { .. })) {
        Err(FileError::TooLarge {
            recipe: number,
            name: recipe.name,
            faults,
        })
    } else {
        Err(FileError::Faulty {
            recipe: number,
            name: recipe.name,
            faults,
        })
    }
}

fn name_in(recipe: &Value) -> String {
    let name = recipe.get("name").and_then(Value::as_str);
    name.unwrap_or_default().to_owned()
}

/// Where in a recipe a path leads, as makers say.
fn place(path: &Path) -> String {
    let mut steps = path.iter();
    let field = match steps.next() {
        Some(Segment::Map { key }) => key.as_str(),
        _ => "",
    };
    let number = match steps.next() {
        Some(Segment::Seq { index }) => Some(index + 1),
        _ => None,
    };
    let (one, all) = match field {
        "measures" => ("measurement", "its measurements"),
        "relations" => ("rule", "its rules"),
        "stocks" => ("paper", "its papers"),
        "layers" => ("layer", "its layers"),
        "pieces" => ("pop-up or pocket", "its pop-ups and pockets"),
        "base" => ("", "its card base"),
        "upright" => ("", "its print direction"),
        "posting" => ("", "its envelope"),
        "folding_in" => ("", "its folds"),
        "notes" => ("", "its notes"),
        "copies" => ("", "the number of cards"),
        _ => ("", "the recipe as a whole"),
    };
    match number {
        Some(number) if !one.is_empty() => format!("{one} {number}"),
        _ => all.to_owned(),
    }
}
