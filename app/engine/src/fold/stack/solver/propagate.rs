//! Unit propagation: what literals imply.

use super::{Conflict, Reason, Solver};
use crate::fold::bits::ones;
use crate::fold::stack::constraints::Literal;

impl Solver<'_> {
    /// Makes true all that is implied; a conflict where that cannot be. It stops
    /// where the budget is spent.
    pub(super) fn propagate(&mut self) -> Option<Conflict> {
        while let Some(literal) = self.trail.get(self.propagated).copied() {
            if self.budget == 0 {
                return None;
            }
            self.budget -= 1;
            self.propagated += 1;
            let conflict = self
                .propagate_transitivity(literal)
                .or_else(|| self.propagate_parities(literal))
                .or_else(|| self.propagate_learned(literal));
            if conflict.is_some() {
                return conflict;
            }
        }
        None
    }

    /// What is behind the one behind is behind the one in front.
    fn propagate_transitivity(&mut self, literal: Literal) -> Option<Conflict> {
        let constraints = self.constraints;
        let (front, back) = constraints.facets_of(literal);
        for (at, thirds) in constraints.thirds(literal.pair).iter().enumerate() {
            let farther = thirds & self.behind[back].words()[at] & !self.behind[front].words()[at];
            for third in ones(at, farther) {
                let follows = constraints.literal(front, third)?;
                let conflict = self.imply(follows, Reason::Transitivity(back));
                if conflict.is_some() {
                    return conflict;
                }
            }
            let nearer = thirds & self.before[front].words()[at] & !self.before[back].words()[at];
            for third in ones(at, nearer) {
                let follows = constraints.literal(third, back)?;
                let conflict = self.imply(follows, Reason::Transitivity(front));
                if conflict.is_some() {
                    return conflict;
                }
            }
        }
        None
    }

    /// Where all but one pair of a parity have a value, it implies the last.
    fn propagate_parities(&mut self, literal: Literal) -> Option<Conflict> {
        let constraints = self.constraints;
        for at in &constraints.parities_of[literal.pair] {
            let parity = &constraints.parities[*at];
            let mut odd = parity.odd;
            let mut open = None;
            let mut several = false;
            for pair in &parity.pairs {
                match self.values[*pair] {
                    Some(first) => odd ^= first,
                    None => several |= open.replace(*pair).is_some(),
                }
            }
            // Where none is open, the literal at hand has to be as the others ask.
            let pair = open.unwrap_or(literal.pair);
            let first = if open.is_some() {
                odd
            } else {
                odd ^ literal.first
            };
            if !several {
                let conflict = self.imply(Literal { pair, first }, Reason::Parity(*at));
                if conflict.is_some() {
                    return conflict;
                }
            }
        }
        None
    }

    /// Where a watched literal becomes false, the clause watches another one, or
    /// implies the one that is left.
    fn propagate_learned(&mut self, literal: Literal) -> Option<Conflict> {
        let now_false = literal.negated();
        let mut watches = std::mem::take(&mut self.watches[now_false.index()]);
        let mut conflict = None;
        let mut at = 0;
        while let Some(clause) = watches.get(at).copied() {
            let literals = &mut self.learned[clause];
            if literals[0] == now_false {
                literals.swap(0, 1);
            }
            let other = literals[0];
            let known = &self.values;
            let value = |literal: &Literal| known[literal.pair].map(|first| first == literal.first);
            if value(&other) != Some(true) {
                let fresh = (2..literals.len()).find(|at| value(&literals[*at]) != Some(false));
                if let Some(fresh) = fresh {
                    literals.swap(1, fresh);
                    self.watches[literals[1].index()].push(clause);
                    watches.swap_remove(at);
                    continue;
                }
                conflict = self.imply(other, Reason::Learned(clause));
                if conflict.is_some() {
                    break;
                }
            }
            at += 1;
        }
        self.watches[now_false.index()] = watches;
        conflict
    }
}
