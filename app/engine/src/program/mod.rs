//! Integer programs: columns as near as possible to their targets while sums of
//! them stay in given ranges.
//!
//! The linear relaxation is solved exactly ([`tableau`]). Where that does not
//! come to whole numbers, the program is reformulated along the lattice of the
//! answers of its equations ([`lattice`]), in which far fewer branches are
//! needed; cuts (Gomory 1960) tighten the relaxation; then branch and bound
//! (Land and Doig 1960): a column that still falls between two whole numbers is
//! tried on both sides, the cheaper first, and a node that cannot become cheaper
//! than the incumbent is cut off. What this may cost is bounded ([`Work`]).
//!
//! What comes back of a program without an answer is an infeasible subset of
//! its parts, from the rows at which the dual simplex method stopped, so that
//! the maker can be told what clashes.
//!
//! Why no crate: those we found compute in floating point and to tolerances.
//! `microlp` 0.7 (in Rust) and `good_lp` 1.15 over it or over solvers in C and
//! C++ take coefficients as `f64` and come to whole numbers within a tolerance,
//! and neither names an infeasible subset; what is written in C does not compile
//! for the browser with the app. A metre is 72,000,000 of the whole numbers here,
//! none may be off by one, and "there is no such card" has to be true.

mod branch;
mod lattice;
mod row;
mod tableau;
mod work;

use std::collections::{BTreeMap, BTreeSet};

use branch::BranchAndBound;
use lattice::{Lattice, Solved, Sum};
pub(crate) use row::Overflow;
use tableau::{Bound, Span, Tableau};
pub(crate) use work::Work;

/// A whole number between bounds, with a price for each step off its target.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Column {
    /// The least it may be.
    pub(crate) least: Option<i64>,
    /// Where it would best be, within the bounds.
    pub(crate) target: i64,
    /// The most it may be.
    pub(crate) most: Option<i64>,
    /// What a step off the target costs; never negative.
    pub(crate) weight: i64,
}

impl Column {
    /// What it has to be, where it can be nothing else.
    fn exactly(&self) -> Option<i64> {
        self.least.filter(|_| self.least == self.most)
    }
}

/// What is looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Goal {
    /// Any answer.
    Any,
    /// One of least cost.
    Least,
}

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
    /// There is no answer: these parts are an infeasible subset.
    Infeasible(BTreeSet<Part>),
    /// The search was cut short before an answer was found.
    Unknown,
}

/// What a column of a relaxation stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Step {
    /// So many steps of this column above its target.
    Up(usize),
    /// So many steps of this column below its target.
    Down(usize),
    /// So many steps along a direction in which answers of the equations lie.
    Along,
    /// The slack of this range: the sum that it bounds.
    Slack(usize),
    /// How a column follows from the directions.
    Link,
}

/// A program as its relaxation is written.
struct Written {
    tableau: Tableau,
    /// What each column of it stands for: first those that are no slacks.
    steps: Vec<Step>,
    /// How many of them are no slacks.
    whole: usize,
}

/// For each column of a program those of its relaxation that are its steps up
/// and down.
type StepColumns = Vec<[Option<usize>; 2]>;

impl Program {
    /// Columns of least cost, or any. Where an answer is known, only a cheaper
    /// one is looked for, and it is what is found where there is none.
    pub(crate) fn solve(
        &self,
        goal: Goal,
        known: Option<&[i64]>,
        work: &mut Work,
    ) -> Result<Answer, Overflow> {
        if let Some(parts) = self.crossed() {
            return Ok(Answer::Infeasible(parts));
        }
        let limit = known.map(|known| self.cost(known));
        // Most programs come to whole numbers as they stand.
        let direct = self.direct();
        if let Ok(written) = &direct {
            let mut search = BranchAndBound::new(0..written.whole, limit);
            let relaxed = search.relax(written.tableau.clone(), work);
            if relaxed.is_ok() && search.ended {
                return self.answer(search, written, known);
            }
        }
        let lattice = lattice::solve(self.equations()?, self.columns.len());
        let along = match lattice {
            Ok(Solved::None(from)) => return Ok(Answer::Infeasible(self.parts(&from))),
            Ok(Solved::Answers(lattice)) => self.along(&lattice),
            Err(Overflow) => Err(Overflow),
        };
        let mut answer = Err(Overflow);
        for written in [along, direct] {
            let Ok(written) = written else { continue };
            let mut search = BranchAndBound::new(0..written.whole, limit);
            if search.run(written.tableau.clone(), goal, work).is_ok() {
                answer = self.answer(search, &written, known);
                break;
            }
        }
        answer
    }

