//! The search for the fewest sheets, for pieces and stocks that belong together.
//!
//! Quick plans come first. Their sheets, and more that are looked for where the
//! linear program over them shows what is worth most (column generation, Gilmore
//! and Gomory 1961 and 1965), are put together anew: the program is solved, what
//! it uses most is decided on, and so on until everything is cut (diving). The
//! prices of the program prove how few sheets may do. Before that, sheets are filled
//! strip after strip, many ways at once, and orders in which pieces are put on less
//! paper are changed bit by bit; where a sheet holds many pieces, before each dive.

mod best;
mod close;
mod dive;
mod pricing;
mod program;
mod shuffle;
mod stripes;
mod tidy;

use crate::bound::{Prices as Proof, prove};
use crate::dice::Dice;
use crate::greedy::MANNERS;
use crate::ground::Ground;
use crate::job::Job;
use crate::layout::Batch;
use crate::pool::Pool;
use close::{Close, Closing};
use dive::Dive;
use pricing::Pricing;
pub(crate) use pricing::fitting;
use program::Program;
use shuffle::Shuffle;
use stripes::{Came, Stripes};
use tidy::Tidy;

/// After how many dives fillings are looked for as thoroughly as that.
const CARE_AFTER: [(u32, usize); 3] = [(2, 1), (6, 2), (14, 3)];

/// From which care on the gap is closed where it can be.
const CLOSED_FROM: usize = 2;

/// Quick plans before the program is first solved, and between dives.
const QUICK_FIRST: usize = MANNERS + 100;
const QUICK_BETWEEN: usize = 60;

/// Work spent at least on changing orders of so many pieces, for each of them, each
/// time before dives go on; as much as these took, where that is more. Orders tried
/// in one step.
const SHUFFLED: u64 = 50_000;
const SHUFFLES: usize = 16;

/// Pieces on a sheet that are many.
const MANY: u64 = 8;

/// Dives without anything better, after which the search ends.
const DIVES: u32 = 40;

/// How many of which filling, and what is missing.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Choice {
    /// Numbers of fillings, each once, with how many sheets are cut so.
    pub(crate) sheets: Vec<(usize, u32)>,
    pub(crate) missing: Vec<u32>,
}

#[derive(Debug)]
enum Stage {
    Quick(usize),
    /// With the work to spend on it.
    Shuffle(u64),
    Stripes(Box<Stripes>),
    Solve,
    Price(Box<Pricing>),
    Dive(Box<Dive>),
    Close(Box<Close>),
    Tidy(Tidy),
    Done,
}

/// Where a search stands.
#[derive(Debug)]
pub(crate) struct Search {
    job: Job,
    /// Which pieces of the job those of the search are.
    pub(crate) pieces: Vec<usize>,
    pub(crate) grounds: Vec<Ground>,
    pub(crate) counts: Vec<u32>,
    pub(crate) pool: Pool,
    pub(crate) best: Choice,
    /// What the best costs, missing pieces included.
    pub(crate) cost: u64,
    /// No plan costs less.
    pub(crate) bound: u64,
    /// What one missing piece counts; more than any plan costs.
    pub(crate) missing_cost: u64,
    supply: Vec<Option<u32>>,
    weights: Vec<u32>,
    /// What each piece covers at least.
    areas: Vec<u64>,
    dice: Dice,
    program: Program,
    columns: usize,
    manners: usize,
    /// How thoroughly fillings are looked for at most.
    care: usize,
    dives: u32,
    /// Work spent on dives since orders were last changed.
    dived: u64,
    /// How often sheets were filled strip after strip.
    striped: usize,
    /// The order being changed.
    shuffled: Option<Box<Shuffle>>,
    changes: u32,
    /// Work spent on ranking plans, not yet told.
    ranking: u64,
    stage: Stage,
}

