//! How long the engine takes from a recipe to what the screen shows.

use std::hint::black_box;
use std::time::Instant;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::draw::{Moment, flat, opening, state, svg};
use foldwright_engine::faces::View;
use foldwright_engine::recipe::{Recipe, Side, StripId, starters};
use foldwright_engine::steps::steps;

use crate::measure::{Figure, Trouble, Workshop, median};

const RUNS: u32 = 201;

/// The slowest starting fold.
pub(crate) fn figures(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let times = starters().iter().filter_map(|starter| {
        let times = (0..RUNS).map(|_| one_run(&starter.recipe)).collect();
        Some((median(times)?, starter.id.as_str()))
    });
    let (value, slowest) = times
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .ok_or_else(|| Trouble(String::from("there are no starting folds")))?;
    Ok(vec![Figure {
        name: "pipeline_ms_max",
        value,
        unit: "ms",
        target: Some(1.0),
        how: format!(
            "native release build: a recipe worked out, its steps, its drawings flat, \
             closed and half open, written as SVG; median of {RUNS} runs, slowest of {} starting folds ({slowest})",
            starters().len()
        ),
    }])
}

fn one_run(recipe: &Recipe) -> f64 {
    let begin = Instant::now();
    let card = work_out(black_box(recipe), &Tools::default());
    black_box(steps(recipe, &card));
    let half_open = card
        .folded
        .as_ref()
        .map(|folded| opening(recipe, &card, Moment::at(0.5, folded)));
    let drawings = [
        Some(flat(recipe, &card, StripId::Base, Side::A)),
        Some(state(recipe, &card, 0, View::Front)),
        half_open,
    ];
    for drawing in drawings.iter().flatten() {
        black_box(svg(drawing, "figure", &|_| None));
    }
    begin.elapsed().as_secs_f64() * 1000.0
}
