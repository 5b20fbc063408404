//! How long a sheet to print takes, and how large it is.

use std::time::Instant;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::recipe::{Starter, starters};
use foldwright_print::{NotMade, Paper, Photos, Sheet, sheet};
use foldwright_words::{Language, starter};

use crate::measure::{Figure, Trouble, Workshop, median};

const RUNS: u32 = 11;

impl From<NotMade> for Trouble {
    fn from(why: NotMade) -> Self {
        Self(why.to_string())
    }
}

/// The slowest and the largest sheet of all starting folds.
pub(crate) fn figures(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let mut slowest = (0.0, String::new());
    let mut largest = (0.0, String::new());
    for it in starters() {
        for language in Language::ALL {
            let runs: Result<Vec<_>, _> = (0..RUNS).map(|_| one_run(it, language)).collect();
            let runs = runs?;
            let bytes = runs.first().map_or(0, |(_, bytes)| *bytes);
            let times = runs.into_iter().map(|(time, _)| time).collect();
            let time = median(times).unwrap_or_default();
            let name = || format!("{}, {}", it.id, language.tag());
            if time > slowest.0 {
                slowest = (time, name());
            }
            let kilobytes = f64::from(u32::try_from(bytes).unwrap_or(u32::MAX)) / 1000.0;
            if kilobytes > largest.0 {
                largest = (kilobytes, name());
            }
        }
    }
    let of = format!(
        "of {} starting folds in each language on A4",
        starters().len()
    );
    Ok(vec![
        Figure {
            name: "sheet_pdf_ms",
            value: slowest.0,
            unit: "ms",
            target: Some(100.0),
            how: format!(
                "native release build: a recipe worked out and its sheet written; median of {RUNS} runs, slowest {of} ({})",
                slowest.1
            ),
        },
        Figure {
            name: "sheet_pdf_kb",
            value: largest.0,
            unit: "kB",
            target: Some(120.0),
            how: format!("its bytes, the largest {of} ({})", largest.1),
        },
    ])
}

/// The milliseconds a sheet takes, and its bytes.
fn one_run(it: &Starter, language: Language) -> Result<(f64, usize), NotMade> {
    let recipe = starter(language.tongue(), it, it.recipe.notation);
    let begin = Instant::now();
    let card = work_out(&recipe, &Tools::default());
    let pdf = sheet(&Sheet {
        recipe: &recipe,
        card: &card,
        from: "",
        link: "",
        tongue: language.tongue(),
        paper: Paper::A4,
        photos: &Photos::default(),
    })?;
    Ok((begin.elapsed().as_secs_f64() * 1000.0, pdf.len()))
}