impl Search {
    /// For some pieces of a job, and the grounds they can come from.
    pub(crate) fn new(job: &Job, pieces: Vec<usize>, grounds: Vec<Ground>) -> Self {
        let counts = pieces.iter().filter_map(|piece| job.pieces().get(*piece));
        let counts: Vec<u32> = counts.map(|piece| piece.count.get()).collect();
        let total: u64 = counts.iter().map(|count| u64::from(*count)).sum();
        let dearest = grounds.iter().map(|ground| u64::from(ground.cost)).max();
        let missing_cost = dearest.unwrap_or(0) * total + 1;
        let supply: Vec<Option<u32>> = grounds.iter().map(|ground| ground.supply).collect();
        let mut search = Self {
            program: Program::new(&counts, &supply, missing_cost),
            weights: vec![0; counts.len()],
            areas: areas(&grounds, counts.len()),
            pool: Pool::default(),
            best: Choice {
                sheets: Vec::new(),
                missing: counts.clone(),
            },
            cost: total * missing_cost,
            bound: 0,
            missing_cost,
            dice: Dice::new(),
            columns: 0,
            manners: 0,
            care: 0,
            dives: 0,
            dived: 0,
            striped: 0,
            shuffled: None,
            changes: 0,
            ranking: 0,
            stage: Stage::Quick(QUICK_FIRST),
            job: job.clone(),
            pieces,
            grounds,
            counts,
            supply,
        };
        search.bound_by_area();
        search
    }

    /// Whether nothing more will be found.
    pub(crate) fn is_done(&self) -> bool {
        matches!(self.stage, Stage::Done)
    }

    /// Whether no better cost will be looked for.
    pub(crate) fn is_found(&self) -> bool {
        matches!(self.stage, Stage::Tidy(_) | Stage::Done)
    }

    /// How often the best became another one.
    pub(crate) fn changes(&self) -> u32 {
        self.changes
    }

    /// The sheets of the best.
    pub(crate) fn batches(&self) -> Vec<Batch> {
        self.laid_out(&self.best)
    }

    /// Goes one step further, and says what that took.
    pub(crate) fn step(&mut self) -> u64 {
        let work = self.go_on();
        work + std::mem::take(&mut self.ranking)
    }

    fn go_on(&mut self) -> u64 {
        if self.cost <= self.bound && !self.is_found() {
            self.stage = Stage::Tidy(Tidy::default());
        }
        match std::mem::replace(&mut self.stage, Stage::Done) {
            Stage::Quick(left) => {
                let work = self.quick();
                self.stage = if left > 1 {
                    Stage::Quick(left - 1)
                } else {
                    self.stripe()
                };
                work
            }
            Stage::Stripes(stripes) => self.stripe_further(stripes),
            Stage::Shuffle(left) => self.shuffle_further(left),
            Stage::Solve => {
                self.fill_columns();
                let work = self.program.simplex.solve();
                // What it proves is proven already once it costs no more.
                #[expect(clippy::cast_precision_loss, reason = "a bound is no less for it")]
                let proven =
                    self.program.simplex.cost() <= self.bound as f64 && self.care < CLOSED_FROM;
                self.stage = if proven {
                    self.dive()
                } else {
                    let pricing = self.pricing(&self.program, &self.counts, &self.supply);
                    Stage::Price(Box::new(pricing))
                };
                work
            }
            Stage::Price(mut pricing) => {
                let work = self.price(&mut pricing);
                let ended = pricing.ground >= self.grounds.len();
                self.stage = if ended {
                    self.prove(&pricing);
                    if pricing.found {
                        Stage::Solve
                    } else if pricing.care < self.care {
                        pricing.care += 1;
                        pricing.ground = 0;
                        Stage::Price(pricing)
                    } else if let Some(close) = self.close(&pricing)
                        && self.care >= CLOSED_FROM
                    {
                        Stage::Close(Box::new(close))
                    } else {
                        self.dive()
                    }
                } else {
                    Stage::Price(pricing)
                };
                work
            }
            Stage::Dive(mut dive) => {
                let (work, ended) = self.dive_on(&mut dive);
                self.dived += work;
                self.stage = if ended {
                    self.dives += 1;
                    if self.dives >= DIVES {
                        Stage::Tidy(Tidy::default())
                    } else {
                        Stage::Quick(QUICK_BETWEEN)
                    }
                } else {
                    Stage::Dive(dive)
                };
                work
            }
            Stage::Close(mut close) => {
                let (work, closing) = self.close_on(&mut close);
                self.stage = match closing {
                    Closing::Open => Stage::Close(close),
                    Closing::Left => self.dive(),
                    Closing::Proven => {
                        self.bound = self.cost;
                        Stage::Tidy(Tidy::default())
                    }
                    Closing::Found(chosen) => {
                        let missing = vec![0; self.counts.len()];
                        self.take(Vec::new(), missing, chosen);
                        // It is tried again for one that is better still.
                        Stage::Solve
                    }
                };
                work
            }
            Stage::Tidy(mut tidy) => {
                let (work, ended) = self.tidy_on(&mut tidy);
                if !ended {
                    self.stage = Stage::Tidy(tidy);
                }
                work
            }
            Stage::Done => 0,
        }
    }

