//! Plans of small jobs against every way to cut them.
//!
//! Each rectangle of a sheet is cut at every place where the trimmer can, both
//! parts again, and so on; which pieces come of it is written down. No code of
//! the planner takes part. Here the chosen parts of sheets and the limits of the
//! trimmer count, of which the bound knows nothing.

#![allow(
    clippy::expect_used,
    reason = "a check may stop where its own pieces do not fit"
)]

mod common;

use std::collections::{BTreeMap, BTreeSet};
use std::num::NonZeroU32;

use common::dice::Dice;
use common::verifier::wrong;
use foldwright_cutting::{
    Job, Length, Lie, Piece, Planner, Progress, Rect, Size, Source, Stock, Trimmer,
};

const JOBS: u64 = if cfg!(debug_assertions) { 40 } else { 300 };

/// Of these so many may be planned worse than could be: the limits of a trimmer and
/// chosen parts of sheets may ask for other cuts than the planner tries. Of a
/// thousand jobs like these, which have both far more often than a workshop has,
/// it is nine or so.
const WORSE: u64 = if cfg!(debug_assertions) { 1 } else { 3 };

/// Pieces of a job, so that sets of them are few.
const PIECES: u32 = 5;

fn size(width: u32, height: u32) -> Size {
    Size::new(width, height).expect("a size")
}

fn small(dice: &mut Dice) -> Job {
    let mut stocks = Vec::new();
    for _ in 0..=dice.below(2) {
        stocks.push(Stock {
            size: size(4 + dice.below(5), 4 + dice.below(5)),
            supply: dice.one_in(2).then(|| dice.below(3)),
            cost: dice.below(4),
            margin: 0,
        });
    }
    let mut pieces = Vec::new();
    let mut left = 2 + dice.below(PIECES - 1);
    while left > 0 {
        let count = 1 + dice.below(left.min(2));
        left -= count;
        let mut sources = Vec::new();
        for (stock, it) in stocks.iter().enumerate() {
            let lies = [Lie::Upright, Lie::Turned, Lie::Either];
            let (w, h) = (it.size.width.get(), it.size.height.get());
            let area = dice.one_in(3).then(|| {
                let (x, y) = (dice.below(w / 2), dice.below(h / 2));
                Rect {
                    x,
                    y,
                    size: size(w - x - dice.below(2), h - y - dice.below(2)),
                }
            });
            if !dice.one_in(4) {
                sources.push(Source {
                    stock,
                    lie: lies[usize::try_from(dice.below(3)).unwrap_or(0)],
                    area,
                });
            }
        }
        pieces.push(Piece {
            size: size(1 + dice.below(5), 1 + dice.below(5)),
            count: NonZeroU32::new(count).expect("some"),
            sources,
        });
    }
    let limit = |dice: &mut Dice, least: u32, more: u32| {
        dice.one_in(3)
            .then(|| Length::new(least + dice.below(more)))
            .flatten()
    };
    let trimmer = Trimmer {
        kerf: dice.below(3) / 2,
        narrowest: limit(dice, 1, 3),
        widest: limit(dice, 3, 5),
        stack: NonZeroU32::MIN,
    };
    Job::new(stocks, pieces, trimmer).expect("it holds together")
}

/// Sets of pieces as bits.
type Sets = BTreeSet<u32>;

/// Every set of pieces that can be cut from a rectangle of a stock.
fn cut(job: &Job, stock: usize, rect: [u32; 4], known: &mut BTreeMap<[u32; 4], Sets>) -> Sets {
    if let Some(known) = known.get(&rect) {
        return known.clone();
    }
    let [x, y, w, h] = rect;
    let mut sets = Sets::from([0]);
    let mut bit = 1;
    for piece in job.pieces() {
        let source = piece.sources.iter().find(|it| it.stock == stock);
        let (pw, ph) = (piece.size.width.get(), piece.size.height.get());
        for _ in 0..piece.count.get() {
            if let Some(source) = source {
                let upright = (w, h) == (pw, ph) && source.lie != Lie::Turned;
                let turned = (w, h) == (ph, pw) && source.lie != Lie::Upright;
                let inside = source.area.is_none_or(|area| {
                    x >= area.x && y >= area.y && x + w <= area.right() && y + h <= area.far()
                });
                if (upright || turned) && inside {
                    sets.insert(bit);
                }
            }
            bit <<= 1;
        }
    }
    let kerf = job.trimmer().kerf;
    for across in [true, false] {
        let side = if across { w } else { h };
        // A blade that takes nothing cuts nothing off at the edge.
        for at in u32::from(kerf == 0)..side {
            let far = side.saturating_sub(at + kerf);
            if !job.trimmer().holds(at) && !job.trimmer().holds(far) {
                continue;
            }
            let part = |from: u32, reach: u32| {
                if across {
                    [x + from, y, reach, h]
                } else {
                    [x, y + from, w, reach]
                }
            };
            let of = |part: [u32; 4], known: &mut _| {
                if part[2] == 0 || part[3] == 0 {
                    Sets::from([0])
                } else {
                    cut(job, stock, part, known)
                }
            };
            let near = of(part(0, at), known);
            let far = of(part(side - far, far), known);
            for a in &near {
                sets.extend(far.iter().filter(|b| *b & a == 0).map(|b| a | b));
            }
        }
    }
    known.insert(rect, sets.clone());
    sets
}

/// The fewest pieces missing, and the least cost with which these are.
fn best(job: &Job) -> (u64, u64) {
    let wanted: u32 = job.pieces().iter().map(|it| it.count.get()).sum();
    // For each set of pieces, what having cut it costs at least.
    let mut least = BTreeMap::from([(0_u32, 0_u64)]);
    for (number, stock) in job.stocks().iter().enumerate() {
        let whole = [0, 0, stock.size.width.get(), stock.size.height.get()];
        let sets = cut(job, number, whole, &mut BTreeMap::new());
        for _ in 0..stock.supply.unwrap_or(wanted).min(wanted) {
            let before = least.clone();
            for (have, cost) in before {
                for more in sets.iter().filter(|more| *more & have == 0) {
                    let cost = cost + u64::from(stock.cost);
                    let known = least.entry(have | more).or_insert(cost);
                    *known = cost.min(*known);
                }
            }
        }
    }
    let each = least.into_iter().map(|(have, cost)| {
        let missing = wanted - have.count_ones();
        (u64::from(missing), cost)
    });
    each.min().expect("nothing is always cut")
}

#[test]
fn small_jobs_are_planned_as_well_as_can_be() {
    let mut worse = Vec::new();
    for seed in 1..=JOBS {
        let job = small(&mut Dice::new(seed));
        let mut planner = Planner::new(&job);
        let mut turns = 0;
        while turns < 40
            && !planner.is_proven()
            && planner.improve(1_000_000, || false) != Progress::Done
        {
            turns += 1;
        }
        let (plan, bound) = (planner.plan(), planner.bound());
        assert_eq!(wrong(&job, plan), Vec::<String>::new(), "seed {seed}");
        let (best, got) = (best(&job), (plan.lacks(), plan.cost()));
        assert!(best <= got, "seed {seed}: {got:?} is better than {best:?}");
        assert!(
            (bound.missing, bound.cost) <= best,
            "seed {seed}: {bound:?} is above {best:?}"
        );
        if best < got {
            worse.push((seed, got, best));
        }
    }
    let count = u64::try_from(worse.len()).unwrap_or(u64::MAX);
    assert!(count <= WORSE, "{worse:?}");
}
