//! The best so far: quick plans for it, what replaces it, and how good it is.

use std::num::NonZeroU32;

use super::{Choice, Search};
use crate::greedy::{Manner, Sheet, quick};
use crate::layout::Batch;
use crate::plan::Plan;

/// Sheets of quick plans that are no better are kept up to so many fillings.
const POOLED: usize = 500;

/// Work for each part of a plan that is ranked.
const RANKED: u64 = 300;

impl Search {
    /// A quick plan in the next manner.
    pub(super) fn quick(&mut self) -> u64 {
        let manner = Manner::number(self.manners, &mut self.dice);
        self.manners += 1;
        let plan = quick(
            &self.grounds,
            &self.counts,
            &self.weights,
            &self.supply,
            manner,
            &mut self.dice,
        );
        self.learn(&plan.sheets);
        self.take(plan.sheets, plan.missing, Vec::new());
        plan.work
    }

    /// Pieces on the sheet that was filled worst count for more the next time.
    pub(super) fn learn(&mut self, sheets: &[Sheet]) {
        let fill = |sheet: &Sheet| {
            let ground = self.grounds.get(sheet.ground)?;
            let area = sheet.plot.pieces().filter_map(|at| ground.lying.get(at));
            let area: u64 = area
                .map(|it| u64::from(it.width) * u64::from(it.height))
                .sum();
            let whole = u64::from(ground.width) * u64::from(ground.height);
            Some(area * 1000 / whole.max(1))
        };
        let worst = sheets.iter().min_by_key(|sheet| fill(sheet));
        let mut on_worst = vec![false; self.counts.len()];
        if let Some(sheet) = worst
            && let Some(ground) = self.grounds.get(sheet.ground)
        {
            for at in sheet.plot.pieces() {
                let piece = ground.lying.get(at).map(|it| it.piece);
                if let Some(flag) = piece.and_then(|piece| on_worst.get_mut(piece)) {
                    *flag = true;
                }
            }
        }
        for (weight, bad) in self.weights.iter_mut().zip(on_worst) {
            *weight = (*weight * 15 + if bad { 2048 } else { 0 }) / 16;
        }
    }

    /// Keeps the sheets of a plan, and the plan where it is better.
    pub(super) fn take(
        &mut self,
        sheets: Vec<Sheet>,
        missing: Vec<u32>,
        mut chosen: Vec<(usize, u32)>,
    ) {
        let lacking: u64 = missing.iter().map(|count| u64::from(*count)).sum();
        let each = sheets
            .iter()
            .filter_map(|sheet| self.grounds.get(sheet.ground));
        let mut cost: u64 = each.map(|ground| u64::from(ground.cost)).sum();
        for (filling, times) in &chosen {
            let filling = self.pool.get(*filling);
            let ground = filling.and_then(|it| self.grounds.get(it.ground));
            cost += ground.map_or(0, |it| u64::from(it.cost)) * u64::from(*times);
        }
        cost += lacking * self.missing_cost;
        if cost > self.cost + self.cost / 40 + 1 {
            return;
        }
        if cost >= self.cost && self.pool.len() >= POOLED && !self.is_found() {
            return;
        }
        for sheet in sheets {
            let Some(ground) = self.grounds.get(sheet.ground) else {
                continue;
            };
            let (number, _) = self.pool.add(sheet.ground, ground, sheet.plot);
            match chosen.iter_mut().find(|(at, _)| *at == number) {
                Some((_, times)) => *times += 1,
                None => chosen.push((number, 1)),
            }
        }
        let choice = Choice {
            sheets: chosen,
            missing,
        };
        // As good, it may still take less handling.
        let fewer = self.cuts(&choice.sheets) < self.cuts(&self.best.sheets);
        let better = cost < self.cost
            || cost == self.cost && fewer && {
                let best = self.best.clone();
                self.rank(&choice) < self.rank(&best)
            };
        if better {
            self.cost = cost;
            self.changes += 1;
            self.best = choice;
        }
    }

    /// The sheets of a choice, without pieces that are more than wanted.
    pub(super) fn laid_out(&self, choice: &Choice) -> Vec<Batch> {
        let mut left = self.counts.clone();
        let mut batches: Vec<Batch> = Vec::new();
        for (number, times) in &choice.sheets {
            let Some(filling) = self.pool.get(*number) else {
                continue;
            };
            let Some(ground) = self.grounds.get(filling.ground) else {
                continue;
            };
            let Some(stock) = self.job.stocks().get(ground.stock) else {
                continue;
            };
            for _ in 0..*times {
                let plot = filling.plot.without(|lying| {
                    let piece = ground.lying.get(lying).map(|it| it.piece);
                    match piece.and_then(|piece| left.get_mut(piece)) {
                        Some(left) if *left > 0 => {
                            *left -= 1;
                            false
                        }
                        _ => true,
                    }
                });
                if plot.pieces().next().is_none() {
                    continue;
                }
                let Some(layout) = plot.laid_out(ground, stock.size, &self.pieces) else {
                    continue;
                };
                let alike = batches
                    .iter_mut()
                    .find(|it| it.stock == ground.stock && it.layout == layout);
                if let Some(batch) = alike {
                    batch.sheets = batch.sheets.saturating_add(1);
                } else {
                    batches.push(Batch {
                        stock: ground.stock,
                        sheets: NonZeroU32::MIN,
                        layout,
                    });
                }
            }
        }
        batches
    }

    /// How good a choice is beyond its cost. What finding out takes is counted.
    pub(super) fn rank(&mut self, choice: &Choice) -> (u64, u64, u64, u64) {
        let plan = Plan::new(&self.job, self.laid_out(choice));
        let parts = plan.batches().iter().map(|it| it.layout.parts().len());
        let parts = u64::try_from(parts.sum::<usize>()).unwrap_or(u64::MAX);
        self.ranking += parts * RANKED;
        plan.rank()
    }

    /// How many cuts a choice takes where every sheet is cut by itself.
    pub(super) fn cuts(&self, choice: &[(usize, u32)]) -> u64 {
        let each = choice.iter().filter_map(|(number, times)| {
            let filling = self.pool.get(*number)?;
            Some(u64::from(filling.cuts) * u64::from(*times))
        });
        each.sum()
    }
}
