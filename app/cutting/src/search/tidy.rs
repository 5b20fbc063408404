//! The best plan cut with less handling, once its cost is found.
//!
//! First other quick plans of that cost, then all its sheets cut apart in other
//! orders, then each sheet by itself, with its pieces at other places too.

use super::Search;
use crate::builds::{Builds, Field, Prices};
use crate::plot::Plot;
use crate::recut::Order;

/// Quick plans in search of one with less handling.
const QUICK: usize = 100;

/// Work spent on new places for the pieces of a sheet.
const TIDYING: u64 = 2_000_000;

/// Blocks kept of each number of pieces meanwhile, and layouts tried in the end.
const KEPT: usize = 400;
const TRIED: usize = 4;

/// What comes next.
#[derive(Debug, Default)]
pub(super) struct Tidy {
    quick: usize,
    order: usize,
    sheet: usize,
}

impl Search {
    /// Tries the next; says what that took and whether all is tried.
    pub(super) fn tidy_on(&mut self, tidy: &mut Tidy) -> (u64, bool) {
        if tidy.quick < QUICK {
            tidy.quick += 1;
            return (self.quick(), false);
        }
        if let Some(order) = Order::ALL.get(tidy.order) {
            tidy.order += 1;
            return (self.recut(*order), false);
        }
        if tidy.sheet >= self.best.sheets.len() {
            return (1, true);
        }
        tidy.sheet += 1;
        (self.tidy(tidy.sheet - 1), false)
    }

    /// Cuts all sheets of the best apart in another order, where that is less
    /// handling.
    fn recut(&mut self, order: Order) -> u64 {
        let choice = self.best.clone();
        let before = self.rank(&choice);
        let mut known = Vec::new();
        for (number, _) in &choice.sheets {
            let Some(filling) = self.pool.get(*number) else {
                continue;
            };
            let ground = self.grounds.get(filling.ground);
            let cut = ground.and_then(|ground| order.recut(&filling.plot, ground));
            if let Some(cut) = cut {
                known.push((*number, filling.plot.clone()));
                self.pool.replace(*number, cut);
            }
        }
        if self.rank(&choice) < before {
            self.changes += 1;
        } else {
            for (number, plot) in known {
                self.pool.replace(number, plot);
            }
        }
        1
    }

    /// Lays out one of the fillings of the best with less handling.
    fn tidy(&mut self, number: usize) -> u64 {
        let Some((filling, _)) = self.best.sheets.get(number).copied() else {
            return 1;
        };
        let Some(known) = self.pool.get(filling) else {
            return 1;
        };
        let Some(ground) = self.grounds.get(known.ground) else {
            return 1;
        };
        let mut counts = vec![0; self.counts.len()];
        let mut all = 0;
        for (piece, count) in &known.gives {
            if let Some(there) = counts.get_mut(*piece) {
                *there = *count;
                all += i64::from(*count);
            }
        }
        let values: Vec<i64> = counts.iter().map(|count| i64::from(*count > 0)).collect();
        let field = Field {
            width: ground.width,
            height: ground.height,
            lying: &ground.lying,
            grid: &ground.grid,
            values: &values,
            counts: &counts,
        };
        let prices = Prices::new(&field, all - 1, 0);
        let mut builds = Builds::new(&field, &prices, all - 1, KEPT);
        let mut work = TIDYING;
        builds.advance(&field, &prices, &mut work);
        let found = builds.above(all - 1).into_iter().take(TRIED);
        let mut plots: Vec<Plot> = found
            .flat_map(|block| Plot::all_of_block(ground, &builds, block))
            .collect();
        let laid = [Some(&known.plot), plots.first()].into_iter().flatten();
        let recut: Vec<Plot> = laid
            .flat_map(|plot| Order::ALL.map(|order| order.recut(plot, ground)))
            .flatten()
            .collect();
        plots.extend(recut);
        let mut best = known.plot.clone();
        let choice = self.best.clone();
        let before = self.rank(&choice);
        let mut rank = before;
        for plot in plots {
            self.pool.replace(filling, plot.clone());
            let now = self.rank(&choice);
            if now < rank {
                (best, rank) = (plot, now);
            }
        }
        self.pool.replace(filling, best);
        self.changes += u32::from(rank < before);
        TIDYING - work + 10_000
    }
}
