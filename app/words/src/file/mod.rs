//! Why a recipe does not hold together, and why a file can't be taken over. Asked
//! for by language, so that a page that shows no card needs no other sentence.

mod de;
mod en;

use foldwright_engine::recipe::{Fault, FileError, Recipe};

use crate::Language;
use crate::names::Names;

/// What keeps a recipe from holding together, in a sentence.
pub fn fault(language: Language, recipe: &Recipe, fault: &Fault) -> String {
    let names = Names::of(language, recipe);
    match language {
        Language::English => en::fault(&names, fault),
        Language::German => de::fault(&names, fault),
    }
}

/// Why a file's recipes can't be taken over, and what to do.
pub fn file_error(language: Language, error: &FileError) -> String {
    match language {
        Language::English => en::file_error(error),
        Language::German => de::file_error(error),
    }
}
