//! A shared recipe as a sheet to print.

use foldwright_api::Shared;
use foldwright_engine::card::{Tools, work_out};
use foldwright_print::{Paper, Sheet, sheet};
use foldwright_words::Language;

use super::read::recipe;
use super::written::{MOST_BYTES, is_too_large};
use crate::spoken::{speak, tongue};
use crate::store::file_name;

/// A sheet as a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Printed {
    /// What the file is called.
    pub name: String,
    /// The file, a PDF.
    pub pdf: Vec<u8>,
}

/// The sheet of what a link opens, in a language and for a paper; `None` where
/// that is no recipe this Foldwright can show, or one too large to be written out.
pub fn printed(shared: &Shared, language: Language, paper: Paper) -> Option<Printed> {
    speak(language);
    let recipe = recipe(shared).ok()?;
    if is_too_large(&recipe) {
        return None;
    }
    let card = work_out(&recipe, &Tools::default());
    let pdf = sheet(&Sheet {
        recipe: &recipe,
        card: &card,
        from: &shared.from,
        tongue: tongue(),
        paper,
    });
    let pdf = pdf.ok().filter(|pdf| pdf.len() <= MOST_BYTES)?;
    let name = file_name(&recipe.name, "pdf");
    Some(Printed { name, pdf })
}
