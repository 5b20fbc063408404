//! Conflict analysis: what clause a conflict teaches.

use super::{Conflict, Reason, Solver};
use crate::fold::stack::constraints::Literal;
use crate::sorted::InOrder as _;

impl Solver<'_> {
    /// The true literals from which one was propagated.
    pub(super) fn antecedents(&self, literal: Literal, reason: Reason, into: &mut Vec<Literal>) {
        match reason {
            Reason::Unforced => {}
            Reason::Parity(parity) => {
                let others = self.constraints.parities[parity].pairs.iter();
                let others = others.filter(|pair| **pair != literal.pair);
                into.extend(others.filter_map(|pair| {
                    let first = self.values[*pair]?;
                    Some(Literal { pair: *pair, first })
                }));
            }
            Reason::Transitivity(third) => {
                let (front, back) = self.constraints.facets_of(literal);
                into.extend(self.constraints.literal(front, third));
                into.extend(self.constraints.literal(third, back));
            }
            Reason::Learned(clause) => {
                let others = self.learned[clause]
                    .iter()
                    .filter(|other| **other != literal);
                into.extend(others.map(|other| other.negated()));
            }
        }
    }

    /// Resolves a conflict back to the first unique implication point of its
    /// level, learns the clause that the point and the literals from below give,
    /// backjumps to where that clause is unit, and makes its literal true.
    pub(super) fn learn(&mut self, conflict: Conflict) {
        let level = self.decisions.len();
        let mut clause: Vec<Literal> = Vec::new();
        let mut antecedents = conflict;
        let mut open = 0;
        let mut at = self.trail.len();
        let point = loop {
            for antecedent in antecedents.drain(..) {
                let at_level = self.levels[antecedent.pair];
                if at_level > 0 && !self.seen[antecedent.pair] {
                    self.seen[antecedent.pair] = true;
                    if at_level == level {
                        open += 1;
                    } else {
                        clause.push(antecedent.negated());
                    }
                }
            }
            let next = self.trail[..at].iter().rposition(|a| self.seen[a.pair]);
            let Some(found) = next else {
                // A conflict above level 0 always rests on a decision.
                self.unsatisfiable = true;
                return;
            };
            at = found;
            let literal = self.trail[at];
            self.seen[literal.pair] = false;
            open -= 1;
            if open == 0 {
                break literal;
            }
            self.antecedents(literal, self.reasons[literal.pair], &mut antecedents);
        };
        for literal in &clause {
            self.seen[literal.pair] = false;
        }
        clause.put_in_order_by_key(|literal| std::cmp::Reverse(self.levels[literal.pair]));
        let level = clause
            .first()
            .map_or(0, |literal| self.levels[literal.pair]);
        self.backjump(level);
        let asserted = point.negated();
        let reason = if clause.is_empty() {
            Reason::Unforced
        } else {
            clause.insert(0, asserted);
            for literal in &clause[..2] {
                self.watches[literal.index()].push(self.learned.len());
            }
            self.learned.push(clause);
            Reason::Learned(self.learned.len() - 1)
        };
        self.imply(asserted, reason);
    }
}
