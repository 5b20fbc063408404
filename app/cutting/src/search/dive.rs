//! Fillings put together: what the program uses most is decided on, and the
//! program for what is left is solved again.

use super::pricing::Pricing;
use super::program::Program;
use super::{Search, Stage};
use crate::greedy::{MANNERS, Manner, quick};
use crate::pool::Filling;

/// How thoroughly, and how often, fillings are looked for before each decision,
/// in one dive after the other.
const CARE: [(usize, u32); 4] = [(0, 3), (0, 3), (0, 6), (1, 8)];

/// Fillings known before that a dive considers, those nearest to paying first.
const CONSIDERED: usize = 500;

#[derive(Debug)]
pub(super) struct Dive {
    pub(super) left: Vec<u32>,
    pub(super) supply: Vec<Option<u32>>,
    pub(super) chosen: Vec<(usize, u32)>,
    pub(super) cost: u64,
    pub(super) rounds: u32,
    pub(super) number: u32,
    pub(super) program: Program,
    pub(super) known: usize,
    /// Whether each filling known before is considered.
    pub(super) considered: Vec<bool>,
    pub(super) pricing: Option<Box<Pricing>>,
}

/// How far a level or a cost of the program may be from a whole number for all
/// that: rows are moved by less.
const BLUR: f64 = 0.01;

impl Search {
    /// A new dive from the whole job.
    pub(super) fn dive(&mut self) -> Stage {
        Stage::Dive(Box::new(Dive {
            left: self.counts.clone(),
            supply: self.supply.clone(),
            chosen: Vec::new(),
            cost: 0,
            rounds: 0,
            number: self.dives,
            program: Program::new(&self.counts, &self.supply, self.missing_cost),
            known: 0,
            considered: self.considered(),
            pricing: None,
        }))
    }

    /// Which fillings pay best at the prices of the whole program, and those of
    /// the best plan.
    fn considered(&self) -> Vec<bool> {
        let pays = |filling: &Filling| {
            let worth = filling
                .gives
                .iter()
                .map(|(piece, count)| self.program.price(*piece) * f64::from(*count));
            let ground = self.grounds.get(filling.ground);
            let cost = ground.map_or(0.0, |ground| f64::from(ground.cost));
            cost - self.program.limit(filling.ground) - worth.sum::<f64>()
        };
        let mut lacks: Vec<(f64, usize)> = self.pool.iter().map(pays).zip(0..).collect();
        lacks.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let mut considered = vec![false; lacks.len()];
        let nearest = lacks.iter().take(CONSIDERED).map(|(_, number)| number);
        for number in nearest.chain(self.best.sheets.iter().map(|(number, _)| number)) {
            if let Some(flag) = considered.get_mut(*number) {
                *flag = true;
            }
        }
        considered
    }

