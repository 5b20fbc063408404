//! In how many ways everything can be answered.

use super::{Search, Undecided};
use crate::fold::bits::ones;
use crate::fold::stack::rules::Answer;

impl Search<'_> {
    /// In how many ways the pairs can be answered.
    pub(in super::super) fn count(&mut self) -> Result<u64, Undecided> {
        if !self.settle() {
            return Ok(0);
        }
        let mut count: u64 = 1;
        for group in self.groups() {
            count = count.saturating_mul(self.count_among(&group)?);
        }
        Ok(count)
    }

    /// Counts the answers to some pairs that nothing ties to the other open
    /// ones.
    fn count_among(&mut self, pairs: &[usize]) -> Result<u64, Undecided> {
        let mut count = 0;
        // For each tried answer whether its opposite was tried before.
        let mut turned: Vec<bool> = Vec::new();
        loop {
            let clash = self.follow().is_some();
            if self.steps == 0 {
                return Err(Undecided);
            }
            if !clash {
                if let Some(pair) = pairs.iter().find(|pair| self.known[**pair].is_none()) {
                    turned.push(false);
                    self.try_out(Answer {
                        pair: *pair,
                        first: true,
                    });
                    continue;
                }
                count += 1;
            }
            loop {
                let (Some(both), Some(at)) = (turned.pop(), self.tries.last()) else {
                    return Ok(count);
                };
                let tried = self.trail[*at];
                self.back_to(self.tries.len() - 1);
                if !both {
                    turned.push(true);
                    self.try_out(tried.opposite());
                    break;
                }
            }
        }
    }

    /// The open pairs, parted into groups that no rule ties together.
    fn groups(&self) -> Vec<Vec<usize>> {
        let rules = self.rules;
        let mut leader: Vec<usize> = (0..rules.pairs.len()).collect();
        let open = |pair: usize| self.known[pair].is_none();
        for rule in &rules.parities {
            tie(&mut leader, rule.pairs.iter().copied().filter(|p| open(*p)));
        }
        for (pair, (a, b)) in rules.pairs.iter().enumerate() {
            let words = rules.thirds(pair).iter().enumerate();
            for third in words.flat_map(|(at, word)| ones(at, *word)) {
                let sides = [rules.answer(*a, third), rules.answer(*b, third)];
                let tied = sides.into_iter().flatten().map(|answer| answer.pair);
                tie(
                    &mut leader,
                    std::iter::once(pair).chain(tied).filter(|p| open(*p)),
                );
            }
        }
        let mut groups: Vec<Vec<usize>> = vec![Vec::new(); rules.pairs.len()];
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
