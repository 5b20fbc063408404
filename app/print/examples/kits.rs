//! Writes kits of starting folds, in each language and for each paper, into a folder,
//! and beside each what its plan and its cut list say:
//! `cargo run -p foldwright-print --example kits FOLDER`.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::cut_plan::CutPlan;
use foldwright_engine::length::{Length, Unit};
use foldwright_engine::recipe::{Recipe, starters};
use foldwright_print::{Kits, Paper, Photos, Sheet, kits};
use foldwright_words::{Language, starter};
use serde_json::json;

#[path = "../tests/class/mod.rs"]
mod class;

/// How many makers there are of each fold, and how many kits besides.
const MAKERS: [[u32; 2]; 3] = [[1, 0], [12, 2], [24, 3]];

fn main() -> ExitCode {
    let Some(folder) = std::env::args().nth(1).map(PathBuf::from) else {
        eprintln!("Name a folder to write the kits into.");
        return ExitCode::FAILURE;
    };
    for language in Language::ALL {
        for (it, [makers, spare]) in starters().iter().zip(MAKERS.into_iter().cycle()) {
            let recipe = starter(language.tongue(), it, it.recipe.notation);
            let card = work_out(&recipe, &Tools::default());
            let Some(plan) = class::planned(&recipe, &card, makers + spare, &[]) else {
                eprintln!("{}: there is no plan", it.id);
                return ExitCode::FAILURE;
            };
            for paper in Paper::ALL {
                let made = kits(&Kits {
                    of: Sheet {
                        recipe: &recipe,
                        card: &card,
                        from: "",
                        link: "",
                        tongue: language.tongue(),
                        paper,
                        photos: &Photos::default(),
                    },
                    makers,
                    spare,
                    plan: Some(&plan),
                });
                let name = format!("{}-{}-{}", it.id, language.tag(), paper.name());
                let said = said(&card, &recipe, [makers, spare], &plan);
                let written = made.map_err(|why| why.to_string());
                let written = written.and_then(|pdf| write(&folder, &name, &pdf, &said));
                if let Err(why) = written {
                    eprintln!("{name}: {why}");
                    return ExitCode::FAILURE;
                }
            }
        }
    }
    ExitCode::SUCCESS
}

/// What a reader of the file has to find: lengths in 1/72 µm.
fn said(card: &Card, recipe: &Recipe, [makers, spare]: [u32; 2], plan: &CutPlan) -> String {
    let blanks = card.cut_list.blanks.iter();
    let pieces = blanks.map(|blank| {
        let sides = [blank.size.width, blank.size.height];
        json!({ "sides": sides.map(Length::units), "each": blank.per_card })
    });
    let fences = plan.settings.iter().map(|setting| setting.fence.units());
    let sheets = plan.sheets.values();
    json!({
        "makers": makers,
        "spare": spare,
        "inches": recipe.notation.unit() == Unit::Inch,
        "pieces": pieces.collect::<Vec<_>>(),
        "fences": fences.collect::<Vec<_>>(),
        "sheets": sheets.collect::<Vec<_>>(),
    })
    .to_string()
}

fn write(folder: &Path, name: &str, pdf: &[u8], said: &str) -> Result<(), String> {
    let file = folder.join(name);
    std::fs::write(file.with_extension("pdf"), pdf)
        .and_then(|()| std::fs::write(file.with_extension("json"), said))
        .map_err(|why| why.to_string())
}
