//! The search for an order: conflict-driven clause learning.
//!
//! Unit propagation follows what literals imply, by transitivity, by parities
//! and by learned clauses. Where nothing is implied, a literal is decided, in
//! the phase its pair had last. A conflict is analysed back to its first unique
//! implication point, which gives a learned clause; the search backjumps to
//! where that clause is unit. Two literals of each learned clause are watched.
//!
//! The literature: Marques-Silva and Sakallah, "GRASP", 1999 (learning and
//! backjumping); Moskewicz and others, "Chaff", 2001 (watched literals); Zhang
//! and others, "Efficient conflict driven learning", 2001 (first unique
//! implication point); Eén and Sörensson, "An extensible SAT-solver", 2003
//! (assumptions); Pipatsrisawat and Darwiche, "A lightweight component caching
//! scheme", 2007 (saved phases). All from memory.
//!
//! Restarts, activity heuristics and deletion of learned clauses are left out:
//! what cards ask is small, and the order of pairs and phases decides which of
//! several orders comes out, which has to stay the same.
//!
//! Why no crate: `varisat` 0.2 and `splr` 0.17 take clauses only. A thousand
//! facets over one place would be 500,000 variables and hundreds of millions of
//! clauses for transitivity, which here is a few operations on sets of bits.
//! Neither lets a caller set phases, and the limit of `splr` is one of time, on
//! which the answer would depend. `batsat` 0.6 takes theories and explains
//! failed assumptions, and so could carry this; but transitivity, parities,
//! their reasons, the count of models and the choice of phases would stay ours,
//! its budgets for conflicts and propagations cannot be set from outside, and
//! what it would save is conflict analysis and watched literals, some hundred
//! lines.

mod count;
mod learn;
mod propagate;

use super::constraints::{Constraints, Literal, Part};
use crate::fold::bits::Bits;

/// Literals propagated before a search gives up: about a second on a phone. It
/// is counted and not timed, so that the answer is the same everywhere. (Our own
/// choice.)
pub(super) const MOST_PROPAGATIONS: u64 = 4_000_000;

/// The search gave up before it knew.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Undecided;

/// Why a literal is true: what it was propagated from.
#[derive(Debug, Clone, Copy)]
enum Reason {
    /// Nothing: it is a unit, an assumption or a decision.
    Unforced,
    /// The other pairs of this parity.
    Parity(usize),
    /// This facet, which lies between the two.
    Transitivity(usize),
    /// The other literals of this learned clause, all false.
    Learned(usize),
}

/// Literals that are true and cannot all be.
type Conflict = Vec<Literal>;

/// A search while it is under way.
pub(super) struct Solver<'a> {
    constraints: &'a Constraints,
    /// Pairs that are asked about.
    asked: Vec<usize>,
    /// For each pair whether its first facet is in front; `None` while it is
    /// open.
    values: Vec<Option<bool>>,
    /// For each facet those known to lie behind it, and those in front.
    behind: Vec<Bits>,
    before: Vec<Bits>,
    /// The true literals in the order they became so, and how many of them are
    /// propagated.
    trail: Vec<Literal>,
    propagated: usize,
    /// For each decision the length of the trail before it.
    decisions: Vec<usize>,
    /// For each pair its decision level, and why its literal is true.
    levels: Vec<usize>,
    reasons: Vec<Reason>,
    /// Learned clauses: of each one literal is true at least. The first two are
    /// watched.
    learned: Vec<Vec<Literal>>,
    /// For each literal the learned clauses that watch it.
    watches: Vec<Vec<usize>>,
    /// Saved phases: the value each pair had last, to be decided first.
    phases: Vec<bool>,
    /// No asked pair before this index is open.
    next_pick: usize,
    /// For analysing conflicts: pairs seen.
    seen: Vec<bool>,
    /// There is a conflict before any decision.
    unsatisfiable: bool,
    /// Literals that may still be propagated.
    pub(super) budget: u64,
}

impl<'a> Solver<'a> {
    /// Asks about every pair.
    pub(super) fn new(constraints: &'a Constraints) -> Self {
        Self::asking(constraints, (0..constraints.pairs.len()).collect())
    }

    /// Asks only about pairs within a part, whose constraints are given.
    pub(super) fn within(constraints: &'a Constraints, part: &Part) -> Self {
        let pairs = 0..constraints.pairs.len();
        Self::asking(
            constraints,
            pairs
                .filter(|pair| constraints.is_in(*pair, part))
                .collect(),
        )
    }