    fn stripe_further(&mut self, mut stripes: Box<Stripes>) -> u64 {
        let (work, came) = self.stripe_on(&mut stripes);
        self.stage = match came {
            Came::Open => Stage::Stripes(stripes),
            Came::Nothing => self.stripe(),
            Came::Plan(sheets) => {
                self.take(sheets, vec![0; self.counts.len()], Vec::new());
                self.stripe()
            }
        };
        work
    }

    fn shuffle_further(&mut self, left: u64) -> u64 {
        let mut work = 0;
        for _ in 0..SHUFFLES {
            if self.cost > self.bound {
                work += self.shuffle();
            }
        }
        self.stage = if work < left {
            Stage::Shuffle(left - work)
        } else {
            self.dived = 0;
            self.after_shuffle()
        };
        work
    }

    /// What comes when quick plans are done for now.
    fn stripe(&mut self) -> Stage {
        if let Some(stripes) = self.stripes() {
            Stage::Stripes(Box::new(stripes))
        } else if self.can_shuffle() && (self.dives == 0 || self.holds_many()) {
            let pieces: u64 = self.counts.iter().map(|count| u64::from(*count)).sum();
            Stage::Shuffle(self.dived.max(SHUFFLED * pieces))
        } else {
            self.after_shuffle()
        }
    }

    /// What comes when orders are changed enough for now.
    fn after_shuffle(&mut self) -> Stage {
        let more = CARE_AFTER.iter().find(|(dives, _)| *dives == self.dives);
        if let Some((_, care)) = more {
            self.care = *care;
            return Stage::Solve;
        }
        if self.dives == 0 {
            return Stage::Solve;
        }
        self.dive()
    }

    /// Whether a sheet of the best holds many pieces. Where it holds few, fillings
    /// are found one by one, and putting them together is the better search.
    fn holds_many(&self) -> bool {
        let pieces: u64 = self.counts.iter().map(|count| u64::from(*count)).sum();
        let sheets = self.best.sheets.iter().map(|(_, times)| u64::from(*times));
        pieces >= MANY * sheets.sum::<u64>()
    }

    /// Gives the program the fillings it doesn't know yet.
    fn fill_columns(&mut self) {
        for (number, filling) in self.pool.iter().enumerate().skip(self.columns) {
            if let Some(ground) = self.grounds.get(filling.ground) {
                self.program.add(number, filling, ground);
            }
        }
        self.columns = self.pool.len();
    }

    /// Every piece counts for what it covers.
    fn bound_by_area(&mut self) {
        let area = |w: u32, h: u32| u64::from(w) * u64::from(h);
        let whole = self
            .grounds
            .iter()
            .map(|ground| area(ground.width, ground.height));
        let whole: Vec<u64> = whole.collect();
        // So much smaller that sums still fit.
        let shift = whole
            .iter()
            .max()
            .map_or(0, |most| (64 - most.leading_zeros()).saturating_sub(40));
        let signed = |area: u64| i64::try_from(area >> shift).unwrap_or(i64::MAX);
        let values: Vec<i64> = self.areas.iter().map(|area| signed(*area)).collect();
        // Rounded up, as what a sheet holds at most.
        let most: Vec<i64> = whole.iter().map(|area| signed(*area) + 1).collect();
        let exact: Vec<i64> = whole.iter().map(|area| signed(*area)).collect();
        let proof = Proof {
            values: &values,
            most: if shift == 0 { &exact } else { &most },
        };
        let bound = prove(&proof, &self.grounds, &self.counts, self.missing_cost);
        self.bound = self.bound.max(bound);
    }
}

/// What each of so many pieces covers at least.
fn areas(grounds: &[Ground], pieces: usize) -> Vec<u64> {
    let area = |piece| {
        let ways = grounds.iter().flat_map(|ground| ground.ways(piece));
        let areas = ways.map(|(_, one, _)| u64::from(one.width) * u64::from(one.height));
        areas.min().unwrap_or(0)
    };
    (0..pieces).map(area).collect()
}