    /// One step of a dive; says what it took and whether it has ended.
    pub(super) fn dive_on(&mut self, dive: &mut Dive) -> (u64, bool) {
        let turn = usize::try_from(dive.number).unwrap_or(0) % CARE.len();
        let (care, rounds) = CARE.get(turn).copied().unwrap_or(CARE[0]);
        if let Some(mut pricing) = dive.pricing.take() {
            let work = self.price(&mut pricing);
            if pricing.ground < self.grounds.len() {
                dive.pricing = Some(pricing);
                return (work, false);
            }
            if !pricing.found && pricing.care < care {
                pricing.care += 1;
                pricing.ground = 0;
                dive.pricing = Some(pricing);
                return (work, false);
            }
            if pricing.found && dive.rounds < rounds {
                dive.rounds += 1;
            } else {
                dive.rounds = u32::MAX;
            }
        }
        for (number, filling) in self.pool.iter().enumerate().skip(dive.known) {
            if dive.considered.get(number) == Some(&false) {
                continue;
            }
            let wanted = |piece: &usize| dive.left.get(*piece).is_some_and(|left| *left > 0);
            let useful = filling.gives.iter().any(|(piece, _)| wanted(piece));
            if !useful || dive.supply.get(filling.ground) == Some(&Some(0)) {
                continue;
            }
            if let Some(ground) = self.grounds.get(filling.ground) {
                dive.program.add(number, filling, ground);
            }
        }
        dive.known = self.pool.len();
        let mut work = dive.program.simplex.solve();
        #[expect(
            clippy::cast_precision_loss,
            reason = "a dive is only worth less for it"
        )]
        let hopeless =
            dive.cost as f64 + dive.program.simplex.cost() > self.cost as f64 - 1.0 + BLUR;
        if dive.rounds != u32::MAX {
            let pricing = self.pricing(&dive.program, &dive.left, &dive.supply);
            dive.pricing = Some(Box::new(pricing));
            return (work, false);
        }
        if hopeless {
            return (work, true);
        }
        dive.rounds = 0;
        work += 1;
        let decided = self.decide(dive);
        if !decided || dive.left.iter().all(|left| *left == 0) {
            self.take(Vec::new(), dive.left.clone(), dive.chosen.clone());
            return (work, true);
        }
        // What is left may be done quickly.
        for _ in 0..4 {
            let manner = Manner::number(MANNERS + self.manners, &mut self.dice);
            let plan = quick(
                &self.grounds,
                &dive.left,
                &self.weights,
                &dive.supply,
                manner,
                &mut self.dice,
            );
            work += plan.work;
            self.take(plan.sheets, plan.missing, dive.chosen.clone());
        }
        let wanted = dive.left.iter().filter(|left| **left > 0).count();
        if wanted * 4 > dive.program.pieces() * 3 {
            dive.program.ask(&dive.left, &dive.supply);
        } else {
            dive.program = Program::new(&dive.left, &dive.supply, self.missing_cost);
            dive.known = 0;
        }
        (work, false)
    }

    /// Decides on what the program uses most; `false` where it uses nothing, and
    /// what is left is missing. Later dives decide otherwise now and then.
    fn decide(&mut self, dive: &mut Dive) -> bool {
        let mut used: Vec<(usize, f64)> = dive.program.used();
        used.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        let later = dive.number > 0;
        let whole = |(_, level): &(usize, f64)| *level >= 1.0 - BLUR;
        let mut picked: Vec<(usize, u32)> = Vec::new();
        for (number, level) in used.iter().filter(|used| whole(used)) {
            if picked.is_empty() || !later || self.dice.below(4) > 0 {
                picked.push((*number, floor(level + BLUR)));
            }
        }
        if picked.is_empty() {
            let choice = if later {
                self.dice.below(3.min(used.len()))
            } else {
                0
            };
            picked.extend(used.get(choice).map(|(number, _)| (*number, 1)));
        }
        for (number, times) in &picked {
            for _ in 0..*times {
                self.choose(dive, *number);
            }
        }
        !picked.is_empty()
    }

    /// Cuts one sheet in a dive.
    fn choose(&self, dive: &mut Dive, number: usize) {
        let Some(filling) = self.pool.get(number) else {
            return;
        };
        if let Some(Some(left)) = dive.supply.get_mut(filling.ground) {
            if *left == 0 {
                return;
            }
            *left -= 1;
        }
        for (piece, count) in &filling.gives {
            if let Some(left) = dive.left.get_mut(*piece) {
                *left = left.saturating_sub(*count);
            }
        }
        dive.cost += self
            .grounds
            .get(filling.ground)
            .map_or(0, |ground| u64::from(ground.cost));
        match dive.chosen.iter_mut().find(|(at, _)| *at == number) {
            Some((_, times)) => *times += 1,
            None => dive.chosen.push((number, 1)),
        }
    }
}

/// A level in whole sheets.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "levels are small and no less than nothing"
)]
fn floor(level: f64) -> u32 {
    level.floor() as u32
}
