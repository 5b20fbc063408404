//! Prints random small jobs with their plans, one JSON object a line, for a
//! program that plans each anew. The only argument is how many to print.

use std::num::NonZeroU32;

use foldwright_cutting::{Job, Lie, Piece, Planner, Progress, Size, Source, Stock, Trimmer};
use serde_json::json;

/// No more pieces than a solver can list all sets of.
const PIECES: u32 = 8;

fn main() {
    let wanted = std::env::args().nth(1).and_then(|count| count.parse().ok());
    let wanted: u64 = wanted.unwrap_or(300);
    for seed in 0..wanted {
        if let Some(job) = job(&mut Dice(seed * 2 + 1)) {
            println!("{}", told(seed, &job));
        }
    }
}

/// Marsaglia's xorshift: the same every time.
struct Dice(u64);

impl Dice {
    fn below(&mut self, limit: u32) -> u32 {
        for _ in 0..3 {
            self.0 ^= self.0 << 13;
            self.0 ^= self.0 >> 7;
            self.0 ^= self.0 << 17;
        }
        u32::try_from(self.0 % u64::from(limit.max(1))).unwrap_or(0)
    }
}

/// One to three stocks, some of them few, and up to eight pieces.
fn job(dice: &mut Dice) -> Option<Job> {
    let mut stocks = Vec::new();
    for _ in 0..=dice.below(3) {
        stocks.push(Stock {
            size: Size::new(8 + dice.below(13), 8 + dice.below(13))?,
            supply: (dice.below(3) == 0).then(|| dice.below(3)),
            cost: dice.below(4),
            margin: dice.below(4) / 3,
        });
    }
    let mut pieces = Vec::new();
    let mut left = 3 + dice.below(PIECES - 2);
    while left > 0 {
        let count = 1 + dice.below(left.min(3));
        left -= count;
        let mut sources = Vec::new();
        for stock in 0..stocks.len() {
            let lie =
                [Lie::Upright, Lie::Turned, Lie::Either][usize::try_from(dice.below(3)).ok()?];
            if dice.below(4) > 0 || (stock + 1 == stocks.len() && sources.is_empty()) {
                sources.push(Source {
                    stock,
                    lie,
                    area: None,
                });
            }
        }
        pieces.push(Piece {
            size: Size::new(2 + dice.below(9), 2 + dice.below(9))?,
            count: NonZeroU32::new(count)?,
            sources,
        });
    }
    let trimmer = Trimmer {
        kerf: dice.below(3) / 2,
        ..Trimmer::PLAIN
    };
    Job::new(stocks, pieces, trimmer).ok()
}

fn told(seed: u64, job: &Job) -> serde_json::Value {
    let mut planner = Planner::new(job);
    while !planner.is_proven() && planner.improve(1_000_000, || false) != Progress::Done {}
    let (plan, bound) = (planner.plan(), planner.bound());
    let stock = |it: &Stock| {
        json!({
            "size": [it.size.width.get(), it.size.height.get()],
            "supply": it.supply, "cost": it.cost, "margin": it.margin,
        })
    };
    let source = |it: &Source| json!([it.stock, format!("{:?}", it.lie)]);
    let piece = |it: &Piece| {
        json!({
            "size": [it.size.width.get(), it.size.height.get()],
            "count": it.count.get(),
            "sources": it.sources.iter().map(source).collect::<Vec<_>>(),
        })
    };
    json!({
        "seed": seed,
        "kerf": job.trimmer().kerf,
        "stocks": job.stocks().iter().map(stock).collect::<Vec<_>>(),
        "pieces": job.pieces().iter().map(piece).collect::<Vec<_>>(),
        "plan": [plan.lacks(), plan.cost()],
        "bound": [bound.missing, bound.cost],
    })
}
