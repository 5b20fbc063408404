//! Whatever the job, a plan does what was asked for.

#![allow(
    clippy::expect_used,
    reason = "a check may stop where its own pieces do not fit"
)]

mod common;

use std::num::NonZeroU32;

use common::dice::Dice;
use common::verifier::wrong;
use foldwright_cutting::{
    Job, Length, Lie, Piece, Planner, Progress, Rect, Size, Source, Stock, Trimmer,
};

const JOBS: u64 = if cfg!(debug_assertions) { 30 } else { 100 };

fn size(width: u32, height: u32) -> Size {
    Size::new(width, height).expect("a size")
}

/// Anything: few or many pieces, in lengths of ten units or of ten million.
fn any(dice: &mut Dice) -> Job {
    let unit = [1, 1, 1_000, 225_007][usize::try_from(dice.below(4)).unwrap_or(0)];
    let length = |dice: &mut Dice, least: u32, more: u32| {
        (least + dice.below(more)) * unit + if unit > 1 { dice.below(unit) } else { 0 }
    };
    let mut stocks = Vec::new();
    for _ in 0..=dice.below(3) {
        let (width, height) = (length(dice, 20, 60), length(dice, 20, 60));
        stocks.push(Stock {
            size: size(width, height),
            supply: dice.one_in(3).then(|| dice.below(4)),
            cost: dice.below(5),
            margin: if dice.one_in(4) {
                dice.below(4) * unit
            } else {
                0
            },
        });
    }
    let mut pieces = Vec::new();
    for _ in 0..=dice.below(12) {
        let mut sources = Vec::new();
        for (number, stock) in stocks.iter().enumerate() {
            if dice.one_in(3) {
                continue;
            }
            let lie = [Lie::Upright, Lie::Turned, Lie::Either, Lie::Either];
            let (w, h) = (stock.size.width.get(), stock.size.height.get());
            let area = dice.one_in(6).then(|| {
                let (x, y) = (dice.below(w / 2), dice.below(h / 2));
                let part = size(w / 2 - dice.below(w / 4), h / 2 - dice.below(h / 4));
                Rect { x, y, size: part }
            });
            sources.push(Source {
                stock: number,
                lie: lie[usize::try_from(dice.below(4)).unwrap_or(0)],
                area,
            });
        }
        pieces.push(Piece {
            size: size(length(dice, 1, 30), length(dice, 1, 30)),
            count: NonZeroU32::new(1 + dice.below(8)).expect("some"),
            sources,
        });
    }
    let trimmer = Trimmer {
        kerf: if dice.one_in(3) {
            dice.below(3) * unit
        } else {
            0
        },
        narrowest: dice
            .one_in(4)
            .then(|| Length::new(1 + dice.below(3 * unit)))
            .flatten(),
        widest: dice
            .one_in(4)
            .then(|| Length::new((40 + dice.below(40)) * unit))
            .flatten(),
        stack: NonZeroU32::new(1 + dice.below(4)).expect("some"),
    };
    Job::new(stocks, pieces, trimmer).expect("it holds together")
}

#[test]
fn plans_keep_to_their_jobs_first_and_last() {
    for seed in 1..=JOBS {
        let job = any(&mut Dice::new(seed));
        let mut planner = Planner::new(&job);
        let first = planner.plan().clone();
        assert_eq!(
            wrong(&job, &first),
            Vec::<String>::new(),
            "seed {seed}, first plan"
        );
        let mut turns = 0;
        while planner.improve(1_000_000, || false) != Progress::Done && turns < 12 {
            turns += 1;
        }
        let (plan, bound) = (planner.plan(), planner.bound());
        assert_eq!(wrong(&job, plan), Vec::<String>::new(), "seed {seed}");
        let (before, after) = ((first.lacks(), first.cost()), (plan.lacks(), plan.cost()));
        assert!(after <= before, "seed {seed}: {before:?} became {after:?}");
        assert!(
            (bound.missing, bound.cost) <= after,
            "seed {seed}: {bound:?}, {after:?}"
        );
    }
}
