//! The last gap, closed by trying everything that could still be better.
//!
//! At the prices of the program every filling lacks something of what its sheet
//! costs, and what the fillings of a plan lack adds up to how far its cost is
//! above the bound. A plan better than the best can only use fillings that lack
//! less than that gap. If these are few enough to be listed, plans are tried from
//! them, each piece exactly as often as wanted; if none comes of it, the best
//! plan is proven.

use super::Search;
use super::pricing::{Pricing, fitting};
use crate::bound::SCALE;
use crate::builds::{Builds, Field, Prices};
use crate::plot::Plot;

/// Blocks kept of each number of pieces, and fillings listed at most.
const KEPT: usize = 6000;
const LISTED: usize = 4000;

/// Work spent on the list, on the plans, and in one step.
const LISTING: u64 = 100_000_000;
const TRYING: u64 = 200_000_000;
const TURN: u64 = 1_000_000;

/// How the gap is being closed.
#[derive(Debug)]
pub(super) struct Close {
    values: Vec<i64>,
    limits: Vec<i64>,
    /// What all fillings of a better plan lack together at most.
    gap: i64,
    ground: usize,
    running: Option<(Prices, Builds)>,
    columns: Vec<Column>,
    spent: u64,
    /// Whether every filling that could help is listed.
    whole: bool,
    trying: Option<Trying>,
}

/// A filling that a better plan could use.
#[derive(Debug)]
struct Column {
    ground: usize,
    gives: Vec<(usize, u32)>,
    lacks: i64,
    plot: Plot,
}

/// Plans tried one after the other.
#[derive(Debug)]
struct Trying {
    left: Vec<u32>,
    supply: Vec<Option<u32>>,
    gap: i64,
    cost: u64,
    /// For each sheet decided on, the fillings to try there and which is next.
    open: Vec<(Vec<usize>, usize)>,
}

/// What came of a step.
pub(super) enum Closing {
    /// There is more to do.
    Open,
    /// A better plan: its fillings as numbers of the pool.
    Found(Vec<(usize, u32)>),
    /// There is no better plan.
    Proven,
    /// Too much would have to be tried.
    Left,
}

impl Search {
    /// Begins with prices at which no filling is known to be worth more than its
    /// sheet; `None` where they prove too little for that.
    pub(super) fn close(&self, pricing: &Pricing) -> Option<Close> {
        if self.best.missing.iter().any(|missing| *missing > 0) {
            return None;
        }
        let sheets: u32 = self.counts.iter().sum();
        let mut over = 0;
        let mut worth: i128 = 0;
        for (value, count) in pricing.values.iter().zip(&self.counts) {
            worth += i128::from(*value) * i128::from(*count);
        }
        for (at, ground) in self.grounds.iter().enumerate() {
            let (most, limit) = (pricing.most.get(at)?, pricing.limits.get(at)?);
            over = over.max(most.saturating_sub(*limit));
            if let Some(supply) = ground.supply {
                let extra = limit - i64::from(ground.cost) * SCALE;
                worth -= i128::from(extra.max(0)) * i128::from(supply);
            }
        }
        if over > SCALE / 1000 {
            return None;
        }
        let wanted = i128::from(self.cost.checked_sub(1)?) * i128::from(SCALE);
        let blur = i128::from(over.max(0)) * i128::from(sheets);
        let gap = i64::try_from(wanted - worth + blur).ok()?;
        Some(Close {
            values: pricing.values.clone(),
            limits: pricing.limits.clone(),
            gap,
            ground: 0,
            running: None,
            columns: Vec::new(),
            spent: 0,
            whole: true,
            trying: None,
        })
    }

    /// Goes on for one step; says what it took and what came of it.
    pub(super) fn close_on(&mut self, close: &mut Close) -> (u64, Closing) {
        if close.gap < 0 {
            return (1, Closing::Proven);
        }
        if close.ground < self.grounds.len() {
            let work = self.list(close);
            close.spent += work;
            let many = close.spent > LISTING || close.columns.len() > LISTED;
            return (work, if many { Closing::Left } else { Closing::Open });
        }
        let mut trying = close.trying.take().unwrap_or_else(|| {
            close.spent = 0;
            close.columns.sort_by_key(|column| column.lacks);
            Trying {
                left: self.counts.clone(),
                supply: self.grounds.iter().map(|ground| ground.supply).collect(),
                gap: close.gap,
                cost: 0,
                open: Vec::new(),
            }
        });
        let mut work = TURN;
        let ended = self.attempt(&close.columns, &mut trying, &mut work);
        let work = TURN - work;
        close.spent += work;
        let closing = match ended {
            Some(true) => {
                let mut chosen = Vec::new();
                for (numbers, next) in &trying.open {
                    let column = numbers.get(next - 1).and_then(|at| close.columns.get(*at));
                    let Some(column) = column else { continue };
                    let Some(ground) = self.grounds.get(column.ground) else {
                        continue;
                    };
                    let plot = column.plot.clone();
                    chosen.push((self.pool.add(column.ground, ground, plot).0, 1));
                }
                Closing::Found(chosen)
            }
            Some(false) if close.whole => Closing::Proven,
            Some(false) => Closing::Left,
            None if close.spent > TRYING => Closing::Left,
            None => {
                close.trying = Some(trying);
                Closing::Open
            }
        };
        (work, closing)
    }