    /// What an answer costs.
    fn cost(&self, values: &[i64]) -> i128 {
        let columns = self.columns.iter().zip(values);
        columns
            .map(|(column, value)| {
                let off = i128::from(*value) - i128::from(column.target);
                off.abs() * i128::from(column.weight)
            })
            .sum()
    }

    fn answer(
        &self,
        search: BranchAndBound,
        written: &Written,
        known: Option<&[i64]>,
    ) -> Result<Answer, Overflow> {
        let least = search.ended;
        Ok(match (search.best, known) {
            (Some((_, levels)), _) => {
                let columns = self.columns.iter();
                let mut values: Vec<i64> = columns.map(|column| column.target).collect();
                for (step, level) in written.steps.iter().zip(levels) {
                    let (at, level) = match *step {
                        Step::Up(at) => (at, level),
                        Step::Down(at) => (at, -level),
                        Step::Along | Step::Slack(_) | Step::Link => continue,
                    };
                    values[at] = values[at].checked_add(level).ok_or(Overflow)?;
                }
                Answer::Found { values, least }
            }
            (None, Some(known)) => Answer::Found {
                values: known.to_vec(),
                least,
            },
            (None, None) if least => {
                Answer::Infeasible(self.infeasible_subset(written, &search.infeasible_bounds))
            }
            (None, None) => Answer::Unknown,
        })
    }

    /// The columns as steps up and down from their targets. A step costs the
    /// same wherever it is taken, which is what a relaxation and its cuts ask
    /// for.
    fn stepped(&self) -> (Vec<(Span, i64)>, Vec<Step>, StepColumns) {
        let (mut columns, mut steps) = (Vec::new(), Vec::new());
        let mut columns_of = Vec::with_capacity(self.columns.len());
        for (at, column) in self.columns.iter().enumerate() {
            let up = column.most.map(|most| most.saturating_sub(column.target));
            let down = column
                .least
                .map(|least| column.target.saturating_sub(least));
            columns_of.push(
                [(Step::Up(at), up), (Step::Down(at), down)].map(|(step, most)| {
                    (most != Some(0)).then(|| {
                        let span = Span {
                            least: Some(0),
                            most,
                        };
                        columns.push((span, column.weight));
                        steps.push(step);
                        steps.len() - 1
                    })
                }),
            );
        }
        (columns, steps, columns_of)
    }

    /// A sum of columns as one of their steps, and what it is without any.
    fn in_steps(
        &self,
        terms: &[(usize, i64)],
        columns_of: &StepColumns,
    ) -> Result<(Vec<(usize, i64)>, i64), Overflow> {
        let mut sum = 0_i64;
        let mut stepped = Vec::with_capacity(2 * terms.len());
        for (at, times) in terms {
            let here = times.checked_mul(self.columns[*at].target);
            sum = here
                .and_then(|here| sum.checked_add(here))
                .ok_or(Overflow)?;
            let ways = columns_of[*at].iter().zip([*times, -times]);
            stepped.extend(ways.filter_map(|(column, times)| Some(((*column)?, times))));
        }
        Ok((stepped, sum))
    }

