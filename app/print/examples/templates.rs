//! Writes the templates of every starting fold, in each language, for each paper,
//! from both sides, into a folder, and beside each what is to be measured in it:
//! `cargo run -p foldwright-print --example templates FOLDER`.
//!
//! Beside `NAME.pdf` lies `NAME.json`: of each part its edges, cuts and creases, in
//! units of 1/72 µm, and of those with straight scores where the recipe has them.

use std::path::PathBuf;
use std::process::ExitCode;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::{Length, Unit};
use foldwright_engine::part::Part;
use foldwright_engine::plane::Point;
use foldwright_engine::recipe::{Fold, Recipe, Side, starters};
use foldwright_engine::template::{Template, templates};
use foldwright_print::{Paper, Photos, Sheet, template};
use foldwright_words::{Language, starter};
use serde_json::{Value, json};

fn main() -> ExitCode {
    let Some(folder) = std::env::args().nth(1).map(PathBuf::from) else {
        eprintln!("Name a folder to write the templates into.");
        return ExitCode::FAILURE;
    };
    for language in Language::ALL {
        for it in starters() {
            let recipe = starter(language.tongue(), it, it.recipe.notation);
            let card = work_out(&recipe, &Tools::default());
            for (paper, side) in Paper::ALL
                .into_iter()
                .flat_map(|paper| [(paper, Side::A), (paper, Side::B)])
            {
                let of = Sheet {
                    recipe: &recipe,
                    card: &card,
                    from: "",
                    link: "",
                    tongue: language.tongue(),
                    paper,
                    photos: &Photos::default(),
                };
                let back = if side == Side::B { "-back" } else { "" };
                let name = format!(
                    "{}{back}-templates-{}-{}",
                    it.id,
                    language.tag(),
                    paper.name()
                );
                let parts = templates(&recipe, &card, side);
                let parts = parts.iter().map(|part| told(&recipe, part));
                let beside = json!({
                    "ruler": match recipe.notation.unit() {
                        Unit::Inch => Length::inches(4).units(),
                        Unit::Millimetre => Length::mm(100).units(),
                    },
                    "parts": parts.collect::<Vec<_>>(),
                });
                let made = template(&of, side).map_err(|why| why.to_string());
                let kept = made.and_then(|pdf| {
                    std::fs::write(folder.join(format!("{name}.pdf")), pdf)
                        .and_then(|()| {
                            std::fs::write(folder.join(format!("{name}.json")), beside.to_string())
                        })
                        .map_err(|why| why.to_string())
                });
                if let Err(why) = kept {
                    eprintln!("{name}: {why}");
                    return ExitCode::FAILURE;
                }
            }
        }
    }
    ExitCode::SUCCESS
}

fn told(recipe: &Recipe, part: &Template) -> Value {
    let at = |at: Point<_>| json!([at.x.units(), at.y.units()]);
    let edges = part.edges.iter();
    let edges = edges.map(|edge| edge.corners.iter().map(|it| at(*it)).collect::<Vec<_>>());
    let folds = |fold: Fold| {
        let folds = part.folds.iter().filter(move |(it, _)| *it == fold);
        folds
            .map(|(_, course)| json!([at(course.from), at(course.to)]))
            .collect::<Vec<_>>()
    };
    let cuts = part.cuts.iter();
    let cuts = cuts.map(|course| json!([at(course.from), at(course.to)]));
    json!({
        "size": [part.size.width.units(), part.size.height.units()],
        "edges": edges.collect::<Vec<_>>(),
        "mountains": folds(Fold::Mountain),
        "valleys": folds(Fold::Valley),
        "cuts": cuts.collect::<Vec<_>>(),
        "scores": scores(recipe, part),
        "glue": part.glue.len(),
    })
}

/// Where the scores of a strip are, as its measures have them, from the left of the
/// side that is seen; with its length and its height.
fn scores(recipe: &Recipe, part: &Template) -> Value {
    let Part::Strip(of) = part.part else {
        return Value::Null;
    };
    let Some(strip) = recipe.strip(of) else {
        return Value::Null;
    };
    let length = recipe.value(strip.length);
    let mut at = Length::ZERO;
    let mut scores = Vec::new();
    for panel in strip.panels.iter().take(strip.folds.len()) {
        at += recipe.value(panel.width);
        scores.push(match part.seen {
            Side::A => at.units(),
            Side::B => (length - at).units(),
        });
    }
    scores.sort_unstable();
    json!({
        "length": length.units(),
        "height": recipe.value(strip.height).units(),
        "at": scores,
    })
}
