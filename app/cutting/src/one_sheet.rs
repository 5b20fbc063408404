//! What one sheet gives at most.

use crate::builds::{Builds, Field, Prices};
use crate::ground::Ground;
use crate::job::Job;
use crate::layout::Layout;
use crate::length::Size;
use crate::planner::Progress;
use crate::plot::Plot;
use crate::search::fitting;

/// Blocks kept of each number of pieces, at first; four times as many each time.
const KEPT: usize = 64;

/// More are never kept.
const MOST_KEPT: usize = 1 << 20;

/// Layouts tried of one search; the trimmer may be unable to cut the best.
const TRIED: usize = 50;

/// Rounds to make the bound lower before each search.
const ROUNDS: u32 = 60;

/// Work spent on those rounds about, and places of cuts that they look at.
const LOWERING: u64 = 100_000_000;
const PLACES: u16 = 320;

/// Worths are multiplied by this, so that prices can be finer than they are.
const FINE: i64 = 1000;

/// A search for the pieces worth most that one sheet of a stock gives, each no
/// more often than the job wants it.
///
/// ```
/// use std::num::NonZeroU32;
/// use foldwright_cutting::{Job, Lie, OneSheet, Piece, Progress, Size, Source, Stock, Trimmer};
///
/// // Tags from a scrap: what covers most of it.
/// let scrap = Stock { size: Size::new(200, 110).unwrap(), supply: Some(1), cost: 0, margin: 0 };
/// let tag = Piece {
///     size: Size::new(50, 90).unwrap(),
///     count: NonZeroU32::new(20).unwrap(),
///     sources: vec![Source { stock: 0, lie: Lie::Either, area: None }],
/// };
/// let job = Job::new(vec![scrap], vec![tag], Trimmer::PLAIN).unwrap();
/// let mut sheet = OneSheet::new(&job, 0, &[1]).unwrap();
/// while sheet.improve(1_000_000, || false) != Progress::Done {}
/// assert_eq!((sheet.worth(), sheet.bound()), (4, 4));
/// ```
#[derive(Debug)]
pub struct OneSheet {
    ground: Ground,
    size: Size,
    pieces: Vec<usize>,
    values: Vec<i64>,
    counts: Vec<u32>,
    kept: usize,
    running: Option<(Prices, Builds)>,
    best: i64,
    bound: i64,
    layout: Layout,
    done: bool,
}

impl OneSheet {
    /// `worths` tells what each piece of the job is worth, in any unit, those of
    /// a sheet together below 2⁴⁰. `None` where there is no such stock, nothing
    /// is left of it within its margins, or worths are too high.
    pub fn new(job: &Job, stock: usize, worths: &[u64]) -> Option<Self> {
        let pieces: Vec<usize> = (0..job.pieces().len()).collect();
        let ground = Ground::new(job, stock, &pieces, PLACES)?;
        let size = job.stocks().get(stock)?.size;
        let counts: Vec<u32> = job.pieces().iter().map(|it| it.count.get()).collect();
        let counts = fitting(&ground, &counts);
        let mut values = Vec::new();
        let mut all: i64 = 0;
        for (at, count) in counts.iter().enumerate() {
            let worth = worths.get(at).copied().unwrap_or(0);
            let value = i64::try_from(worth).ok()?.checked_mul(FINE)?;
            let one = value.checked_mul(i64::from(*count))?;
            all = all.checked_add(one).filter(|all| *all < 1 << 52)?;
            values.push(value);
        }
        Some(Self {
            layout: Layout::new(size),
            size,
            pieces,
            values,
            counts,
            kept: KEPT,
            running: None,
            best: 0,
            bound: all,
            done: ground.lying.is_empty(),
            ground,
        })
    }

    /// What the pieces of the best layout are worth.
    pub fn worth(&self) -> u64 {
        u64::try_from(self.best / FINE).unwrap_or(0)
    }

    /// No layout is worth more.
    pub fn bound(&self) -> u64 {
        if self.ground.lying.is_empty() {
            return 0;
        }
        u64::try_from(self.bound / FINE)
            .unwrap_or(0)
            .max(self.worth())
    }

    /// The best layout found.
    pub fn layout(&self) -> &Layout {
        &self.layout
    }

    /// Works on until about so much work is spent or `stop` says so, as
    /// [`Planner::improve`](crate::Planner::improve) does.
    pub fn improve(&mut self, work: u64, mut stop: impl FnMut() -> bool) -> Progress {
        let before = self.best;
        let mut left = work;
        while left > 0 && !self.done && !stop() {
            let mut turn = left.min(1_000_000);
            left -= turn;
            self.step(&mut turn);
            left += turn;
        }
        match (self.done, self.best > before) {
            (_, true) => Progress::Better,
            (true, false) => Progress::Done,
            (false, false) => Progress::Same,
        }
    }

    fn step(&mut self, work: &mut u64) {
        let field = Field {
            width: self.ground.width,
            height: self.ground.height,
            lying: &self.ground.lying,
            grid: &self.ground.grid,
            values: &self.values,
            counts: &self.counts,
        };
        let (prices, mut builds) = self.running.take().unwrap_or_else(|| {
            let each = self.ground.grid.work();
            let rounds = u64::from(ROUNDS).min(LOWERING / each.max(1) + 4);
            *work = work.saturating_sub(each * rounds / 4);
            let rounds = u32::try_from(rounds).unwrap_or(ROUNDS);
            let prices = Prices::new(&field, self.best, rounds);
            let builds = Builds::new(&field, &prices, self.best, self.kept);
            (prices, builds)
        });
        self.bound = self.bound.min(prices.bound);
        let ended = builds.advance(&field, &prices, work);
        if !ended {
            self.running = Some((prices, builds));
            return;
        }
        self.bound = self.bound.min(builds.bound());
        for block in builds.above(self.best).into_iter().take(TRIED) {
            let plot = Plot::of_block(&self.ground, &builds, block);
            let layout = plot.and_then(|it| it.laid_out(&self.ground, self.size, &self.pieces));
            if let (Some(layout), Some(block)) = (layout, builds.block(block)) {
                self.layout = layout;
                self.best = block.value;
                break;
            }
        }
        self.kept *= 4;
        self.done = self.bound / FINE <= self.best / FINE || self.kept > MOST_KEPT;
    }
}
