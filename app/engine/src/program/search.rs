//! Branch and bound.

use std::collections::BTreeSet;
use std::ops::Range;

use super::row::Overflow;
use super::tableau::{Bound, Relaxed, Tableau};

/// How many rounds of the simplex method one search may take.
const ROUNDS: u32 = 60_000;

/// A search for the columns of least cost.
pub(super) struct Search {
    /// How many columns are looked for.
    count: usize,
    /// The columns that are made whole. The others are then whole too.
    pub(super) whole: Range<usize>,
    /// The least cost found, and the columns.
    pub(super) best: Option<(i128, Vec<i64>)>,
    /// The bounds that ended branches without an answer.
    pub(super) blamed: BTreeSet<Bound>,
    rounds: u32,
    ended: bool,
}

impl Search {
    pub(super) fn new(count: usize, whole: Range<usize>) -> Self {
        Self {
            count,
            whole,
            best: None,
            blamed: BTreeSet::new(),
            rounds: ROUNDS,
            ended: false,
        }
    }

    /// Whether everything has been looked into.
    pub(super) fn ended(&self) -> bool {
        self.ended
    }

    /// Looks into so many branches at most.
    pub(super) fn run(&mut self, tableau: Tableau, branches: u32) -> Result<(), Overflow> {
        let mut pile = vec![tableau];
        for _ in 0..branches {
            let Some(tableau) = pile.pop() else {
                break;
            };
            if !self.explore(tableau, &mut pile)? {
                return Ok(());
            }
        }
        self.ended = pile.is_empty();
        Ok(())
    }

    /// Solves the relaxation of a branch and puts its two halves on the pile
    /// where it has to be divided, the nearer one last. `false` when the search
    /// has to end.
    fn explore(&mut self, mut tableau: Tableau, pile: &mut Vec<Tableau>) -> Result<bool, Overflow> {
        match tableau.optimise(&mut self.rounds)? {
            Relaxed::Unfinished => return Ok(false),
            Relaxed::Nothing(bounds) => {
                self.blamed.extend(bounds);
                return Ok(true);
            }
            Relaxed::Least => {}
        }
        let cost = tableau.cost()?;
        if self.best.as_ref().is_some_and(|(best, _)| cost >= *best) {
            return Ok(true);
        }
        // The first column between two whole numbers.
        let mut between: Option<(usize, i128, bool)> = None;
        for moved in tableau.moved() {
            let (column, is) = moved?;
            let rest = is.over.rem_euclid(is.under);
            let first = between.is_none_or(|(other, ..)| column < other);
            if self.whole.contains(&column) && rest != 0 && first {
                between = Some((column, is.over.div_euclid(is.under), 2 * rest > is.under));
            }
        }
        let Some((column, floor, nearer_above)) = between else {
            let values = (0..self.count).map(|column| {
                let is = tableau.level(column)?;
                i64::try_from(is.over / is.under).map_err(|_| Overflow)
            });
            self.best = Some((cost, values.collect::<Result<_, _>>()?));
            return Ok(true);
        };
        let floor = i64::try_from(floor).map_err(|_| Overflow)?;
        let mut above = tableau.clone();
        above.narrow(column, Some(floor.saturating_add(1)), None);
        tableau.narrow(column, None, Some(floor));
        pile.extend(if nearer_above {
            [tableau, above]
        } else {
            [above, tableau]
        });
        Ok(true)
    }
}
