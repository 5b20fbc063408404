//! Fillings looked for at the prices of the program.

use super::Search;
use super::program::Program;
use crate::bound::{Prices as Proof, SCALE, prove};
use crate::builds::{Builds, Field, Prices};
use crate::greedy::{MANNERS, Manner, quick};
use crate::ground::Ground;
use crate::plot::Plot;

/// Blocks kept of each number of pieces, and rounds to make bounds lower, as a
/// filling is looked for more and more thoroughly.
const CARE: [(usize, u32); 4] = [(40, 0), (160, 6), (600, 20), (4000, 40)];

/// From which care on all places of cuts are looked at.
const FINE_FROM: usize = 2;

/// Sheets filled quickly before fillings are looked for at given prices.
const GUESSES: usize = 16;

/// Fillings kept of one search.
const ADDED: usize = 8;

/// Work spent on making a bound lower at most.
const LOWERING: u64 = 20_000_000;

/// Work spent on one step of a filling that is looked for.
const TURN: u64 = 400_000;

/// No piece counts for more, so that those of a sheet can be added up.
const MOST_WORTH: i64 = 1 << 46;

/// Fillings looked for at given prices, ground after ground.
#[derive(Debug)]
pub(super) struct Pricing {
    pub(super) care: usize,
    pub(super) ground: usize,
    pub(super) found: bool,
    /// Whether the ground was filled quickly already.
    pub(super) guessed: bool,
    pub(super) values: Vec<i64>,
    pub(super) counts: Vec<u32>,
    pub(super) limits: Vec<i64>,
    /// The most that a filling of each ground can be worth.
    pub(super) most: Vec<i64>,
    pub(super) running: Option<Running>,
}

/// A filling looked for on one ground.
#[derive(Debug)]
pub(super) struct Running {
    values: Vec<i64>,
    counts: Vec<u32>,
    prices: Prices,
    builds: Builds,
}

impl Search {
    /// What to look for at the prices of a program.
    pub(super) fn pricing(
        &self,
        program: &Program,
        counts: &[u32],
        supply: &[Option<u32>],
    ) -> Pricing {
        let values = (0..counts.len()).map(|piece| whole(program.price(piece)).max(0));
        let values: Vec<i64> = values.collect();
        let counts = values.iter().zip(counts);
        let counts = counts.map(|(value, count)| if *value > 0 { *count } else { 0 });
        let limits = self.grounds.iter().enumerate();
        let limits =
            limits.map(|(at, ground)| i64::from(ground.cost) * SCALE - whole(program.limit(at)));
        let open = |left: &Option<u32>| if *left == Some(0) { 0 } else { i64::MAX };
        Pricing {
            care: 0,
            ground: 0,
            found: false,
            guessed: false,
            counts: counts.collect(),
            limits: limits.collect(),
            most: supply.iter().map(open).collect(),
            values,
            running: None,
        }
    }

    /// Looks on for fillings worth more than they cost.
    pub(super) fn price(&mut self, pricing: &mut Pricing) -> u64 {
        let limit = pricing.limits.get(pricing.ground).copied().unwrap_or(0);
        // Less than a millionth of a sheet is no gain.
        let reached = limit + SCALE / 1_000_000;
        if pricing
            .most
            .get(pricing.ground)
            .is_some_and(|most| *most <= reached)
        {
            pricing.ground += 1;
            pricing.guessed = false;
            return 1;
        }
        if pricing.care == 0 && pricing.running.is_none() && !pricing.guessed {
            pricing.guessed = true;
            return self.guess(pricing, reached);
        }
        let Some(ground) = self.grounds.get(pricing.ground) else {
            return 0;
        };
        let (keep, rounds) = CARE.get(pricing.care).copied().unwrap_or(CARE[0]);
        let grid = if pricing.care < FINE_FROM {
            &ground.rough
        } else {
            &ground.grid
        };
        let most = LOWERING / grid.work().max(1) + 1;
        let rounds = u32::try_from(most).map_or(rounds, |most| rounds.min(most));
        let mut work = TURN;
        let mut running = pricing.running.take().unwrap_or_else(|| {
            let counts = fitting(ground, &pricing.counts);
            let field = Field {
                width: ground.width,
                height: ground.height,
                lying: &ground.lying,
                grid,
                values: &pricing.values,
                counts: &counts,
            };
            let prices = Prices::new(&field, reached, rounds);
            work = work.saturating_sub(grid.work() * u64::from(2 + rounds));
            let builds = Builds::new(&field, &prices, reached, keep);
            Running {
                values: pricing.values.clone(),
                counts,
                prices,
                builds,
            }
        });
        let field = Field {
            width: ground.width,
            height: ground.height,
            lying: &ground.lying,
            grid,
            values: &running.values,
            counts: &running.counts,
        };
        work = work.max(1);
        let done = running.builds.advance(&field, &running.prices, &mut work);
        let spent = TURN.saturating_sub(work) + grid.work();
        if !done {
            pricing.running = Some(running);
            return spent;
        }
        let most = running.builds.bound().min(running.prices.bound);
        if let Some(known) = pricing.most.get_mut(pricing.ground) {
            *known = (*known).min(most);
        }
        let numbers = running.builds.finest(reached, ADDED);
        for block in numbers {
            if let Some(plot) = Plot::of_block(ground, &running.builds, block) {
                let (_, new) = self.pool.add(pricing.ground, ground, plot);
                pricing.found |= new;
            }
        }
        pricing.ground += 1;
        pricing.guessed = false;
        spent
    }