    /// Lists fillings of one ground that lack less than the gap.
    fn list(&self, close: &mut Close) -> u64 {
        let Some(ground) = self.grounds.get(close.ground) else {
            return 0;
        };
        let limit = close.limits.get(close.ground).copied().unwrap_or(0);
        let over = limit.saturating_sub(close.gap).saturating_sub(1);
        let counts = fitting(ground, &self.counts);
        let field = Field {
            width: ground.width,
            height: ground.height,
            lying: &ground.lying,
            grid: &ground.grid,
            values: &close.values,
            counts: &counts,
        };
        let mut spent = 0;
        let (prices, mut builds) = close.running.take().unwrap_or_else(|| {
            let prices = Prices::new(&field, over, 0);
            let builds = Builds::listing(&field, &prices, over, KEPT);
            spent += ground.grid.work();
            (prices, builds)
        });
        let mut work = TURN;
        let done = builds.advance(&field, &prices, &mut work);
        spent += TURN - work;
        if !done {
            close.running = Some((prices, builds));
            return spent;
        }
        close.whole &= builds.bound() <= over;
        for block in builds.above(over) {
            let Some(value) = builds.block(block).map(|block| block.value) else {
                continue;
            };
            let Some(plot) = Plot::of_block(ground, &builds, block) else {
                close.whole = false;
                continue;
            };
            close.columns.push(Column {
                ground: close.ground,
                gives: crate::pool::gives(ground, &plot),
                lacks: (limit - value).max(0),
                plot,
            });
            if close.columns.len() > LISTED {
                break;
            }
        }
        close.whole &= ground.spots.iter().all(|spot| spot.corner.is_none());
        close.ground += 1;
        spent + u64::try_from(close.columns.len() * 50).unwrap_or(0)
    }

    /// Tries plans: whether a better one came, once that is decided.
    fn attempt(&self, columns: &[Column], trying: &mut Trying, work: &mut u64) -> Option<bool> {
        if trying.open.is_empty() {
            let first = trying.candidates(columns, work);
            trying.open.push((first, 0));
        }
        while *work > 0 {
            let Some((numbers, next)) = trying.open.last_mut() else {
                return Some(false);
            };
            let number = numbers.get(*next).copied();
            *next += 1;
            let Some(column) = number.and_then(|number| columns.get(number)) else {
                trying.open.pop();
                if let Some((numbers, next)) = trying.open.last() {
                    let column = numbers.get(next - 1).and_then(|at| columns.get(*at));
                    if let Some(column) = column {
                        self.put(trying, column, false);
                    }
                }
                continue;
            };
            self.put(trying, column, true);
            if trying.left.iter().all(|left| *left == 0) {
                if trying.cost < self.cost {
                    return Some(true);
                }
                self.put(trying, column, false);
                continue;
            }
            let more = trying.candidates(columns, work);
            trying.open.push((more, 0));
        }
        None
    }

    /// Takes a filling into the plan, or out of it again.
    fn put(&self, trying: &mut Trying, column: &Column, takes: bool) {
        for (piece, count) in &column.gives {
            if let Some(left) = trying.left.get_mut(*piece) {
                *left = if takes { *left - count } else { *left + count };
            }
        }
        if let Some(Some(left)) = trying.supply.get_mut(column.ground) {
            *left = if takes { *left - 1 } else { *left + 1 };
        }
        let cost = self
            .grounds
            .get(column.ground)
            .map_or(0, |it| u64::from(it.cost));
        if takes {
            trying.gap -= column.lacks;
            trying.cost += cost;
        } else {
            trying.gap += column.lacks;
            trying.cost -= cost;
        }
    }
}

impl Trying {
    /// The fillings that may give the piece that fewest give.
    fn candidates(&self, columns: &[Column], work: &mut u64) -> Vec<usize> {
        let mut giving: Vec<Vec<usize>> = vec![Vec::new(); self.left.len()];
        let mut looked = 0;
        for (number, column) in columns.iter().enumerate() {
            looked += 2 + column.gives.len() * 2;
            let room = |(piece, count): &(usize, u32)| {
                self.left.get(*piece).is_some_and(|left| count <= left)
            };
            // They are sorted by what they lack.
            if column.lacks > self.gap {
                break;
            }
            if self.supply.get(column.ground) == Some(&Some(0)) || !column.gives.iter().all(room) {
                continue;
            }
            for (piece, _) in &column.gives {
                if let Some(giving) = giving.get_mut(*piece) {
                    giving.push(number);
                }
            }
        }
        *work = work.saturating_sub(u64::try_from(looked).unwrap_or(u64::MAX));
        let wanted = giving
            .into_iter()
            .zip(&self.left)
            .filter(|(_, left)| **left > 0);
        let fewest = wanted.min_by_key(|(giving, _)| giving.len());
        fewest.map_or_else(Vec::new, |(giving, _)| giving)
    }
}
