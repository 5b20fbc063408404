//! The linear relaxation of a program: the dual simplex method (Lemke 1954) for
//! bounded columns, in exact arithmetic.
//!
//! A column is basic, given by a row, or nonbasic at one of its bounds. All
//! columns start nonbasic where nothing costs anything, which is dual feasible;
//! a row is added with its slack as the basic column, perhaps out of bounds.
//! Each pivot takes the basic column farthest out of its bounds, lets it leave
//! the basis at the bound it broke, and lets that column enter of which the
//! ratio of reduced cost to coefficient is least. So the cost only rises, and is
//! least as soon as every basic column is within its bounds.
//!
//! Rows hold whole numbers without a common factor, so that nothing is rounded.
//! (The literature here from memory.)

use std::cmp::Ordering;
use std::ops::Range;

use super::row::{Overflow, Row, gcd};
use super::work::Work;

/// From this pivot on the smallest number goes first (Bland's rule, 1977), which
/// cannot cycle.
const BLAND_AFTER: u32 = 2_000;

/// The largest denominator a cut is made from, so that its numbers stay small.
const FINEST_CUT: i64 = 1 << 14;

/// The bounds of a column. Where it has no least it is free, and is 0 while
/// nonbasic.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Span {
    pub(super) least: Option<i64>,
    pub(super) most: Option<i64>,
}

impl Span {
    /// Anything.
    pub(super) const FREE: Self = Self {
        least: None,
        most: None,
    };

    fn is_fixed(self) -> bool {
        self.least.is_some() && self.least == self.most
    }
}

/// How a column stands to the basis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Status {
    /// Nonbasic at its lower bound, or at 0 where it is free.
    Lower,
    /// Nonbasic at its upper bound.
    Upper,
    /// Basic, given by this row.
    Basic(usize),
}

/// What a bound of which column keeps a relaxation from an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Bound {
    /// It may not be less.
    Least(usize),
    /// It may not be more.
    Most(usize),
}

/// A fraction with a positive denominator.
#[derive(Debug, Clone, Copy)]
pub(super) struct Fraction {
    pub(super) over: i128,
    pub(super) under: i128,
}

impl Fraction {
    pub(super) fn against(self, other: Self) -> Result<Ordering, Overflow> {
        let left = self.over.checked_mul(other.under).ok_or(Overflow)?;
        let right = other.over.checked_mul(self.under).ok_or(Overflow)?;
        Ok(left.cmp(&right))
    }

    /// The next whole number that is not less.
    pub(super) fn ceil(self) -> i128 {
        -(-self.over).div_euclid(self.under)
    }
}

/// What optimising came to.
#[derive(Debug)]
pub(super) enum Relaxed {
    /// The least cost is reached.
    Optimal,
    /// These bounds cannot be kept together.
    Infeasible(Vec<Bound>),
    /// It costs no less than the incumbent.
    CutOff,
    /// The work allowed was used up.
    Unfinished,
}

/// A row that rules out the fractions where a relaxation stands and no whole
/// numbers.
#[derive(Debug)]
pub(super) struct Cut {
    pub(super) terms: Vec<(usize, i64)>,
    pub(super) least: i64,
    /// What it follows from.
    pub(super) from: Vec<Bound>,
}

/// What making a basic column whole costs, at the least.
#[derive(Debug, Clone, Copy)]
pub(super) struct Penalty {
    pub(super) column: usize,
    /// The whole number below it.
    pub(super) floor: i64,
    /// To fall to it; nothing where it cannot.
    pub(super) below: Option<Fraction>,
    /// To rise to the next one; nothing where it cannot.
    pub(super) above: Option<Fraction>,
}

#[derive(Debug, Clone)]
pub(super) struct Tableau {
    spans: Vec<Span>,
    statuses: Vec<Status>,
    rows: Vec<Row>,
    /// The objective: `own · cost + Σ times · column = sum`, its terms the reduced
    /// costs.
    objective: Row,
}

/// The basic column that leaves the basis: its row, and whether it has to rise
/// to its bound.
#[derive(Debug, Clone, Copy)]
struct Leaving {
    row: usize,
    rises: bool,
}

