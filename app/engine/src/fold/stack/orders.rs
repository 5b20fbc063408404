//! What can be asked about the order of a stack.

use std::collections::BTreeSet;

use super::constraints::{Constraints, Literal};
use super::order::Order;
use super::solver::Solver;
use super::{Core, Stack, unsat};

pub use super::solver::Undecided;

/// A stack of facets, and every order its paper allows.
#[derive(Debug, Clone)]
pub struct Orders {
    /// `None` where the stack is too intricate to tell.
    constraints: Option<Constraints>,
    /// An order known beforehand: the phases a search begins with.
    known: Vec<Literal>,
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
            constraints: Constraints::of(stack),
            known: Vec::new(),
        }
    }

    /// The same where an order is known: each first facet in front of its
    /// second. What is asked is then found from there, and sooner.
    #[must_use]
    pub fn knowing(mut self, order: impl Iterator<Item = (usize, usize)>) -> Self {
        if let Some(constraints) = &self.constraints {
            let known = order.filter_map(|(front, back)| constraints.literal(front, back));
            self.known = known.collect();
        }
        self
    }

    /// The sets of two or more facets that lie over one place, each once.
    pub fn piles(&self) -> Vec<Vec<usize>> {
        let piles = self
            .constraints
            .iter()
            .flat_map(|constraints| &constraints.piles);
        piles.map(|pile| pile.iter().collect()).collect()
    }

    /// How many orders there are; the highest number where there are more.
    pub fn count(&self) -> Result<u64, Undecided> {
        Solver::new(self.constraints()?).count()
    }

    /// An order in which each of the `wanted` has its first facet in front of
    /// its second; `None` where there is none. Wanted facets that do not
    /// overlap ask for nothing.
    pub fn first(&self, wanted: &[(usize, usize)]) -> Result<Option<Order>, Undecided> {
        let constraints = self.constraints()?;
        let mut solver = Solver::new(constraints);
        let found = solver.solve(&literals(constraints, wanted))?;
        Ok(found.then(|| Order {
            behind: solver.all_behind().to_vec(),
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
        let constraints = self.constraints()?;
        let asked = preferred.iter().filter_map(|way| {
            let literal = constraints.literal(way.0, way.1)?;
            Some((*way, literal))
        });
        let asked: Vec<_> = asked.collect();
        let mut kept = Vec::new();
        if asked.is_empty() {
            return Ok(kept);
        }
        let mut solver = Solver::new(constraints);
        for literal in literals(constraints, wanted) {
            solver.add_unit(literal);
        }
        // Most can all be kept, and the first order found then tells so.
        for (_, literal) in asked.iter().rev() {
            solver.prefer(*literal);
        }
        if !solver.solve(&[])? {
            return Ok(kept);
        }
        let mut order = solver.model();
        let mut given = 0;
        for (way, literal) in &asked {
            if order[literal.pair] != Some(literal.first) {
                let so_far: Vec<_> = kept[given..].to_vec();
                for literal in literals(constraints, &so_far) {
                    solver.add_unit(literal);
                }
                given = kept.len();
                solver.renew_budget();
                if !solver.solve(&[*literal])? {
                    continue;
                }
                order = solver.model();
            }
            kept.push(*way);
        }
        Ok(kept)
    }

    /// Pairs of facets that can lie either way round, whatever else may then
    /// have to change: the maker's choices. A search that takes too long finds
    /// fewer.
    pub fn choices(&self) -> Vec<(usize, usize)> {
        let Some(constraints) = &self.constraints else {
            return Vec::new();
        };
        let mut solver = Solver::new(constraints);
        if solver.solve(&[]) != Ok(true) {
            return Vec::new();
        }
        let open = either_way(&mut solver, (0..constraints.pairs.len()).collect());
        open.iter().map(|pair| constraints.pairs[*pair]).collect()
    }

    /// What to ask the maker next, once each of the `answered` has its first
    /// facet in front of its second: the two facets whose order implies most.
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
        let constraints = self.constraints()?;
        let mut solver = Solver::new(constraints);
        for literal in &self.known {
            solver.prefer(*literal);
        }
        for literal in literals(constraints, answered) {
            solver.add_unit(literal);
        }
        if !solver.solve(&[])? {
            return Ok(None);
        }
        let asked = match about {
            About::Everything => (0..constraints.pairs.len()).collect(),
            About::Outside => outermost(constraints, &solver),
        };
        let open = either_way(&mut solver, asked);
        solver.propagate_units();
        let mut best = None;
        for pair in open {
            let implied = [true, false].map(|first| solver.implied_by(Literal { pair, first }));
            // What the worse answer implies counts first.
            let [Some(one), Some(other)] = implied else {
                continue;
            };
            let worth = (one.min(other), one.max(other));
            if best.is_none_or(|(most, _)| worth > most) {
                best = Some((worth, pair));
            }
        }
        Ok(best.map(|(_, pair)| constraints.pairs[pair]))
    }

    /// Why there is no order: the fewest facets found that cannot lie together,
    /// and the joints between them that keep them from it. `None` where there is
    /// an order.
    pub fn core(&self) -> Result<Option<Core>, Undecided> {
        unsat::core(self.constraints()?)
    }

    fn constraints(&self) -> Result<&Constraints, Undecided> {
        self.constraints.as_ref().ok_or(Undecided)
    }
}

fn literals(constraints: &Constraints, wanted: &[(usize, usize)]) -> Vec<Literal> {
    let pairs = wanted.iter();
    pairs
        .filter_map(|(front, back)| constraints.literal(*front, *back))
        .collect()
}

/// Pairs of the facet in front, or at the back, of a place and another one
/// there: while none of them changes, the card looks the same.
fn outermost(constraints: &Constraints, solver: &Solver<'_>) -> BTreeSet<usize> {
    let behind = solver.all_behind();
    let mut pairs = BTreeSet::new();
    for pile in &constraints.piles {
        let hidden = |at: usize| pile.iter().any(|over| behind[over].has(at));
        let front = pile.iter().find(|at| !hidden(*at));
        let back = pile.iter().find(|at| behind[*at].is_apart(pile));
        for end in [front, back].into_iter().flatten() {
            let others = pile
                .iter()
                .filter_map(|other| constraints.literal(end, other));
            pairs.extend(others.map(|literal| literal.pair));
        }
    }
    pairs
}

/// Those of some pairs that can be answered either way, that is, all that are
/// not in the backbone. One model is known.
fn either_way(solver: &mut Solver<'_>, mut asked: BTreeSet<usize>) -> BTreeSet<usize> {
    let mut found = BTreeSet::new();
    let model = solver.model();
    while let Some(pair) = asked.pop_first() {
        let Some(first) = model[pair] else { continue };
        let other = Literal {
            pair,
            first: !first,
        };
        if solver.solve(&[other]) == Ok(true) {
            found.insert(pair);
            // This model may turn others about as well.
            let turned = |pair: &usize| {
                let known = solver.value(Literal {
                    pair: *pair,
                    first: true,
                });
                known.is_some() && known != model[*pair]
            };
            let (turned, left) = asked.into_iter().partition(turned);
            found.extend::<BTreeSet<usize>>(turned);
            asked = left;
        }
    }
    found
}
