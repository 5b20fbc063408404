//! How few sheets a plan takes, how soon there is one, and how much is proven.

use std::hint::black_box;
use std::num::NonZeroU32;
use std::time::{Duration, Instant};

use foldwright_cutting::{Job, Lie, Piece, Planner, Progress, Size, Source, Stock, Trimmer};

use crate::cutting_instances::{VARIANTS, fits, job, packings, worths};
use crate::measure::{Figure, Trouble, Workshop, median};
use crate::stacks::slope;

/// What each plan may take.
const LIMIT: Duration = Duration::from_secs(2);

/// Work between two looks at the clock, a few milliseconds.
const TURN: u64 = 1_000_000;

const RUNS: u32 = 11;

/// Work that each question about one sheet may take; most take a thousandth.
const ASKED: u64 = 6_000_000_000;

/// Makers of a class, and others for the growth of its first plan.
const KITS: u32 = 60;
const GROWING: [u32; 5] = [15, 30, 60, 120, 240];

/// A plan worked on for two seconds at most, or until it is proven.
fn planned(job: &Job) -> Planner {
    let begin = Instant::now();
    let mut planner = Planner::new(job);
    while !planner.is_proven()
        && begin.elapsed() < LIMIT
        && planner.improve(TURN, || begin.elapsed() >= LIMIT) != Progress::Done
    {}
    planner
}

/// All published bin-packing instances, with pieces as they lie and free to turn.
pub(crate) fn packing(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let (mut plans, mut sheets, mut least, mut proven) = (0, 0, 0, 0);
    let mut losses = Vec::new();
    for packing in packings() {
        for (variant, (turning, lie)) in VARIANTS.into_iter().enumerate() {
            let planner = planned(&job(packing.sheet, &packing.wanted, |_| lie));
            let cost = planner.plan().cost();
            plans += 1;
            sheets += cost;
            least += packing.known.get(variant).map_or(0, |known| known.0);
            let baseline = packing.baseline.get(variant);
            if baseline.is_some_and(|baseline| cost > *baseline) {
                losses.push(format!("{} {turning}", packing.name));
            }
            proven += u32::from(planner.is_proven());
        }
    }
    if plans == 0 {
        return Err(Trouble(String::from("there are no instances")));
    }
    let instances = format!(
        "native release build, {} s for each of {plans} plans at most: the instances of Berkey \
         and Wang and of Martello and Vigo with 20, 60 and 100 pieces, turning and not",
        LIMIT.as_secs()
    );
    Ok(vec![
        Figure {
            name: "cut_sheets_vs_lower_bound",
            value: f64::from(u32::try_from(sheets).unwrap_or(u32::MAX))
                / f64::from(u32::try_from(least).unwrap_or(u32::MAX)),
            unit: "ratio",
            target: Some(1.005),
            how: format!("{instances}: {sheets} sheets, published lower bounds {least}"),
        },
        Figure {
            name: "cut_losses_to_baseline",
            value: f64::from(u32::try_from(losses.len()).unwrap_or(u32::MAX)),
            unit: "plans",
            target: Some(0.0),
            how: format!(
                "{instances}: with more sheets than the best general-purpose heuristic: {}",
                losses.join("; ")
            ),
        },
        Figure {
            name: "cut_proven_share",
            value: f64::from(proven) / f64::from(plans),
            unit: "share",
            target: None,
            how: format!("{instances}: {proven} proven to take the fewest sheets"),
        },
    ])
}

/// All published questions about one sheet of which the answer is proven.
pub(crate) fn one_sheet(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let (mut asked, mut unanswered) = (0, Vec::new());
    for question in worths().into_iter().chain(fits()) {
        asked += 1;
        if !question.is_answered(&question.asked(ASKED)) {
            unanswered.push(question.name);
        }
    }
    if asked == 0 {
        return Err(Trouble(String::from("there are no questions")));
    }
    let open = u32::try_from(unanswered.len()).unwrap_or(u32::MAX);
    Ok(vec![Figure {
        name: "cut_one_sheet_unanswered",
        value: f64::from(open),
        unit: "questions",
        target: Some(0.0),
        how: format!(
            "native release build, {ASKED} units of work for each of {asked} questions at most: \
             the most that one sheet is worth, and whether all pieces come from one; open: {}",
            unanswered.join("; ")
        ),
    }])
}

