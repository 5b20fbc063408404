//! How long a refit takes, here and in a browser.

use std::hint::black_box;
use std::time::Instant;

use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::SheetSize;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{
    Fold, Measure, MeasureId, Panel, PanelId, Recipe, Relation, starters,
};
use foldwright_engine::refit::{Keep, Sheet, Wish, refit};
use foldwright_server::Site;

use crate::client::told;
use crate::measure::{Figure, Trouble, Workshop, median, slope};

const RUNS: u32 = 5;

/// Measures for the growth, a third more each time.
const GROWING: [usize; 9] = [10, 13, 18, 24, 32, 42, 56, 75, 100];

const SHEETS: [&str; 6] = [
    "na-letter",
    "iso-a4",
    "trade-12x12-in",
    "trade-6x6-in",
    "trade-8x8-in",
    "trade-300-mm",
];

const INCHES: Notation = Notation {
    step: Step::Sixteenth,
    decimal: DecimalMark::Point,
};
const METRIC: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Point,
};

/// The slowest starting fold, and how the time grows with the measures.
pub(crate) fn native(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let mut slowest = (0.0, String::new());
    for starter in starters() {
        for recipe in [INCHES, METRIC].map(|notation| starter.recipe_in(notation)) {
            for wish in wishes(&recipe) {
                let time = time(&recipe, &wish)?;
                if time > slowest.0 {
                    slowest = (time, starter.id.clone());
                }
            }
        }
    }
    let (value, fold) = slowest;
    let mut times = Vec::new();
    for measures in GROWING {
        let tied = [true, false].map(|tied| {
            let (recipe, wish) = strip(measures, tied)?;
            time(&recipe, &wish)
        });
        let [tied, free] = tied;
        times.push((measures, tied?.max(free?)));
    }
    Ok(vec![
        Figure {
            name: "refit_ms_max",
            value,
            unit: "ms",
            target: Some(16.0),
            how: format!(
                "native release build: every starting fold in inches and in millimetres, \
                 refitted to {} sheets in both units, keeping the card, the count or the share; \
                 median of {RUNS} runs, slowest of all ({fold})",
                SHEETS.len()
            ),
        },
        Figure {
            name: "refit_growth",
            value: slope(&times),
            unit: "log-log slope",
            target: None,
            how: format!(
                "a strip of panels, all tied or all free, made to fit a shorter sheet, with {} \
                 to {} measures, {} sizes; median of {RUNS} runs, the slower of the two",
                GROWING[0],
                GROWING[GROWING.len() - 1],
                GROWING.len()
            ),
        },
    ])
}

/// The time from a tap on a sheet to the card that comes of it painted.
pub(crate) fn browser(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let mut times: Vec<f64> = told("refit.js", Site::embedded())?;
    times.sort_by(f64::total_cmp);
    let place = (times.len() * 95).div_ceil(100).saturating_sub(1);
    let value = *times
        .get(place)
        .ok_or_else(|| Trouble(String::from("the browser's client timed nothing")))?;
    Ok(vec![Figure {
        name: "refit_browser_p95_ms",
        value,
        unit: "ms",
        target: Some(100.0),
        how: format!(
            "headless Chromium, 390x844, processor slowed 4 times: a sheet tapped as a frame \
             begins, until what changes, with both pictures, or what clashes is painted; 95th \
             percentile of {} taps over every starting fold",
            times.len()
        ),
    }])
}

/// Every sheet, either unit, each way to use the sheet.
fn wishes(recipe: &Recipe) -> Vec<Wish> {
    let sheets = SHEETS.iter().filter_map(|id| SheetSize::by_id(id));
    let ways = sheets.flat_map(|sheet| {
        let each = [INCHES, METRIC].into_iter();
        each.flat_map(move |notation| {
            [Keep::Card, Keep::Count, Keep::Share].map(|keep| (sheet, notation, keep))
        })
    });
    ways.map(|(sheet, notation, keep)| Wish {
        sheet: Some(Sheet {
            stock: recipe.base.stock,
            size: Size {
                width: sheet.width,
                height: sheet.height,
            },
            keep,
        }),
        notation: Some(notation),
        ..Wish::default()
    })
    .collect()
}

fn time(recipe: &Recipe, wish: &Wish) -> Result<f64, Trouble> {
    let times = (0..RUNS).map(|_| {
        let begin = Instant::now();
        // A clash is an answer like any other, and takes its time too.
        black_box(refit(black_box(recipe), black_box(wish))).ok();
        begin.elapsed().as_secs_f64() * 1000.0
    });
    median(times.collect()).ok_or_else(|| Trouble(String::from("nothing was measured")))
}

/// A strip with that many measures, and a sheet for which it is too long.
fn strip(measures: usize, tied: bool) -> Result<(Recipe, Wish), Trouble> {
    let plain = starters().iter().find(|starter| starter.id == "tent");
    let plain = plain.ok_or_else(|| Trouble(String::from("there is no plain card")))?;
    let mut recipe = plain.recipe_in(METRIC);
    let (width, height) = (Length::mm(20), Length::mm(100));
    let measure = |id, name: String, value| Measure::new(MeasureId(id), name, value);
    // Besides the panels: the height, the strip's length and the allowance.
    let panels = measures - 3;
    let ids = || (1..=panels).filter_map(|panel| u32::try_from(panel).ok());
    recipe.measures = ids()
        .map(|panel| Measure {
            least: Some(Length::mm(8)),
            ..measure(panel, format!("panel {panel}"), width)
        })
        .collect();
    let count = i64::try_from(panels).unwrap_or(1);
    let [up, length, allowance] = [201, 202, 203].map(MeasureId);
    recipe.measures.extend([
        measure(201, String::from("height"), height),
        measure(202, String::from("strip length"), width * count),
        measure(203, String::from("allowance"), Length::mm(1)),
    ]);
    recipe.layers.clear();
    recipe.upright.clear();
    recipe.base.on_top.clear();
    (recipe.base.height, recipe.base.length) = (up, length);
    recipe.folding_in.allowance = allowance;
    recipe.base.panels = ids()
        .map(|panel| Panel {
            id: PanelId(panel),
            name: format!("panel {panel}"),
            width: MeasureId(panel),
        })
        .collect();
    recipe.base.rests = PanelId(1);
    let folds = [Fold::Valley, Fold::Mountain].into_iter().cycle();
    recipe.base.folds = folds.take(panels - 1).collect();
    recipe.relations = ids()
        .zip(ids().skip(1))
        .filter(|_| tied)
        .map(|(panel, next)| Relation::same(MeasureId(next), MeasureId(panel)))
        .collect();
    let faults = recipe.check();
    if !faults.is_empty() {
        return Err(Trouble(format!(
            "the strip does not hold together: {faults:?}"
        )));
    }
    let wish = Wish {
        sheet: Some(Sheet {
            stock: recipe.base.stock,
            size: Size {
                width: width * count - Length::mm(count / 2 + 1),
                height,
            },
            keep: Keep::Card,
        }),
        ..Wish::default()
    };
    Ok((recipe, wish))
}
