//! How long the search for what a scrap makes takes.

use std::hint::black_box;
use std::time::Instant;

use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Recipe, starters};
use foldwright_engine::refit::from_scrap;

use crate::measure::{Figure, Trouble, Workshop, median};

const RUNS: u32 = 11;
const RECIPES: usize = 200;

/// Scraps of which some recipes keep their size, some shrink and some are
/// refused.
const SCRAPS: [(i64, i64); 3] = [(297, 210), (200, 120), (140, 75)];

/// Two hundred recipes against each scrap; the slowest of them.
pub(crate) fn search(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let recipes = recipes();
    let times = SCRAPS.iter().filter_map(|(width, height)| {
        let scrap = Size {
            width: Length::mm(*width),
            height: Length::mm(*height),
        };
        let times = (0..RUNS).map(|_| one_run(&recipes, scrap)).collect();
        Some((median(times)?, (width, height)))
    });
    let (value, (width, height)) = times
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .ok_or_else(|| Trouble(String::from("nothing was measured")))?;
    Ok(vec![Figure {
        name: "scrap_search_200_ms",
        value,
        unit: "ms",
        target: Some(500.0),
        how: format!(
            "native release build: {RECIPES} recipes, the starting folds in inches and in \
             millimetres one after the other, refitted to a scrap and ranked; median of {RUNS} \
             runs, slowest of {} scraps ({width} × {height} mm)",
            SCRAPS.len()
        ),
    }])
}

fn recipes() -> Vec<Recipe> {
    let notations = [Step::Sixteenth, Step::Millimetre].map(|step| Notation {
        step,
        decimal: DecimalMark::Point,
    });
    let all = starters().iter();
    all.flat_map(|starter| notations.map(|notation| starter.recipe_in(notation)))
        .cycle()
        .take(RECIPES)
        .collect()
}

fn one_run(recipes: &[Recipe], scrap: Size) -> f64 {
    let begin = Instant::now();
    black_box(from_scrap(black_box(recipes), scrap, None));
    begin.elapsed().as_secs_f64() * 1000.0
}
