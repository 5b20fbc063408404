//! How long the engine takes to find and to count stack orders.

use std::hint::black_box;
use std::time::Instant;

use foldwright_engine::fold::{Orders, stack_of};
use foldwright_engine::length::Length;
use foldwright_engine::recipe::Fold;

use crate::measure::{Figure, Trouble, Workshop, median};

const RUNS: u32 = 21;

/// Equal panels fold for any labels, so that all of them lie on each other.
const PANEL: Length = Length::mm(50);

/// Panels for the growth of one search, a third more each time.
const GROWING: [usize; 9] = [10, 13, 18, 24, 32, 42, 56, 75, 100];

/// Creases of a long strip.
const MILLION: usize = 1_000_000;

/// Strips for the growth of deciding one, all too long for a processor's caches.
const LONG: [usize; 4] = [250_000, 500_000, MILLION, 2_000_000];

/// Orders of panels that all overlap: one order, its growth, and all of ten.
pub(crate) fn orders(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let slowest = |panels: usize| {
        let times = LABELLINGS.iter().filter_map(|(name, labelling)| {
            let folds = labelling.folds(panels - 1);
            let times = (0..RUNS).map(|_| one_order(panels, &folds)).collect();
            Some((median(times)?, *name))
        });
        times
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .ok_or_else(nothing_measured)
    };
    let (fifty, kind) = slowest(50)?;
    let mut times = Vec::new();
    for panels in GROWING {
        times.push((panels, slowest(panels)?.0));
    }
    let stamps = (0..RUNS).map(|_| all_stamps(10));
    let stamps: Option<Vec<f64>> = stamps.collect();
    let stamps = stamps.ok_or_else(|| Trouble(String::from("ten stamps were not all counted")))?;
    Ok(vec![
        Figure {
            name: "stack_50_ms",
            value: fifty,
            unit: "ms",
            target: Some(50.0),
            how: format!(
                "native release build: an order of 50 panels that all overlap, from their \
                 outlines on; median of {RUNS} runs, slowest of {} labellings ({kind})",
                LABELLINGS.len()
            ),
        },
        Figure {
            name: "stack_growth",
            value: slope(&times),
            unit: "log-log slope",
            target: Some(2.5),
            how: format!(
                "the same for {} to {} panels, {} sizes",
                GROWING[0],
                GROWING[GROWING.len() - 1],
                GROWING.len()
            ),
        },
        Figure {
            name: "stamps_10_ms",
            value: median(stamps).ok_or_else(nothing_measured)?,
            unit: "ms",
            target: None,
            how: format!(
                "all 14060 orders of 10 equal panels, counted over all 512 labellings; median \
                 of {RUNS} runs"
            ),
        },
    ])
}

/// Whether a strip of a million creases folds flat.
pub(crate) fn strip(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let mut times = Vec::new();
    for creases in LONG {
        let slowest = LABELLINGS.iter().filter_map(|(_, labelling)| {
            let folds = labelling.folds(creases);
            let lengths = vec![PANEL; creases + 1];
            median((0..5).map(|_| one_strip(&lengths, &folds)).collect())
        });
        let slowest = slowest.max_by(f64::total_cmp);
        times.push((creases, slowest.ok_or_else(nothing_measured)?));
    }
    let million = times.iter().find(|(creases, _)| *creases == MILLION);
    Ok(vec![Figure {
        name: "strip_million_s",
        value: million.ok_or_else(nothing_measured)?.1,
        unit: "s",
        target: Some(1.0),
        how: format!(
            "whether a strip of {MILLION} creases folds flat, and how; median of 5 runs, slowest \
             of {} labellings; log-log slope from {} to {} creases {:.2} (at most 1.1)",
            LABELLINGS.len(),
            LONG[0],
            LONG[LONG.len() - 1],
            slope(&times)
        ),
    }])
}

/// How the creases of a strip are labelled.
enum Labelling {
    Accordion,
    Roll,
    Mixed,
}

const LABELLINGS: [(&str, Labelling); 3] = [
    ("accordion", Labelling::Accordion),
    ("roll", Labelling::Roll),
    ("mixed", Labelling::Mixed),
];

impl Labelling {
    fn folds(&self, creases: usize) -> Vec<Fold> {
        let mut seed: u32 = 2_463_534_242;
        let valley = |crease: usize| match self {
            Self::Accordion => crease.is_multiple_of(2),
            Self::Roll => true,
            Self::Mixed => {
                // Marsaglia's xorshift: the same every time.
                seed ^= seed << 13;
                seed ^= seed >> 17;
                seed ^= seed << 5;
                seed.is_multiple_of(2)
            }
        };
        let fold = |valley| {
            if valley { Fold::Valley } else { Fold::Mountain }
        };
        (0..creases).map(valley).map(fold).collect()
    }
}

fn nothing_measured() -> Trouble {
    Trouble(String::from("nothing was measured"))
}

fn one_order(panels: usize, folds: &[Fold]) -> f64 {
    let lengths = vec![PANEL; panels];
    let begin = Instant::now();
    let orders = Orders::of(black_box(&lengths), black_box(folds));
    black_box(orders.first(&[])).ok();
    begin.elapsed().as_secs_f64() * 1000.0
}

/// `None` where the count is not the one known (On-Line Encyclopedia of Integer
/// Sequences, A000136).
fn all_stamps(stamps: usize) -> Option<f64> {
    let lengths = vec![PANEL; stamps];
    let begin = Instant::now();
    let mut all = 0;
    for labels in 0..1_u32 << (stamps - 1) {
        let folds: Vec<Fold> = (0..stamps - 1)
            .map(|crease| {
                if labels >> crease & 1 == 0 {
                    Fold::Mountain
                } else {
                    Fold::Valley
                }
            })
            .collect();
        all += Orders::of(&lengths, &folds).count().ok()?;
    }
    (all == 14060).then(|| begin.elapsed().as_secs_f64() * 1000.0)
}

fn one_strip(lengths: &[Length], folds: &[Fold]) -> f64 {
    let begin = Instant::now();
    black_box(stack_of(black_box(lengths), black_box(folds))).ok();
    begin.elapsed().as_secs_f64()
}

/// The slope of the straight line through the logarithms, by least squares.
#[expect(
    clippy::cast_precision_loss,
    reason = "sizes are far below what a float holds exactly"
)]
pub(crate) fn slope(times: &[(usize, f64)]) -> f64 {
    let logs = times
        .iter()
        .map(|(size, time)| ((*size as f64).ln(), time.ln()));
    let count = times.len() as f64;
    let (x, y) = logs
        .clone()
        .fold((0.0, 0.0), |sum, at| (sum.0 + at.0, sum.1 + at.1));
    let (x, y) = (x / count, y / count);
    let (over, under) = logs.fold((0.0, 0.0), |sum, at| {
        (
            sum.0 + (at.0 - x) * (at.1 - y),
            sum.1 + (at.0 - x) * (at.0 - x),
        )
    });
    over / under
}