impl Tableau {
    /// Columns with what a step of each costs, which is never negative, and
    /// nothing where a column is free.
    pub(super) fn new(columns: &[(Span, i64)]) -> Self {
        let costs = columns.iter().enumerate();
        Self {
            spans: columns.iter().map(|(span, _)| *span).collect(),
            statuses: vec![Status::Lower; columns.len()],
            rows: Vec::new(),
            objective: Row {
                basic: usize::MAX,
                own: 1,
                terms: costs
                    .filter(|(_, (_, cost))| *cost != 0)
                    .map(|(at, (_, cost))| (at, -cost))
                    .collect(),
                sum: 0,
            },
        }
    }

    /// Asks for a sum of columns, in ascending order, to stay in a range. The
    /// sum is a column of its own, the row's slack, whose number is returned.
    pub(super) fn add_row(
        &mut self,
        terms: &[(usize, i64)],
        span: Span,
    ) -> Result<usize, Overflow> {
        let column = self.spans.len();
        let mut row = Row {
            basic: column,
            own: 1,
            terms: terms.iter().map(|(at, times)| (*at, -times)).collect(),
            sum: 0,
        };
        for (at, _) in terms {
            if let Status::Basic(by) = self.statuses[*at]
                && let Some(times) = row.times(*at)
            {
                row.eliminate(times, &self.rows[by])?;
            }
        }
        self.spans.push(span);
        self.statuses.push(Status::Basic(self.rows.len()));
        self.rows.push(row);
        Ok(column)
    }

    /// What a column is now.
    pub(super) fn value(&self, column: usize) -> Result<Fraction, Overflow> {
        match self.statuses[column] {
            Status::Basic(row) => self.basic_value(&self.rows[row]),
            _ => Ok(Fraction {
                over: self.nonbasic_value(column).into(),
                under: 1,
            }),
        }
    }

    fn nonbasic_value(&self, column: usize) -> i64 {
        let span = self.spans[column];
        let at = match self.statuses[column] {
            Status::Upper => span.most,
            _ => span.least,
        };
        at.unwrap_or(0)
    }

    fn basic_value(&self, row: &Row) -> Result<Fraction, Overflow> {
        let mut over = i128::from(row.sum);
        for (at, times) in &row.terms {
            let resting = self.nonbasic_value(*at);
            if resting != 0 {
                over = over
                    .checked_sub(i128::from(*times) * i128::from(resting))
                    .ok_or(Overflow)?;
            }
        }
        Ok(Fraction {
            over,
            under: row.own.into(),
        })
    }

    /// What it costs.
    pub(super) fn cost(&self) -> Result<Fraction, Overflow> {
        self.basic_value(&self.objective)
    }

    /// Tightens the bounds of a basic column. What is left of them may not be
    /// empty.
    pub(super) fn tighten(&mut self, column: usize, least: Option<i64>, most: Option<i64>) {
        let span = &mut self.spans[column];
        span.least = least.or(span.least);
        span.most = most.or(span.most);
    }

    /// Pivots until the least cost is reached, or what it costs already is no
    /// less than the incumbent.
    pub(super) fn optimise(
        &mut self,
        best: Option<i128>,
        work: &mut Work,
    ) -> Result<Relaxed, Overflow> {
        let mut round = 0;
        while let Some(leaving) = self.leaving(round > BLAND_AFTER)? {
            if work.is_done() {
                return Ok(Relaxed::Unfinished);
            }
            work.take(self.numbers());
            round += 1;
            match self.entering(leaving)? {
                None => return Ok(Relaxed::Infeasible(self.infeasible_bounds(leaving))),
                Some((column, _)) => self.pivot(leaving, column, work)?,
            }
            if let Some(best) = best
                && self.cost()?.ceil() >= best
            {
                return Ok(Relaxed::CutOff);
            }
        }
        Ok(Relaxed::Optimal)
    }