    fn asking(constraints: &'a Constraints, asked: Vec<usize>) -> Self {
        let pairs = constraints.pairs.len();
        let mut solver = Self {
            constraints,
            asked,
            values: vec![None; pairs],
            behind: vec![Bits::below(constraints.facets); constraints.facets],
            before: vec![Bits::below(constraints.facets); constraints.facets],
            trail: Vec::with_capacity(pairs),
            propagated: 0,
            decisions: Vec::new(),
            levels: vec![0; pairs],
            reasons: vec![Reason::Unforced; pairs],
            learned: Vec::new(),
            watches: vec![Vec::new(); pairs * 2],
            phases: vec![true; pairs],
            next_pick: 0,
            seen: vec![false; pairs],
            unsatisfiable: false,
            budget: MOST_PROPAGATIONS,
        };
        for unit in constraints.units() {
            solver.add_unit(unit);
        }
        solver
    }

    /// Saves a phase.
    pub(super) fn prefer(&mut self, literal: Literal) {
        self.phases[literal.pair] = literal.first;
    }

    /// Lets the next search propagate as much as one may.
    pub(super) fn renew_budget(&mut self) {
        self.budget = MOST_PROPAGATIONS;
    }

    /// Makes a literal true for good.
    pub(super) fn add_unit(&mut self, literal: Literal) {
        self.backjump(0);
        self.unsatisfiable |= self.imply(literal, Reason::Unforced).is_some();
    }

    /// Propagates the units; whether there is no conflict.
    pub(super) fn propagate_units(&mut self) -> bool {
        self.backjump(0);
        self.unsatisfiable |= self.propagate().is_some();
        !self.unsatisfiable
    }

    /// How many literals one implies by propagation, itself counted; `None` where
    /// it leads to a conflict.
    pub(super) fn implied_by(&mut self, literal: Literal) -> Option<usize> {
        let before = self.trail.len();
        self.decide(literal);
        let conflict = self.propagate();
        let implied = self.trail.len() - before;
        self.backjump(0);
        conflict.is_none().then_some(implied)
    }

    /// Whether there is a model in which these assumptions are true; it can then
    /// be read.
    pub(super) fn solve(&mut self, assumptions: &[Literal]) -> Result<bool, Undecided> {
        self.backjump(0);
        while !self.unsatisfiable {
            if let Some(conflict) = self.propagate() {
                if self.decisions.is_empty() {
                    self.unsatisfiable = true;
                } else {
                    self.learn(conflict);
                }
            } else if self.budget == 0 {
                return Err(Undecided);
            } else if let Some(literal) = assumptions.get(self.decisions.len()) {
                match self.value(*literal) {
                    Some(true) => self.decisions.push(self.trail.len()),
                    Some(false) => return Ok(false),
                    None => self.decide(*literal),
                }
            } else if let Some(pair) = self.pick() {
                let first = self.phases[pair];
                self.decide(Literal { pair, first });
            } else {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// Whether a literal is true; `None` while its pair is open.
    pub(super) fn value(&self, literal: Literal) -> Option<bool> {
        self.values[literal.pair].map(|first| first == literal.first)
    }

    /// The values as they are: a model after a search that found one.
    pub(super) fn model(&self) -> Vec<Option<bool>> {
        self.values.clone()
    }

    /// For each facet those behind it.
    pub(super) fn all_behind(&self) -> &[Bits] {
        &self.behind
    }

    /// The first pair asked about that is open.
    fn pick(&mut self) -> Option<usize> {
        let open = |pair: &usize| self.values[*pair].is_none();
        self.next_pick += self.asked[self.next_pick..].iter().position(open)?;
        self.asked.get(self.next_pick).copied()
    }

    /// Begins a decision level.
    fn decide(&mut self, literal: Literal) {
        self.decisions.push(self.trail.len());
        // The pair is open, so there is no conflict.
        self.imply(literal, Reason::Unforced);
    }

    /// Makes a literal true; a conflict where it is false.
    fn imply(&mut self, literal: Literal, reason: Reason) -> Option<Conflict> {
        match self.value(literal) {
            Some(true) => None,
            Some(false) => {
                let mut conflict = vec![literal.negated()];
                self.antecedents(literal, reason, &mut conflict);
                Some(conflict)
            }
            None => {
                let (front, back) = self.constraints.facets_of(literal);
                self.behind[front].add(back);
                self.before[back].add(front);
                self.values[literal.pair] = Some(literal.first);
                self.levels[literal.pair] = self.decisions.len();
                self.reasons[literal.pair] = reason;
                self.trail.push(literal);
                None
            }
        }
    }

    /// Takes back all literals above a decision level, and saves their phases.
    fn backjump(&mut self, level: usize) {
        let Some(from) = self.decisions.get(level).copied() else {
            return;
        };
        for literal in self.trail.drain(from..) {
            let (front, back) = self.constraints.facets_of(literal);
            self.behind[front].drop(back);
            self.before[back].drop(front);
            self.values[literal.pair] = None;
            self.phases[literal.pair] = literal.first;
        }
        self.decisions.truncate(level);
        self.propagated = from;
        self.next_pick = 0;
    }
}