    /// Adds the slack of a range to a relaxation.
    fn add_slack(
        &self,
        written: &mut Written,
        range: usize,
        columns_of: &StepColumns,
    ) -> Result<(), Overflow> {
        let Range { terms, least, most } = &self.ranges[range];
        let (terms, sum) = self.in_steps(terms, columns_of)?;
        let rest = |bound: &Option<i64>| {
            let rest = bound.map(|bound| bound.checked_sub(sum).ok_or(Overflow));
            rest.transpose()
        };
        let span = Span {
            least: rest(least)?,
            most: rest(most)?,
        };
        written.tableau.add_row(&terms, span)?;
        written.steps.push(Step::Slack(range));
        Ok(())
    }

    /// The program as it stands.
    fn direct(&self) -> Result<Written, Overflow> {
        let (columns, steps, columns_of) = self.stepped();
        let mut written = Written {
            tableau: Tableau::new(&columns),
            whole: steps.len(),
            steps,
        };
        for range in 0..self.ranges.len() {
            self.add_slack(&mut written, range, &columns_of)?;
        }
        Ok(written)
    }

    /// The program written along the answers of its equations.
    fn along(&self, lattice: &Lattice) -> Result<Written, Overflow> {
        let (mut columns, mut steps, columns_of) = self.stepped();
        let first = columns.len();
        columns.resize(first + lattice.along.len(), (Span::FREE, 0));
        steps.resize(columns.len(), Step::Along);
        let mut written = Written {
            tableau: Tableau::new(&columns),
            whole: steps.len(),
            steps,
        };
        for (column, one) in lattice.one.iter().enumerate() {
            let (mut terms, sum) = self.in_steps(&[(column, 1)], &columns_of)?;
            for (direction, along) in (first..).zip(&lattice.along) {
                if along[column] != 0 {
                    terms.push((direction, along[column].checked_neg().ok_or(Overflow)?));
                }
            }
            // A column that can be but one number moves along no direction.
            if terms.is_empty() {
                continue;
            }
            let total = Some(one.checked_sub(sum).ok_or(Overflow)?);
            let span = Span {
                least: total,
                most: total,
            };
            written.tableau.add_row(&terms, span)?;
            written.steps.push(Step::Link);
        }
        for (number, range) in self.ranges.iter().enumerate() {
            if range.exactly().is_none() {
                self.add_slack(&mut written, number, &columns_of)?;
            }
        }
        Ok(written)
    }

    /// The parts that bounds of a relaxation come from.
    fn infeasible_subset(&self, written: &Written, bounds: &BTreeSet<Bound>) -> BTreeSet<Part> {
        let mut parts = BTreeSet::new();
        if written.steps.contains(&Step::Link) {
            // The directions come from all equations together.
            let ranges = 0..self.ranges.len();
            let exact = ranges.filter(|range| self.ranges[*range].exactly().is_some());
            parts.extend(self.parts(&exact.collect()));
            parts.extend((0..self.columns.len()).flat_map(|at| self.edges(at)));
        }
        for bound in bounds {
            let (Bound::Least(at) | Bound::Most(at)) = *bound;
            match (written.steps[at], bound) {
                (Step::Up(column), Bound::Most(_)) => {
                    parts.insert(Part::Most(column));
                }
                (Step::Down(column), Bound::Most(_)) => {
                    parts.insert(Part::Least(column));
                }
                (Step::Slack(range), _) => {
                    parts.insert(Part::Range(range));
                    let columns = self.ranges[range].terms.iter();
                    parts.extend(columns.flat_map(|(at, _)| self.edges(*at)));
                }
                // It takes no fewer steps than none, and directions are free.
                (Step::Up(_) | Step::Down(_) | Step::Along | Step::Link, _) => {}
            }
        }
        parts
    }

    /// The bounds that a column is at from the start, and so takes no steps
    /// beyond.
    fn edges(&self, at: usize) -> impl Iterator<Item = Part> {
        let Column {
            least,
            target,
            most,
            ..
        } = self.columns[at];
        let below = (least == Some(target)).then_some(Part::Least(at));
        let above = (most == Some(target)).then_some(Part::Most(at));
        below.into_iter().chain(above)
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
