//! Writes what other programs read of every starting fold into a folder, in each
//! language, beside each list the sizes of its parts, and beside each crease pattern what
//! is written again of the recipe that is read of it: `cargo run -p foldwright-export
//! --example exports FOLDER`.

use std::path::PathBuf;
use std::process::ExitCode;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{Recipe, Side, starters};
use foldwright_export::read::read;
use foldwright_export::{csv, fold, svg};
use foldwright_words::{Language, starter};
use serde_json::json;

fn main() -> ExitCode {
    let Some(folder) = std::env::args().nth(1).map(PathBuf::from) else {
        eprintln!("Name a folder to write the files into.");
        return ExitCode::FAILURE;
    };
    for language in Language::ALL {
        for it in starters() {
            let recipe = starter(language.tongue(), it, it.recipe.notation);
            let card = work_out(&recipe, &Tools::default());
            let pattern = fold(&recipe, &card, language.tongue());
            let Some(again) = again(&pattern, &recipe, language) else {
                eprintln!("{}: its pattern is not read", it.id);
                return ExitCode::FAILURE;
            };
            let files = [
                ("svg", svg(&recipe, &card, language.tongue(), Side::A)),
                ("back.svg", svg(&recipe, &card, language.tongue(), Side::B)),
                ("fold", pattern),
                ("again.fold", again),
                ("csv", csv(&recipe, &card, language.tongue())),
                ("json", sizes(&recipe, &card)),
            ];
            for (ending, text) in files {
                let name = format!("{}-{}.{ending}", it.id, language.tag());
                if let Err(why) = std::fs::write(folder.join(&name), text) {
                    eprintln!("{name}: {why}");
                    return ExitCode::FAILURE;
                }
            }
        }
    }
    ExitCode::SUCCESS
}

/// A pattern as it is written once it was read.
fn again(pattern: &str, recipe: &Recipe, language: Language) -> Option<String> {
    let tongue = language.tongue();
    let sheet = read(pattern).ok()?;
    let made = sheet.recipe(Length::ZERO, &recipe.name, recipe.notation, tongue);
    let recipe = made.ok()?.recipe;
    let card = work_out(&recipe, &Tools::default());
    Some(fold(&recipe, &card, tongue))
}

/// The sizes of all parts in units of 1/72 µm, and the unit they are told in.
fn sizes(recipe: &Recipe, card: &Card) -> String {
    let blanks = card.cut_list.blanks.iter();
    let sizes = blanks.map(|blank| [blank.size.width.units(), blank.size.height.units()]);
    let unit = recipe.notation.unit().words();
    json!({ "unit": unit, "parts": sizes.collect::<Vec<_>>() }).to_string()
}