/// A class: nine kinds of pieces for each kit, from three stocks.
pub(crate) fn class(_: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let nothing = || Trouble(String::from("there is no such class"));
    let job = class_of(KITS).ok_or_else(nothing)?;
    let first = |job: &Job| {
        let times = (0..RUNS).map(|_| {
            let begin = Instant::now();
            black_box(Planner::new(black_box(job)));
            begin.elapsed().as_secs_f64() * 1000.0
        });
        median(times.collect())
    };
    let planner = planned(&job);
    let (cost, bound) = (planner.plan().cost(), planner.bound().cost);
    let gap = f64::from(u32::try_from(cost - bound).unwrap_or(u32::MAX))
        / f64::from(u32::try_from(bound).unwrap_or(1).max(1));
    let mut times = Vec::new();
    for kits in GROWING {
        let job = class_of(kits).ok_or_else(nothing)?;
        let pieces = usize::try_from(kits * 9).unwrap_or(usize::MAX);
        times.push((pieces, first(&job).ok_or_else(nothing)?));
    }
    let what = format!("native release build: {KITS} kits of 9 pieces from three stocks");
    Ok(vec![
        Figure {
            name: "cut_first_plan_ms",
            value: first(&job).ok_or_else(nothing)?,
            unit: "ms",
            target: Some(50.0),
            how: format!("{what}, until there is a plan; median of {RUNS} runs"),
        },
        Figure {
            name: "cut_class_gap",
            value: gap,
            unit: "share",
            target: Some(0.02),
            how: format!(
                "{what}, after {} s at most: {cost} sheets, proven to take {bound} or more",
                LIMIT.as_secs()
            ),
        },
        Figure {
            name: "cut_growth",
            value: slope(&times),
            unit: "log-log slope",
            target: None,
            how: format!(
                "native release build: the first plan for {} to {} kits of 9 pieces; medians of \
                 {RUNS} runs",
                GROWING[0],
                GROWING[GROWING.len() - 1]
            ),
        },
    ])
}

/// A card with mats and an insert, in 1/64 in: plain letter sheets, printed pads
/// of 12 in that have a top, and white letter sheets of which only the grain
/// matters.
fn class_of(kits: u32) -> Option<Job> {
    let stock = |width, height| {
        Some(Stock {
            size: Size::new(width, height)?,
            supply: None,
            cost: 1,
            margin: 0,
        })
    };
    let stocks = vec![stock(544, 704)?, stock(768, 768)?, stock(544, 704)?];
    // Width and height in sixty-fourths, how many in a kit, from which stock, how.
    let kinds = [
        (272, 704, 1, 0, Lie::Either),
        (264, 344, 1, 0, Lie::Either),
        (136, 200, 1, 0, Lie::Either),
        (256, 336, 1, 1, Lie::Upright),
        (120, 336, 1, 1, Lie::Upright),
        (128, 192, 1, 1, Lie::Either),
        (248, 328, 1, 2, Lie::Upright),
        (112, 184, 1, 2, Lie::Either),
        (64, 240, 1, 2, Lie::Either),
    ];
    let piece = |(width, height, each, stock, lie): (u32, u32, u32, usize, Lie)| {
        Some(Piece {
            size: Size::new(width, height)?,
            count: NonZeroU32::new(each * kits)?,
            sources: vec![Source {
                stock,
                lie,
                area: None,
            }],
        })
    };
    let pieces = kinds.into_iter().map(piece).collect::<Option<_>>()?;
    let trimmer = Trimmer {
        stack: NonZeroU32::new(3)?,
        ..Trimmer::PLAIN
    };
    Job::new(stocks, pieces, trimmer).ok()
}