    /// The basic column that is farthest out of its bounds, or the first one that
    /// is.
    fn leaving(&self, first: bool) -> Result<Option<Leaving>, Overflow> {
        let mut found: Option<(Fraction, Leaving)> = None;
        for (at, row) in self.rows.iter().enumerate() {
            let is = self.basic_value(row)?;
            let Span { least, most } = self.spans[row.basic];
            let lacks = least.map(|least| i128::from(least) * is.under - is.over);
            let exceeds = most.map(|most| is.over - i128::from(most) * is.under);
            let (over, rises) = match (lacks, exceeds) {
                (Some(lacks), _) if lacks > 0 => (lacks, true),
                (_, Some(exceeds)) if exceeds > 0 => (exceeds, false),
                _ => continue,
            };
            let by = Fraction {
                over,
                under: is.under,
            };
            let better = match &found {
                None => true,
                Some((_, other)) if first => row.basic < self.rows[other.row].basic,
                Some((most, _)) => by.against(*most)? == Ordering::Greater,
            };
            if better {
                found = Some((by, Leaving { row: at, rises }));
            }
        }
        Ok(found.map(|(_, leaving)| leaving))
    }

    /// The ratio test: the nonbasic column that moves instead most cheaply, with
    /// what a step of the leaving one then costs, but for what the row and the
    /// objective are divided by; none where nothing can move.
    fn entering(&self, leaving: Leaving) -> Result<Option<(usize, Fraction)>, Overflow> {
        let row = &self.rows[leaving.row];
        let mut best: Option<(Fraction, usize)> = None;
        let mut costs = self.objective.terms.iter().peekable();
        for (at, times) in &row.terms {
            while costs.next_if(|(there, _)| there < at).is_some() {}
            let cost = costs.next_if(|(there, _)| there == at);
            let span = self.spans[*at];
            if span.is_fixed() {
                continue;
            }
            // A row's column rises where one that stands in it with a minus does.
            let rises = leaving.rises == (*times < 0);
            let may = match self.statuses[*at] {
                Status::Upper => !rises,
                _ => rises || span.least.is_none(),
            };
            if !may {
                continue;
            }
            let ratio = Fraction {
                over: cost.map_or(0, |(_, times)| i128::from(*times).abs()),
                under: i128::from(*times).abs(),
            };
            let better = match &best {
                None => true,
                Some((least, _)) => ratio.against(*least)? == Ordering::Less,
            };
            if better {
                best = Some((ratio, *at));
            }
        }
        Ok(best.map(|(ratio, column)| (column, ratio)))
    }

    /// Takes the leaving column out of the basis, at the bound it broke, and the
    /// entering one into it, given by the same row.
    fn pivot(&mut self, leaving: Leaving, column: usize, work: &mut Work) -> Result<(), Overflow> {
        let row = self.rows[leaving.row].clone();
        let times = row.times(column).ok_or(Overflow)?;
        self.statuses[row.basic] = if leaving.rises {
            Status::Lower
        } else {
            Status::Upper
        };
        self.statuses[column] = Status::Basic(leaving.row);
        let row = row.solved_for(column, times)?;
        for (at, other) in self.rows.iter_mut().enumerate() {
            if at != leaving.row
                && let Some(times) = other.times(column)
            {
                work.take(other.terms.len() + row.terms.len());
                other.eliminate(times, &row)?;
            }
        }
        if let Some(times) = self.objective.times(column) {
            self.objective.eliminate(times, &row)?;
        }
        self.rows[leaving.row] = row;
        Ok(())
    }

    /// The bounds that keep a basic column from its own for good: where a row has
    /// no column to enter, it is a certificate of infeasibility (Farkas).
    fn infeasible_bounds(&self, leaving: Leaving) -> Vec<Bound> {
        let row = &self.rows[leaving.row];
        let held = |at: usize, rises: bool| {
            if rises {
                Bound::Most(at)
            } else {
                Bound::Least(at)
            }
        };
        let others = row
            .terms
            .iter()
            .map(|(at, times)| held(*at, leaving.rises == (*times < 0)));
        std::iter::once(held(row.basic, !leaving.rises))
            .chain(others)
            .collect()
    }

    /// For each of these columns that is between two whole numbers, what making
    /// it whole costs more, from one step of the simplex method (Driebeek 1966).
    pub(super) fn penalties(&self, whole: &Range<usize>) -> Result<Vec<Penalty>, Overflow> {
        let mut penalties = Vec::new();
        for (at, row) in self.rows.iter().enumerate() {
            if !whole.contains(&row.basic) {
                continue;
            }
            let is = self.basic_value(row)?;
            let rest = is.over.rem_euclid(is.under);
            if rest == 0 {
                continue;
            }
            let floor = i64::try_from(is.over.div_euclid(is.under)).map_err(|_| Overflow)?;
            let Span { least, most } = self.spans[row.basic];
            let falls = least.is_none_or(|least| floor >= least);
            let rises = most.is_none_or(|most| floor < most);
            penalties.push(Penalty {
                column: row.basic,
                floor,
                below: if falls {
                    self.penalty(at, false, rest)?
                } else {
                    None
                },
                above: if rises {
                    self.penalty(at, true, is.under - rest)?
                } else {
                    None
                },
            });
        }
        Ok(penalties)
    }

