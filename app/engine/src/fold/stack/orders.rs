//! What can be asked about the order of a stack.

use std::collections::BTreeSet;

use super::order::Order;
use super::rules::{Answer, Rules};
use super::search::Search;
use super::{Conflict, Stack, explain};

pub use super::search::Undecided;

/// A stack of facets, and every order its paper allows.
#[derive(Debug, Clone)]
pub struct Orders {
    /// `None` where the stack is too intricate to tell.
    rules: Option<Rules>,
    /// What of an order is known beforehand.
    known: Vec<Answer>,
}

/// Which differences between orders matter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// What shows of the closed card from the front and from the back.
    Outside,
    /// Every overlap.
    Everything,
}

impl Orders {
    /// Every order of a stack.
    pub fn stacked(stack: &Stack) -> Self {
        Self {
            rules: Rules::of(stack),
            known: Vec::new(),
        }
    }

    /// The same where an order is known: each first facet in front of its
    /// second. What is asked is then found from there, and sooner.
    #[must_use]
    pub fn knowing(mut self, order: impl Iterator<Item = (usize, usize)>) -> Self {
        if let Some(rules) = &self.rules {
            let known = order.filter_map(|(front, back)| rules.answer(front, back));
            self.known = known.collect();
        }
        self
    }

    /// The sets of two or more facets that lie over one place, each once.
    pub fn piles(&self) -> Vec<Vec<usize>> {
        let piles = self.rules.iter().flat_map(|rules| &rules.piles);
        piles.map(|pile| pile.iter().collect()).collect()
    }

    /// How many orders there are; the highest number where there are more.
    pub fn count(&self) -> Result<u64, Undecided> {
        Search::new(self.rules()?).count()
    }

    /// An order in which each of the `wanted` has its first facet in front of
    /// its second; `None` where there is none. Wanted facets that do not
    /// overlap ask for nothing.
    pub fn first(&self, wanted: &[(usize, usize)]) -> Result<Option<Order>, Undecided> {
        let rules = self.rules()?;
        let mut search = Search::new(rules);
        let found = search.solve(&answers(rules, wanted))?;
        Ok(found.then(|| Order {
            behind: search.all_behind().to_vec(),
        }))
    }

    /// Which of the `preferred` can be kept, each with its first facet in front
    /// of its second, beside all of the `wanted` and those preferred before it.
    /// Those whose facets do not overlap are left out.
    pub fn preferring(
        &self,
        wanted: &[(usize, usize)],
        preferred: &[(usize, usize)],
    ) -> Result<Vec<(usize, usize)>, Undecided> {
        let rules = self.rules()?;
        let asked = preferred.iter().filter_map(|way| {
            let answer = rules.answer(way.0, way.1)?;
            Some((*way, answer))
        });
        let asked: Vec<_> = asked.collect();
        let mut kept = Vec::new();
        if asked.is_empty() {
            return Ok(kept);
        }
        let mut search = Search::new(rules);
        for answer in answers(rules, wanted) {
            search.give(answer);
        }
        // Most can all be kept, and the first order found then tells so.
        for (_, answer) in asked.iter().rev() {
            search.lean(*answer);
        }
        if !search.solve(&[])? {
            return Ok(kept);
        }
        let mut order = search.answers();
        let mut given = 0;
        for (way, answer) in &asked {
            if order[answer.pair] != Some(answer.first) {
                let so_far: Vec<_> = kept[given..].to_vec();
                for answer in answers(rules, &so_far) {
                    search.give(answer);
                }
                given = kept.len();
                search.renew();
                if !search.solve(&[*answer])? {
                    continue;
                }
                order = search.answers();
            }
            kept.push(*way);
        }
        Ok(kept)
    }