    /// Fills one sheet quickly, again and again, with what is worth most for its
    /// size first.
    pub(super) fn guess(&mut self, pricing: &mut Pricing, reached: i64) -> u64 {
        let Some(ground) = self.grounds.get(pricing.ground) else {
            return 0;
        };
        let whole = i128::from(ground.width) * i128::from(ground.height);
        let mut weights = vec![0; pricing.values.len()];
        for one in &ground.lying {
            let area = i128::from(one.width) * i128::from(one.height) * i128::from(SCALE);
            let value = pricing.values.get(one.piece).copied().unwrap_or(0);
            // 2048 for what is worth just its share of the sheet.
            let weight = i128::from(value) * whole * 2048 / area.max(1);
            if let Some(there) = weights.get_mut(one.piece) {
                *there = u32::try_from(weight.min(16_384)).unwrap_or(0);
            }
        }
        let mut supply = vec![Some(0); self.grounds.len()];
        if let Some(mine) = supply.get_mut(pricing.ground) {
            *mine = Some(1);
        }
        let mut work = 0;
        for _ in 0..GUESSES {
            let manner = Manner::number(MANNERS, &mut self.dice);
            let filled = quick(
                &self.grounds,
                &pricing.counts,
                &weights,
                &supply,
                manner,
                &mut self.dice,
            );
            work += filled.work;
            for sheet in filled.sheets {
                let lying = sheet.plot.pieces().filter_map(|at| ground.lying.get(at));
                let values = lying.filter_map(|one| pricing.values.get(one.piece));
                if values.sum::<i64>() > reached {
                    let (_, new) = self.pool.add(pricing.ground, ground, sheet.plot);
                    pricing.found |= new;
                }
            }
        }
        work
    }

    /// What prices prove about the least cost.
    pub(super) fn prove(&mut self, pricing: &Pricing) {
        let proof = Proof {
            values: &pricing.values,
            most: &pricing.most,
        };
        let bound = prove(&proof, &self.grounds, &self.counts, self.missing_cost);
        self.bound = self.bound.max(bound).min(self.cost);
    }
}

/// A price in whole numbers, rounded down.
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "what prices prove is proven in whole numbers"
)]
fn whole(price: f64) -> i64 {
    ((price * SCALE as f64).floor() as i64).min(MOST_WORTH)
}

/// No more of each piece than one sheet could hold.
pub(crate) fn fitting(ground: &Ground, counts: &[u32]) -> Vec<u32> {
    let mut most = vec![0; counts.len()];
    let whole = u64::from(ground.width) * u64::from(ground.height);
    for one in &ground.lying {
        let each = u64::from(one.width) * u64::from(one.height);
        let fit = u32::try_from(whole / each.max(1)).unwrap_or(u32::MAX);
        if let Some(most) = most.get_mut(one.piece) {
            *most = fit.max(*most);
        }
    }
    counts
        .iter()
        .zip(most)
        .map(|(count, most)| (*count).min(most))
        .collect()
}