    /// What moving the basic column of a row costs at least, by so much in
    /// parts of the row's own number; none where nothing else can move.
    fn penalty(&self, row: usize, rises: bool, by: i128) -> Result<Option<Fraction>, Overflow> {
        let Some((_, ratio)) = self.entering(Leaving { row, rises })? else {
            return Ok(None);
        };
        let under = ratio.under.checked_mul(self.objective.own.into());
        Ok(Some(Fraction {
            over: ratio.over.checked_mul(by).ok_or(Overflow)?,
            under: under.ok_or(Overflow)?,
        }))
    }

    /// How many numbers it holds.
    pub(super) fn numbers(&self) -> usize {
        self.rows.iter().map(|row| row.terms.len()).sum()
    }

    /// Whether all numbers are below this one.
    pub(super) fn is_below(&self, limit: u64) -> bool {
        let mut rows = self.rows.iter().chain([&self.objective]);
        rows.all(|row| {
            let mut terms = row.terms.iter();
            let below = |number: i64| number.unsigned_abs() < limit;
            below(row.own) && below(row.sum) && terms.all(|(_, times)| below(*times))
        })
    }

    /// The bounds for which a basic column cannot fall, or cannot rise.
    pub(super) fn immovable(&self, column: usize, rises: bool) -> Vec<Bound> {
        match self.statuses[column] {
            Status::Basic(row) => self.infeasible_bounds(Leaving { row, rises }),
            _ => Vec::new(),
        }
    }

    /// Rows that rule out where the columns are now, made from each row that
    /// gives one of them a fraction (Gomory's mixed integer cuts; all columns,
    /// sums too, are whole).
    pub(super) fn cuts(&self) -> Result<Vec<Cut>, Overflow> {
        let mut cuts = Vec::new();
        for row in &self.rows {
            if row.own == 1 || row.own > FINEST_CUT {
                continue;
            }
            let is = self.basic_value(row)?;
            let own = i128::from(row.own);
            let rest = is.over.rem_euclid(own);
            if rest != 0
                && let Some(cut) = self.cut(row, rest)?
            {
                cuts.push(cut);
            }
        }
        Ok(cuts)
    }

    fn cut(&self, row: &Row, rest: i128) -> Result<Option<Cut>, Overflow> {
        let own = i128::from(row.own);
        let mut terms = Vec::new();
        let mut from = Vec::new();
        let mut common = 0_i64;
        for (at, times) in &row.terms {
            let most = self.statuses[*at] == Status::Upper;
            let away = if most {
                -i128::from(*times)
            } else {
                (*times).into()
            };
            let part = away.rem_euclid(own);
            if part == 0 {
                continue;
            }
            let span = self.spans[*at];
            if span.is_fixed() {
                from.extend([Bound::Least(*at), Bound::Most(*at)]);
                continue;
            }
            if span.least.is_none() && !most {
                return Ok(None);
            }
            from.push(if most {
                Bound::Most(*at)
            } else {
                Bound::Least(*at)
            });
            let share = if part <= rest {
                part * (own - rest)
            } else {
                (own - part) * rest
            };
            let share = i64::try_from(share).map_err(|_| Overflow)?;
            common = if common == 0 {
                share
            } else {
                gcd(common, share)
            };
            terms.push((*at, if most { -share } else { share }));
        }
        if common == 0 {
            return Ok(None);
        }
        let least = (rest * (own - rest) + i128::from(common) - 1) / i128::from(common);
        let mut least = i64::try_from(least).map_err(|_| Overflow)?;
        for (at, times) in &mut terms {
            *times /= common;
            let resting = times
                .checked_mul(self.nonbasic_value(*at))
                .ok_or(Overflow)?;
            least = least.checked_add(resting).ok_or(Overflow)?;
        }
        Ok(Some(Cut { terms, least, from }))
    }
}
