//! Plans that become better the longer they are worked on.

use crate::ground::Ground;
use crate::job::Job;
use crate::plan::{Bound, Plan};
use crate::search::Search;

/// Work spent on the first plan at most, for each group of pieces.
const FIRST: u64 = 1_000_000;

/// Places of cuts on a side that bounds look at, so that one takes a few
/// milliseconds.
const PLACES: u16 = 160;

/// What came of some work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Progress {
    /// There is a better plan.
    Better,
    /// There is none yet.
    Same,
    /// The search has ended: nothing better will be found by going on.
    Done,
}

/// A search for a good plan, with the best plan so far.
///
/// The first plan is there at once. [`improve`](Self::improve) works on it for as
/// long as it is told to, so that it can be called in turns or in a worker, and
/// left at any time. The same job and the same budgets give the same plans.
///
/// ```
/// use std::num::NonZeroU32;
/// use foldwright_cutting::{Job, Lie, Piece, Planner, Progress, Size, Source, Stock, Trimmer};
///
/// // Twenty-four bases and as many mats from A4, in millimetres.
/// let a4 = Stock { size: Size::new(210, 297).unwrap(), supply: None, cost: 1, margin: 0 };
/// let piece = |width, height| Piece {
///     size: Size::new(width, height).unwrap(),
///     count: NonZeroU32::new(24).unwrap(),
///     sources: vec![Source { stock: 0, lie: Lie::Either, area: None }],
/// };
/// let job = Job::new(vec![a4], vec![piece(148, 210), piece(99, 142)], Trimmer::PLAIN).unwrap();
/// let mut planner = Planner::new(&job);
/// while planner.improve(1_000_000, || false) != Progress::Done {}
/// assert_eq!(planner.plan().cost(), 18);
/// assert!(planner.is_proven());
/// ```
#[derive(Debug)]
pub struct Planner {
    job: Job,
    /// Pieces and stocks that have nothing to do with each other are searched
    /// for themselves.
    groups: Vec<Search>,
    plan: Plan,
    /// Pieces that no sheet holds.
    lost: u64,
    next: usize,
}

impl Planner {
    /// With a first plan.
    pub fn new(job: &Job) -> Self {
        let mut planner = Self {
            groups: groups(job),
            plan: Plan::new(job, Vec::new()),
            lost: 0,
            next: 0,
            job: job.clone(),
        };
        let placed: u64 = planner
            .groups
            .iter()
            .flat_map(|group| &group.counts)
            .map(|it| u64::from(*it))
            .sum();
        planner.lost = planner.plan.lacks() - placed;
        for group in &mut planner.groups {
            let mut left = FIRST;
            while left > 0 && !group.is_found() {
                left = left.saturating_sub(group.step());
            }
        }
        planner.plan = planner.laid_out();
        planner
    }

    /// The best plan so far.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// What no plan can do better, as far as it is proven.
    pub fn bound(&self) -> Bound {
        let mut bound = Bound {
            missing: self.lost,
            cost: 0,
        };
        for search in &self.groups {
            let missing = search.bound / search.missing_cost;
            bound.missing += missing;
            if missing == search.cost / search.missing_cost {
                bound.cost += search.bound % search.missing_cost;
            }
        }
        bound
    }

    /// Whether no plan lacks fewer pieces, and none of those costs less.
    pub fn is_proven(&self) -> bool {
        let bound = self.bound();
        (bound.missing, bound.cost) == (self.plan.lacks(), self.plan.cost())
    }

    /// Works on until about so much work is spent, `stop` says so, or nothing is
    /// left to try. A unit of work is a comparison or so; a million take a few
    /// milliseconds on a desktop computer. `stop` is asked after each step, most of
    /// which take less than that; with a hundred kinds of pieces some take a tenth of a
    /// second or two.
    pub fn improve(&mut self, work: u64, mut stop: impl FnMut() -> bool) -> Progress {
        let mut left = work;
        let before = self.plan.rank();
        while left > 0 && !stop() {
            let Some(number) = self.pick() else {
                break;
            };
            let Some(group) = self.groups.get_mut(number) else {
                break;
            };
            let known = group.changes();
            left = left.saturating_sub(group.step().max(1));
            if group.changes() != known {
                self.plan = self.laid_out();
            }
        }
        if self.plan.rank() < before {
            Progress::Better
        } else if self.groups.iter().all(Search::is_done) {
            Progress::Done
        } else {
            Progress::Same
        }
    }

    /// The next group to work on: in turn, those with something to gain first.
    fn pick(&mut self) -> Option<usize> {
        let count = self.groups.len();
        let turn = (0..count).map(|at| (self.next + at) % count.max(1));
        let open = |at: &usize| self.groups.get(*at).is_some_and(|group| !group.is_done());
        let gaining = |at: &usize| self.groups.get(*at).is_some_and(|group| !group.is_found());
        let picked = turn
            .clone()
            .find(gaining)
            .or_else(|| turn.clone().find(open))?;
        self.next = picked + 1;
        Some(picked)
    }

    fn laid_out(&self) -> Plan {
        let mut batches = Vec::new();
        for group in &self.groups {
            batches.extend(group.batches());
        }
        Plan::new(&self.job, batches).measured(&self.job)
    }
}

/// Parts a job into what has no stock in common.
fn groups(job: &Job) -> Vec<Search> {
    let stocks = job.stocks().len();
    let mut of_stock: Vec<usize> = (0..stocks).collect();
    for piece in job.pieces() {
        let mut stocks = piece.sources.iter().map(|source| source.stock);
        let Some(first) = stocks.next().and_then(|stock| of_stock.get(stock).copied()) else {
            continue;
        };
        for stock in stocks {
            let other = of_stock.get(stock).copied();
            for group in &mut of_stock {
                if Some(*group) == other {
                    *group = first;
                }
            }
        }
    }
    let mut groups = Vec::new();
    for number in 0..stocks {
        let mine: Vec<usize> = (0..stocks)
            .filter(|at| of_stock.get(*at) == Some(&number))
            .collect();
        let ours = |piece: &usize| {
            let piece = job.pieces().get(*piece);
            let source = piece.and_then(|piece| piece.sources.first());
            source.is_some_and(|source| mine.contains(&source.stock))
        };
        let pieces: Vec<usize> = (0..job.pieces().len()).filter(ours).collect();
        let grounds = |pieces: &[usize]| -> Vec<Ground> {
            let grounds = mine
                .iter()
                .filter_map(|stock| Ground::new(job, *stock, pieces, PLACES));
            grounds.collect()
        };
        // Pieces that fit nowhere are no part of the search.
        let all = grounds(&pieces);
        let placed: Vec<usize> = pieces
            .iter()
            .enumerate()
            .filter(|(at, _)| {
                all.iter()
                    .any(|ground| ground.lying.iter().any(|it| it.piece == *at))
            })
            .map(|(_, piece)| *piece)
            .collect();
        if placed.is_empty() {
            continue;
        }
        let grounds = grounds(&placed);
        groups.push(Search::new(job, placed, grounds));
    }
    groups
}
