//! Programs in whole numbers: columns as near as possible to their targets
//! while sums of them stay in given ranges.
//!
//! The relaxation to fractions is solved exactly ([`tableau`]); where a column
//! then falls between two whole numbers, both sides are tried, the cheaper
//! first, and what cannot become cheaper than the best found is left out
//! (branch and bound, Land and Doig 1960). Where that does not end soon, the
//! answers of the equations are searched instead of the columns ([`lattice`]).

mod lattice;
mod row;
mod search;
mod tableau;

use std::collections::{BTreeMap, BTreeSet};

use lattice::{Lattice, Solved, Sum};
pub(crate) use row::Overflow;
use search::Search;
pub(crate) use tableau::Column;
use tableau::{Bound, Tableau};

/// How many branches are looked into column by column, and how many along the
/// answers of the equations, before the best found so far has to do.
const BRANCHES: [u32; 2] = [60, 4_000];

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

impl Range {
    /// What the sum has to be, where it can be nothing else.
    fn exactly(&self) -> Option<i64> {
        self.least.filter(|_| self.least == self.most)
    }
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
        let count = self.columns.len();
        let mut tableau = Tableau::new(self.columns.clone());
        for range in &self.ranges {
            tableau.add_row(&range.terms, (range.least, range.most))?;
        }
        let mut search = Search::new(count, 0..count);
        search.run(tableau.clone(), 1)?;
        if search.ended() {
            return Ok(self.answer(search));
        }
        // Most programs are solved by now.
        let lattice = match lattice::solve(self.equations()?, count)? {
            Solved::None(from) => return Ok(Answer::Impossible(self.parts(&from))),
            Solved::Answers(lattice) => lattice,
        };
        let mut search = Search::new(count, 0..count);
        search.run(tableau, BRANCHES[0])?;
        if !search.ended() {
            search = Search::new(count, count..count + lattice.along.len());
            search.run(self.along(&lattice)?, BRANCHES[1])?;
        }
        Ok(self.answer(search))
    }

    /// The program written along the answers of its equations.
    fn along(&self, lattice: &Lattice) -> Result<Tableau, Overflow> {
        let anything = Column {
            least: None,
            target: 0,
            most: None,
            weight: 0,
        };
        let count = self.columns.len();
        let mut columns = self.columns.clone();
        columns.resize(count + lattice.along.len(), anything);
        let mut tableau = Tableau::new(columns);
        for (column, one) in lattice.one.iter().enumerate() {
            let mut terms = vec![(column, 1)];
            for (direction, along) in (count..).zip(&lattice.along) {
                if along[column] != 0 {
                    terms.push((direction, -along[column]));
                }
            }
            tableau.add_row(&terms, (Some(*one), Some(*one)))?;
        }
        for range in &self.ranges {
            if range.exactly().is_none() {
                tableau.add_row(&range.terms, (range.least, range.most))?;
            }
        }
        Ok(tableau)
    }

    fn answer(&self, search: Search) -> Answer {
        let least = search.ended();
        match search.best {
            Some((_, values)) => Answer::Found { values, least },
            None if !least => Answer::Unknown,
            None => Answer::Impossible(self.blamed(&search.whole, &search.blamed)),
        }
    }

    /// The parts that bounds come from, in either way of writing the program.
    fn blamed(&self, whole: &std::ops::Range<usize>, bounds: &BTreeSet<Bound>) -> BTreeSet<Part> {
        let count = self.columns.len();
        let ranges = 0..self.ranges.len();
        if whole.start == 0 {
            let part = |bound: &Bound| match *bound {
                Bound::Least(at) if at < count => Part::Least(at),
                Bound::Most(at) if at < count => Part::Most(at),
                Bound::Least(at) | Bound::Most(at) => Part::Range(at - count),
            };
            return bounds.iter().map(part).collect();
        }
        // The directions come from all equations together, and from the columns
        // that can be but one number.
        let (exact, others): (Vec<usize>, Vec<usize>) =
            ranges.partition(|range| self.ranges[*range].exactly().is_some());
        let mut parts = self.parts(&exact.into_iter().collect());
        for bound in bounds {
            parts.extend(match *bound {
                Bound::Least(at) if at < count => Some(Part::Least(at)),
                Bound::Most(at) if at < count => Some(Part::Most(at)),
                Bound::Least(at) | Bound::Most(at) => {
                    let other = at.checked_sub(whole.end + count);
                    other
                        .and_then(|at| others.get(at))
                        .map(|range| Part::Range(*range))
                }
            });
        }
        parts
    }

    /// Equations with the bounds of the columns in them that can be but one
    /// number.
    fn parts(&self, from: &BTreeSet<usize>) -> BTreeSet<Part> {
        let columns = from.iter().flat_map(|range| &self.ranges[*range].terms);
        let bounds = columns
            .filter(|(at, _)| self.columns[*at].exactly().is_some())
            .flat_map(|(at, _)| [Part::Least(*at), Part::Most(*at)]);
        let ranges = from.iter().map(|range| Part::Range(*range));
        ranges.chain(bounds).collect()
    }

    /// Bounds of one column, or of one range, that leave nothing between them.
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

    /// The ranges that are equations, and columns that can be but one number.
    fn equations(&self) -> Result<Vec<Sum>, Overflow> {
        let mut equations = Vec::new();
        for (number, range) in self.ranges.iter().enumerate() {
            let Some(mut total) = range.exactly() else {
                continue;
            };
            let mut terms = BTreeMap::new();
            for (at, times) in &range.terms {
                if let Some(value) = self.columns[*at].exactly() {
                    let part = times.checked_mul(value).ok_or(Overflow)?;
                    total = total.checked_sub(part).ok_or(Overflow)?;
                } else {
                    terms.insert(*at, *times);
                }
            }
            equations.push(Sum {
                terms,
                total,
                from: BTreeSet::from([number]),
            });
        }
        let fixed = self.columns.iter().enumerate();
        let fixed = fixed.filter_map(|(at, column)| {
            Some(Sum {
                terms: BTreeMap::from([(at, 1)]),
                total: column.exactly()?,
                from: BTreeSet::new(),
            })
        });
        equations.extend(fixed);
        Ok(equations)
    }
}
