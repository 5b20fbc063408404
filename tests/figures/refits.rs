//! How long a refit takes, natively and on a phone.

use std::hint::black_box;
use std::time::Instant;

use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::{CLEARANCE_RULES, Envelope, SheetSize};
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Recipe, Relation, StripId, starters};
use foldwright_engine::refit::{Keep, Sheet, Wish, refit};
use foldwright_server::Site;

use crate::client::told;
use crate::measure::{Figure, Trouble, Workshop, median};
use crate::stacks::slope;
use foldwright_words::English;

const RUNS: u32 = 5;

/// Measures of a strip for the growth of one refit.
const GROWING: [usize; 6] = [10, 16, 25, 40, 63, 100];

/// Every starting fold, to other sheets, an envelope and another unit.
pub(crate) fn native(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let mut worst = (0.0_f64, "");
    for starter in starters() {
        for wish in wishes(&starter.recipe) {
            let times = (0..RUNS).map(|_| Some(one(&starter.recipe, &wish)));
            let time = times.collect::<Option<Vec<f64>>>().and_then(median);
            let time = time.ok_or_else(nothing)?;
            if time > worst.0 {
                worst = (time, &starter.id);
            }
        }
    }
    let mut times = Vec::new();
    for measures in GROWING {
        let recipe = pleats(measures).ok_or_else(nothing)?;
        let wish = Wish {
            notation: Some(millimetres()),
            ..Wish::default()
        };
        let runs = (0..RUNS).map(|_| one(&recipe, &wish)).collect();
        times.push((measures, median(runs).ok_or_else(nothing)?));
    }
    Ok(vec![
        Figure {
            name: "refit_ms_max",
            value: worst.0,
            unit: "ms",
            target: Some(16.0),
            how: format!(
                "native release build: one refit to another sheet, to an envelope or to whole \
                 millimetres; median of {RUNS} runs, slowest of {} starting folds ({})",
                starters().len(),
                worst.1
            ),
        },
        Figure {
            name: "refit_growth",
            value: slope(&times),
            unit: "slope",
            target: None,
            how: format!(
                "native release build: log-log slope of a refit to whole millimetres over strips \
                 of {} to {} measures in equal pleats; medians of {RUNS} runs",
                GROWING[0],
                GROWING[GROWING.len() - 1]
            ),
        },
    ])
}

fn nothing() -> Trouble {
    Trouble(String::from("nothing was measured"))
}

fn millimetres() -> Notation {
    Notation {
        step: Step::Millimetre,
        decimal: DecimalMark::Point,
    }
}

fn wishes(recipe: &Recipe) -> Vec<Wish> {
    let sheets = ["na-letter", "iso-a4", "trade-6x6-in"];
    let sheets = sheets.iter().filter_map(|id| SheetSize::by_id(id));
    let sheets = sheets.map(|sheet| Wish {
        sheet: Some(Sheet {
            stock: recipe.base.stock,
            size: Size {
                width: sheet.width,
                height: sheet.height,
            },
            keep: Keep::Share,
        }),
        ..Wish::default()
    });
    let envelope = Envelope::by_id("iso-c6").zip(CLEARANCE_RULES.first());
    let into = Wish {
        envelope,
        ..Wish::default()
    };
    let across = Wish {
        notation: Some(millimetres()),
        ..Wish::default()
    };
    sheets.chain([into, across]).collect()
}

/// A strip of so many measures, its panels in two widths that alternate.
fn pleats(measures: usize) -> Option<Recipe> {
    let own = starters().iter().find(|starter| starter.id == "own")?;
    let mut recipe = own.recipe.clone();
    for measure in &mut recipe.measures {
        (measure.least, measure.most) = (None, None);
    }
    while recipe.measures.len() < measures {
        let last = recipe.base.panels.len() - 1;
        recipe
            .add_panel(
                StripId::Base,
                last,
                Some(Length::sixty_fourths(37)),
                &English,
            )
            .ok()?;
        let panels = &recipe.base.panels;
        if let [.., other, _, this] = panels.as_slice()
            && panels.len() > 4
        {
            let relation = Relation::same(this.width, other.width);
            recipe.relations.push(relation);
        }
    }
    Some(recipe)
}

fn one(recipe: &Recipe, wish: &Wish) -> f64 {
    let begin = Instant::now();
    // A refit that finds out that there is no such card took its time too.
    let _ = black_box(refit(recipe, wish));
    begin.elapsed().as_secs_f64() * 1000.0
}

/// From a tap on a sheet to the new card painted, in a browser.
pub(crate) fn browser(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let mut times: Vec<f64> = told("refits.js", Site::embedded())?;
    times.sort_by(f64::total_cmp);
    let place = (times.len() * 95).div_ceil(100).saturating_sub(1);
    let value = *times.get(place).ok_or_else(nothing)?;
    Ok(vec![Figure {
        name: "refit_browser_p95_ms",
        value,
        unit: "ms",
        target: Some(100.0),
        how: format!(
            "headless Chromium, 390x844, processor slowed 4 times: from a tap on a sheet until \
             what changes is painted; 95th percentile of {} taps over every starting fold",
            times.len()
        ),
    }])
}
