//! Writes the sheet and the recipe cards of every starting fold, in each language and
//! for each paper, into a folder: `cargo run -p foldwright-print --example sheets FOLDER`.

use std::path::PathBuf;
use std::process::ExitCode;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::recipe::starters;
use foldwright_print::{Paper, Photos, Sheet, cards, sheet};
use foldwright_words::{Language, starter};

/// As long as links are.
const LINK: &str = "https://cards.example.org/shared/\
    0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";

fn main() -> ExitCode {
    let Some(folder) = std::env::args().nth(1).map(PathBuf::from) else {
        eprintln!("Name a folder to write the sheets into.");
        return ExitCode::FAILURE;
    };
    for language in Language::ALL {
        for it in starters() {
            let recipe = starter(language.tongue(), it, it.recipe.notation);
            let card = work_out(&recipe, &Tools::default());
            for paper in Paper::ALL {
                let of = Sheet {
                    recipe: &recipe,
                    card: &card,
                    from: "",
                    link: LINK,
                    tongue: language.tongue(),
                    paper,
                    photos: &Photos::default(),
                };
                for (kind, made) in [("sheet", sheet(&of)), ("cards", cards(&of))] {
                    let name = format!("{}-{kind}-{}-{}.pdf", it.id, language.tag(), paper.name());
                    let written = made.map_err(|why| why.to_string()).and_then(|pdf| {
                        std::fs::write(folder.join(&name), pdf).map_err(|why| why.to_string())
                    });
                    if let Err(why) = written {
                        eprintln!("{name}: {why}");
                        return ExitCode::FAILURE;
                    }
                }
            }
        }
    }
    ExitCode::SUCCESS
}
