//! How many models there are.

use super::{Solver, Undecided};
use crate::fold::bits::ones;
use crate::fold::stack::constraints::Literal;

impl Solver<'_> {
    /// How many models there are; those of open pairs that no constraint ties
    /// together are counted apart.
    pub(in super::super) fn count(&mut self) -> Result<u64, Undecided> {
        if !self.propagate_units() {
            return Ok(0);
        }
        let mut count: u64 = 1;
        for group in self.groups() {
            count = count.saturating_mul(self.count_among(&group)?);
        }
        Ok(count)
    }

    /// Counts the models of some pairs that nothing ties to the other open ones,
    /// by plain backtracking, as a count has to come to each.
    fn count_among(&mut self, pairs: &[usize]) -> Result<u64, Undecided> {
        let mut count = 0;
        // For each decision whether its negation was decided before.
        let mut turned: Vec<bool> = Vec::new();
        loop {
            let conflict = self.propagate().is_some();
            if self.budget == 0 {
                return Err(Undecided);
            }
            if !conflict {
                if let Some(pair) = pairs.iter().find(|pair| self.values[**pair].is_none()) {
                    turned.push(false);
                    self.decide(Literal {
                        pair: *pair,
                        first: true,
                    });
                    continue;
                }
                count += 1;
            }
            loop {
                let (Some(both), Some(at)) = (turned.pop(), self.decisions.last()) else {
                    return Ok(count);
                };
                let decided = self.trail[*at];
                self.backjump(self.decisions.len() - 1);
                if !both {
                    turned.push(true);
                    self.decide(decided.negated());
                    break;
                }
            }
        }
    }

    /// The open pairs by components: groups that no constraint ties together.
    fn groups(&self) -> Vec<Vec<usize>> {
        let constraints = self.constraints;
        let mut leader: Vec<usize> = (0..constraints.pairs.len()).collect();
        let open = |pair: usize| self.values[pair].is_none();
        for parity in &constraints.parities {
            tie(
                &mut leader,
                parity.pairs.iter().copied().filter(|p| open(*p)),
            );
        }
        for (pair, (a, b)) in constraints.pairs.iter().enumerate() {
            let words = constraints.thirds(pair).iter().enumerate();
            for third in words.flat_map(|(at, word)| ones(at, *word)) {
                let sides = [
                    constraints.literal(*a, third),
                    constraints.literal(*b, third),
                ];
                let tied = sides.into_iter().flatten().map(|literal| literal.pair);
                tie(
                    &mut leader,
                    std::iter::once(pair).chain(tied).filter(|p| open(*p)),
                );
            }
        }
        let mut groups: Vec<Vec<usize>> = vec![Vec::new(); constraints.pairs.len()];
        for pair in self.asked.iter().filter(|pair| open(**pair)) {
            groups[found(&mut leader, *pair)].push(*pair);
        }
        groups.retain(|group| !group.is_empty());
        groups
    }
}

/// Puts pairs into one group.
fn tie(leader: &mut [usize], pairs: impl Iterator<Item = usize>) {
    let mut group = None;
    for pair in pairs {
        let mine = found(leader, pair);
        match group {
            None => group = Some(mine),
            Some(theirs) => leader[mine] = theirs,
        }
    }
}

/// The pair that stands for the group of one.
fn found(leader: &mut [usize], of: usize) -> usize {
    let mut pair = of;
    while leader[pair] != pair {
        leader[pair] = leader[leader[pair]];
        pair = leader[pair];
    }
    pair
}
