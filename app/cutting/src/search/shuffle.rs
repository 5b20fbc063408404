//! Orders of pieces changed bit by bit, for plans that cost less than the best.
//!
//! Pieces are put on no more paper than a better plan may take, in some order,
//! and what finds no place is left over. A change of the order is kept where no
//! more is left over than was a while ago (late acceptance, Burke and Bykov 2017),
//! until nothing is. This finds plans where a sheet holds so many pieces that the
//! best filling is out of reach.

use super::Search;
use crate::greedy::{Manner, Paper, Quick, in_order, order, preferred};

/// Pieces altogether for which orders are changed. With more, what one order
/// loses is little of the whole, and trying one takes long.
const PIECES: u64 = 1000;

/// Orders of which the best is begun with.
const STARTS: usize = 100;

/// How many changes before is a while ago.
const WHILE: usize = 100;

/// Changes with nothing better, after which it is begun anew.
const STALE: u32 = 4000;

/// An order, and what it leaves over.
#[derive(Debug)]
pub(super) struct Shuffle {
    order: Vec<usize>,
    manner: Manner,
    /// Which sheet is begun first.
    begun: Vec<usize>,
    missing: Vec<u32>,
    /// What found no place, in square units.
    left: u64,
    /// The least that was left since the beginning.
    least: u64,
    /// What was left after each of the last changes, in a ring.
    before: Vec<u64>,
    at: usize,
    stale: u32,
}

impl Search {
    /// Whether there are so few pieces that their order is worth changing.
    pub(super) fn can_shuffle(&self) -> bool {
        let pieces: u64 = self.counts.iter().map(|count| u64::from(*count)).sum();
        (2..=PIECES).contains(&pieces)
    }

    /// Tries one order; says what that took.
    pub(super) fn shuffle(&mut self) -> u64 {
        let Some(mut now) = self.shuffled.take() else {
            return self.shuffle_anew();
        };
        let (order, manner) = self.changed(&now);
        let plan = self.placed(&order, manner, &now.begun);
        let work = plan.work;
        let left = self.left_over(&plan.missing);
        let better = left < now.least;
        now.stale = if better { 0 } else { now.stale + 1 };
        now.least = now.least.min(left);
        let known = self.cost;
        if better {
            self.take(plan.sheets, plan.missing.clone(), Vec::new());
        }
        if now.stale >= STALE || self.cost < known {
            // With less paper, another order may be as good a beginning.
            return work;
        }
        now.at = (now.at + 1) % WHILE;
        let before = now.before.get(now.at).copied().unwrap_or(0);
        if left <= now.left.max(before) {
            (now.order, now.manner) = (order, manner);
            (now.missing, now.left) = (plan.missing, left);
        }
        if let Some(before) = now.before.get_mut(now.at) {
            *before = now.left;
        }
        self.shuffled = Some(now);
        work
    }

    /// Begins with the best of some orders.
    fn shuffle_anew(&mut self) -> u64 {
        let mut work = 0;
        let mut best: Option<Shuffle> = None;
        for _ in 0..STARTS {
            let manner = Manner::any(&mut self.dice);
            let (grounds, counts) = (&self.grounds, &self.counts);
            let begun = preferred(grounds, manner, &mut self.dice);
            let groups = order(grounds, counts, &self.weights, manner, &mut self.dice);
            let alone = |(piece, count)| (0..count).map(move |_| piece);
            let order: Vec<usize> = groups.into_iter().flat_map(alone).collect();
            let plan = self.placed(&order, manner, &begun);
            work += plan.work;
            let left = self.left_over(&plan.missing);
            if best.as_ref().is_none_or(|best| left < best.left) {
                best = Some(Shuffle {
                    order,
                    manner,
                    begun,
                    missing: plan.missing.clone(),
                    left,
                    least: left,
                    before: vec![left; WHILE],
                    at: 0,
                    stale: 0,
                });
                self.take(plan.sheets, plan.missing, Vec::new());
            }
        }
        self.shuffled = best.map(Box::new);
        work
    }

    /// Pieces put in this order on what a better plan may take.
    fn placed(&self, order: &[usize], manner: Manner, begun: &[usize]) -> Quick {
        let lacks = self.best.missing.iter().any(|missing| *missing > 0);
        let paper = Paper {
            grounds: &self.grounds,
            begun,
            supply: &self.supply,
            most: if lacks { u64::MAX } else { self.cost - 1 },
        };
        let order = order.iter().map(|piece| (*piece, 1));
        in_order(&paper, self.counts.len(), order, manner)
    }

    fn left_over(&self, missing: &[u32]) -> u64 {
        let each = missing.iter().zip(&self.areas);
        let areas = each.map(|(missing, area)| u64::from(*missing).saturating_mul(*area));
        areas.fold(0, u64::saturating_add)
    }

    /// The order with something changed.
    fn changed(&mut self, now: &Shuffle) -> (Vec<usize>, Manner) {
        let mut order = now.order.clone();
        let count = order.len();
        let dice = &mut self.dice;
        match dice.below(16) {
            0 => return (order, now.manner.changed(dice)),
            1..=4 => {
                // Something that found no place comes sooner.
                let lacks = |piece: usize| now.missing.get(piece).is_some_and(|it| *it > 0);
                let each = order.iter().enumerate();
                let lacking: Vec<usize> = each
                    .filter(|(_, piece)| lacks(**piece))
                    .map(|(at, _)| at)
                    .collect();
                if let Some(from) = lacking.get(dice.below(lacking.len())) {
                    let piece = order.remove(*from);
                    order.insert(dice.below(from + 1), piece);
                }
            }
            5..=10 => order.swap(dice.below(count), dice.below(count)),
            _ => {
                let piece = order.remove(dice.below(count));
                order.insert(dice.below(count), piece);
            }
        }
        (order, now.manner)
    }
}
