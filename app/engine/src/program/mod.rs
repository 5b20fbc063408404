//! Programs in whole numbers: columns as near as possible to their targets
//! while sums of them stay in given ranges.
//!
//! The relaxation to fractions is solved exactly ([`tableau`]); where a column
//! then falls between two whole numbers, both sides are tried, the cheaper
//! first, and what cannot become cheaper than the best found is left out
//! (branch and bound, Land and Doig 1960).

mod lattice;
mod row;
mod tableau;

use std::collections::BTreeSet;

use lattice::{Equation, contradiction};
pub(crate) use row::Overflow;
pub(crate) use tableau::Column;
use tableau::{Bound, Relaxed, Tableau};

/// How many branches are looked into, and how many rounds of the simplex method
/// they may take together, before the best found so far has to do.
const BRANCHES: u32 = 4_000;
const ROUNDS: u32 = 60_000;

/// A sum of columns, in ascending order and none zero times, within a range.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Range {
    /// How many times each column.
    pub(crate) terms: Vec<(usize, i64)>,
    /// The least the sum may be.
    pub(crate) least: Option<i64>,
    /// The most the sum may be.
    pub(crate) most: Option<i64>,
}

/// What is wanted.
#[derive(Debug, Clone, Default)]
pub(crate) struct Program {
    /// The whole numbers looked for.
    pub(crate) columns: Vec<Column>,
    /// What holds between them.
    pub(crate) ranges: Vec<Range>,
}

/// A part of a program that others clash with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Part {
    /// The least a column may be.
    Least(usize),
    /// The most a column may be.
    Most(usize),
    /// A range.
    Range(usize),
}

/// What came of a program.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Answer {
    /// The columns.
    Found {
        /// What each is.
        values: Vec<i64>,
        /// Whether nothing can cost less; otherwise the search was cut short.
        least: bool,
    },
    /// There is no answer, and these parts alone rule one out.
    Impossible(BTreeSet<Part>),
    /// The search was cut short before an answer was found.
    Unknown,
}

impl Program {
    /// The columns of least cost.
    pub(crate) fn solve(&self) -> Result<Answer, Overflow> {
        if let Some(parts) = self.crossed() {
            return Ok(Answer::Impossible(parts));
        }
        let mut tableau = Tableau::new(self.columns.clone());
        for range in &self.ranges {
            tableau.add_row(&range.terms, (range.least, range.most))?;
        }
        let mut search = Search {
            columns: self.columns.len(),
            best: None,
            blamed: BTreeSet::new(),
            rounds: ROUNDS,
        };
        let mut pile = vec![tableau];
        let mut branches = 0;
        while let Some(tableau) = pile.pop() {
            if branches == BRANCHES || !search.explore(tableau, &mut pile)? {
                return Ok(search.answer(false));
            }
            // Most programs are solved by now.
            if branches == 0
                && !pile.is_empty()
                && let Some(parts) = self.no_whole_numbers()?
            {
                return Ok(Answer::Impossible(parts));
            }
            branches += 1;
        }
        Ok(search.answer(true))
    }

    /// Bounds of one column that leave nothing between them.
    fn crossed(&self) -> Option<BTreeSet<Part>> {
        let crossed = |least: Option<i64>, most: Option<i64>| {
            least.zip(most).is_some_and(|(least, most)| least > most)
        };
        let columns = self.columns.iter().enumerate();
        let column = columns
            .filter(|(_, column)| crossed(column.least, column.most))
            .map(|(at, _)| BTreeSet::from([Part::Least(at), Part::Most(at)]));
        let ranges = self.ranges.iter().enumerate();
        let range = ranges
            .filter(|(_, range)| crossed(range.least, range.most))
            .map(|(at, _)| BTreeSet::from([Part::Range(at)]));
        column.chain(range).next()
    }

    /// Equations that no whole numbers satisfy.
    fn no_whole_numbers(&self) -> Result<Option<BTreeSet<Part>>, Overflow> {
        let fixed = |at: usize| {
            let column = &self.columns[at];
            column.least.filter(|least| Some(*least) == column.most)
        };
        let mut equations = Vec::new();
        for (number, range) in self.ranges.iter().enumerate() {
            let Some(mut sum) = range.least.filter(|least| Some(*least) == range.most) else {
                continue;
            };
            let mut terms = std::collections::BTreeMap::new();
            for (at, times) in &range.terms {
                match fixed(*at) {
                    Some(value) => {
                        let part = times.checked_mul(value).ok_or(Overflow)?;
                        sum = sum.checked_sub(part).ok_or(Overflow)?;
                    }
                    None => {
                        terms.insert(*at, *times);
                    }
                }
            }
            equations.push(Equation {
                terms,
                sum,
                from: BTreeSet::from([number]),
            });
        }
        let Some(from) = contradiction(equations)? else {
            return Ok(None);
        };
        let columns = from.iter().flat_map(|number| &self.ranges[*number].terms);
        let bounds = columns
            .filter(|(at, _)| fixed(*at).is_some())
            .flat_map(|(at, _)| [Part::Least(*at), Part::Most(*at)]);
        let ranges = from.iter().map(|number| Part::Range(*number));
        Ok(Some(ranges.chain(bounds).collect()))
    }
}

/// A search under way.
struct Search {
    /// How many columns are to be whole; those behind them are sums.
    columns: usize,
    best: Option<(i128, Vec<i64>)>,
    blamed: BTreeSet<Part>,
    rounds: u32,
}

impl Search {
    /// Solves the relaxation of a branch and puts its two halves on the pile
    /// where it has to be divided, the nearer one last. `false` when the search
    /// has to end.
    fn explore(&mut self, mut tableau: Tableau, pile: &mut Vec<Tableau>) -> Result<bool, Overflow> {
        match tableau.optimise(&mut self.rounds)? {
            Relaxed::Unfinished => return Ok(false),
            Relaxed::Nothing(bounds) => {
                let part = |bound| match bound {
                    Bound::Least(at) if at < self.columns => Part::Least(at),
                    Bound::Most(at) if at < self.columns => Part::Most(at),
                    Bound::Least(at) | Bound::Most(at) => Part::Range(at - self.columns),
                };
                self.blamed.extend(bounds.into_iter().map(part));
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
            if column < self.columns && rest != 0 && first {
                between = Some((column, is.over.div_euclid(is.under), 2 * rest > is.under));
            }
        }
        let Some((column, floor, nearer_above)) = between else {
            let values = (0..self.columns).map(|column| {
                let is = tableau.level(column)?;
                i64::try_from(is.over / is.under).map_err(|_| Overflow)
            });
            self.best = Some((cost, values.collect::<Result<_, _>>()?));
            return Ok(true);
        };
        let floor = i64::try_from(floor).map_err(|_| Overflow)?;
        let mut above = tableau.clone();
        above.narrow(column, Some(floor + 1), None);
        tableau.narrow(column, None, Some(floor));
        pile.extend(if nearer_above {
            [tableau, above]
        } else {
            [above, tableau]
        });
        Ok(true)
    }

    /// What has been found, once all branches have been looked into or not.
    fn answer(self, all: bool) -> Answer {
        match self.best {
            Some((_, values)) => Answer::Found { values, least: all },
            None if all => Answer::Impossible(self.blamed),
            None => Answer::Unknown,
        }
    }
}