    /// Pairs of facets that can lie either way round, whatever else may then
    /// have to change: the maker's choices. A search that takes too long finds
    /// fewer.
    pub fn choices(&self) -> Vec<(usize, usize)> {
        let Some(rules) = &self.rules else {
            return Vec::new();
        };
        let mut search = Search::new(rules);
        if search.solve(&[]) != Ok(true) {
            return Vec::new();
        }
        let open = either_way(&mut search, (0..rules.pairs.len()).collect());
        open.iter().map(|pair| rules.pairs[*pair]).collect()
    }

    /// What to ask the maker next, once each of the `answered` has its first
    /// facet in front of its second: the two facets whose order settles most.
    /// `None` when the orders that are left differ in nothing that matters, or
    /// when none is left.
    ///
    /// Every answer to a question can be kept; asking again after each one
    /// comes to an end.
    pub fn question(
        &self,
        answered: &[(usize, usize)],
        about: About,
    ) -> Result<Option<(usize, usize)>, Undecided> {
        let rules = self.rules()?;
        let mut search = Search::new(rules);
        for answer in &self.known {
            search.lean(*answer);
        }
        for answer in answers(rules, answered) {
            search.give(answer);
        }
        if !search.solve(&[])? {
            return Ok(None);
        }
        let asked = match about {
            About::Everything => (0..rules.pairs.len()).collect(),
            About::Outside => outermost(rules, &search),
        };
        let open = either_way(&mut search, asked);
        search.settle();
        let mut best = None;
        for pair in open {
            let settled = [true, false].map(|first| search.settles(Answer { pair, first }));
            // What the worse answer settles counts first.
            let [Some(one), Some(other)] = settled else {
                continue;
            };
            let worth = (one.min(other), one.max(other));
            if best.is_none_or(|(most, _)| worth > most) {
                best = Some((worth, pair));
            }
        }
        Ok(best.map(|(_, pair)| rules.pairs[pair]))
    }

    /// Why there is no order: the fewest facets found that conflict, and the
    /// joints between them that do. `None` where there is an order.
    pub fn conflict(&self) -> Result<Option<Conflict>, Undecided> {
        explain::conflict(self.rules()?)
    }

    fn rules(&self) -> Result<&Rules, Undecided> {
        self.rules.as_ref().ok_or(Undecided)
    }
}

fn answers(rules: &Rules, wanted: &[(usize, usize)]) -> Vec<Answer> {
    let pairs = wanted.iter();
    pairs
        .filter_map(|(front, back)| rules.answer(*front, *back))
        .collect()
}

/// Pairs of the facet in front, or at the back, of a place and another one
/// there: while none of them changes, the card looks the same.
fn outermost(rules: &Rules, search: &Search<'_>) -> BTreeSet<usize> {
    let behind = search.all_behind();
    let mut pairs = BTreeSet::new();
    for pile in &rules.piles {
        let hidden = |at: usize| pile.iter().any(|over| behind[over].has(at));
        let front = pile.iter().find(|at| !hidden(*at));
        let back = pile.iter().find(|at| behind[*at].is_apart(pile));
        for end in [front, back].into_iter().flatten() {
            let others = pile.iter().filter_map(|other| rules.answer(end, other));
            pairs.extend(others.map(|answer| answer.pair));
        }
    }
    pairs
}

/// Those of some pairs that can be answered either way. One way is known.
fn either_way(search: &mut Search<'_>, mut asked: BTreeSet<usize>) -> BTreeSet<usize> {
    let mut found = BTreeSet::new();
    let one_way: Vec<Option<bool>> = search.answers();
    while let Some(pair) = asked.pop_first() {
        let Some(first) = one_way[pair] else { continue };
        let other = Answer {
            pair,
            first: !first,
        };
        if search.solve(&[other]) == Ok(true) {
            found.insert(pair);
            // This order may turn others about as well.
            let turned = |pair: &usize| {
                let known = search.holds(Answer {
                    pair: *pair,
                    first: true,
                });
                known.is_some() && known != one_way[*pair]
            };
            let (turned, left) = asked.into_iter().partition(turned);
            found.extend::<BTreeSet<usize>>(turned);
            asked = left;
        }
    }
    found
}
