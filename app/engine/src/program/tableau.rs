//! The relaxation of a program to fractions: the dual simplex method in exact
//! arithmetic, for columns between bounds, each at a price.
//!
//! All columns start where nothing costs anything, and rows are added that are
//! out of their range. Each round takes one column that is out of place, sets
//! it where it belongs, and lets the column move instead that makes this
//! cheapest. So what is reached is the least cost as soon as everything is in
//! place, and on the way there the cost only rises.

use std::cmp::Ordering;
use std::ops::Range;

use super::row::{Overflow, Row, gcd};
use super::work::Work;

/// From here on the smallest number goes first, which cannot go in circles
/// (Bland's rule).
const HURRY: u32 = 2_000;

/// The largest denominator a cut is made from, so that its numbers stay small.
const FINEST_CUT: i64 = 1 << 14;

/// What a column may be. Where it has no least it is free, and rests at
/// nothing as long as nothing moves it.
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

    fn is_one(self) -> bool {
        self.least.is_some() && self.least == self.most
    }
}

/// Where a column stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    /// At its least, or at nothing where it is free.
    Least,
    /// At its most.
    Most,
    /// Given by this row.
    Row(usize),
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
    Least,
    /// These bounds cannot be kept together.
    Nothing(Vec<Bound>),
    /// It costs no less than the best found.
    Dear,
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

/// What making a column that a row gives whole costs, at the least.
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
    places: Vec<Place>,
    rows: Vec<Row>,
    /// What the columns cost: `own · cost + Σ times · column = sum`.
    price: Row,
}

/// A column out of its place: the row that gives it, and whether it has to
/// rise.
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
            places: vec![Place::Least; columns.len()],
            rows: Vec::new(),
            price: Row {
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
    /// sum becomes a column of its own, whose number is returned.
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
            if let Place::Row(by) = self.places[*at]
                && let Some(times) = row.times(*at)
            {
                row.replace(times, &self.rows[by])?;
            }
        }
        self.spans.push(span);
        self.places.push(Place::Row(self.rows.len()));
        self.rows.push(row);
        Ok(column)
    }

    /// What a column is now.
    pub(super) fn level(&self, column: usize) -> Result<Fraction, Overflow> {
        match self.places[column] {
            Place::Row(row) => self.given(&self.rows[row]),
            _ => Ok(Fraction {
                over: self.resting(column).into(),
                under: 1,
            }),
        }
    }

    fn resting(&self, column: usize) -> i64 {
        let span = self.spans[column];
        let at = match self.places[column] {
            Place::Most => span.most,
            _ => span.least,
        };
        at.unwrap_or(0)
    }

    fn given(&self, row: &Row) -> Result<Fraction, Overflow> {
        let mut over = i128::from(row.sum);
        for (at, times) in &row.terms {
            let resting = self.resting(*at);
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
        self.given(&self.price)
    }

    /// Narrows the bounds of a column that a row gives. What is left of the
    /// bounds may not be empty.
    pub(super) fn narrow(&mut self, column: usize, least: Option<i64>, most: Option<i64>) {
        let span = &mut self.spans[column];
        span.least = least.or(span.least);
        span.most = most.or(span.most);
    }

    /// Moves until the least cost is reached, or what is found already costs
    /// no more.
    pub(super) fn optimise(
        &mut self,
        best: Option<i128>,
        work: &mut Work,
    ) -> Result<Relaxed, Overflow> {
        let mut round = 0;
        while let Some(leaving) = self.leaving(round > HURRY)? {
            if work.is_done() {
                return Ok(Relaxed::Unfinished);
            }
            work.take(self.numbers());
            round += 1;
            match self.entering(leaving)? {
                None => return Ok(Relaxed::Nothing(self.reasons(leaving))),
                Some((column, _)) => self.exchange(leaving, column, work)?,
            }
            if let Some(best) = best
                && self.cost()?.ceil() >= best
            {
                return Ok(Relaxed::Dear);
            }
        }
        Ok(Relaxed::Least)
    }

    /// The column that is farthest out of place, or the first one.
    fn leaving(&self, first: bool) -> Result<Option<Leaving>, Overflow> {
        let mut found: Option<(Fraction, Leaving)> = None;
        for (at, row) in self.rows.iter().enumerate() {
            let is = self.given(row)?;
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

    /// The column that moves instead most cheaply, with what a step of the
    /// leaving one then costs, but for what the row and the price are divided
    /// by; none where nothing can move.
    fn entering(&self, leaving: Leaving) -> Result<Option<(usize, Fraction)>, Overflow> {
        let row = &self.rows[leaving.row];
        let mut best: Option<(Fraction, usize)> = None;
        let mut prices = self.price.terms.iter().peekable();
        for (at, times) in &row.terms {
            while prices.next_if(|(there, _)| there < at).is_some() {}
            let price = prices.next_if(|(there, _)| there == at);
            let span = self.spans[*at];
            if span.is_one() {
                continue;
            }
            // A row's column rises where one that stands in it with a minus does.
            let rises = leaving.rises == (*times < 0);
            let may = match self.places[*at] {
                Place::Most => !rises,
                _ => rises || span.least.is_none(),
            };
            if !may {
                continue;
            }
            let price = Fraction {
                over: price.map_or(0, |(_, times)| i128::from(*times).abs()),
                under: i128::from(*times).abs(),
            };
            let better = match &best {
                None => true,
                Some((least, _)) => price.against(*least)? == Ordering::Less,
            };
            if better {
                best = Some((price, *at));
            }
        }
        Ok(best.map(|(price, column)| (column, price)))
    }

    /// Sets the leaving column where it belongs and gives the entering one by
    /// its row.
    fn exchange(
        &mut self,
        leaving: Leaving,
        column: usize,
        work: &mut Work,
    ) -> Result<(), Overflow> {
        let row = self.rows[leaving.row].clone();
        let times = row.times(column).ok_or(Overflow)?;
        self.places[row.basic] = if leaving.rises {
            Place::Least
        } else {
            Place::Most
        };
        self.places[column] = Place::Row(leaving.row);
        let row = row.giving(column, times)?;
        for (at, other) in self.rows.iter_mut().enumerate() {
            if at != leaving.row
                && let Some(times) = other.times(column)
            {
                work.take(other.terms.len() + row.terms.len());
                other.replace(times, &row)?;
            }
        }
        if let Some(times) = self.price.times(column) {
            self.price.replace(times, &row)?;
        }
        self.rows[leaving.row] = row;
        Ok(())
    }

    /// The bounds that keep a column out of its place for good.
    fn reasons(&self, leaving: Leaving) -> Vec<Bound> {
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
            let is = self.given(row)?;
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
                    self.dearer(at, false, rest)?
                } else {
                    None
                },
                above: if rises {
                    self.dearer(at, true, is.under - rest)?
                } else {
                    None
                },
            });
        }
        Ok(penalties)
    }

    /// What moving the column that a row gives costs at least, by so much in
    /// parts of the row's own number; none where nothing else can move.
    fn dearer(&self, row: usize, rises: bool, by: i128) -> Result<Option<Fraction>, Overflow> {
        let Some((_, price)) = self.entering(Leaving { row, rises })? else {
            return Ok(None);
        };
        let under = price.under.checked_mul(self.price.own.into());
        Ok(Some(Fraction {
            over: price.over.checked_mul(by).ok_or(Overflow)?,
            under: under.ok_or(Overflow)?,
        }))
    }

    /// How many numbers it holds.
    pub(super) fn numbers(&self) -> usize {
        self.rows.iter().map(|row| row.terms.len()).sum()
    }

    /// Whether all numbers are below this one.
    pub(super) fn is_below(&self, limit: u64) -> bool {
        let mut rows = self.rows.iter().chain([&self.price]);
        rows.all(|row| {
            let mut terms = row.terms.iter();
            let below = |number: i64| number.unsigned_abs() < limit;
            below(row.own) && below(row.sum) && terms.all(|(_, times)| below(*times))
        })
    }

    /// Why a column that a row gives cannot fall, or cannot rise, any more.
    pub(super) fn why_not(&self, column: usize, rises: bool) -> Vec<Bound> {
        match self.places[column] {
            Place::Row(row) => self.reasons(Leaving { row, rises }),
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
            let is = self.given(row)?;
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
            let most = self.places[*at] == Place::Most;
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
            if span.is_one() {
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
            let resting = times.checked_mul(self.resting(*at)).ok_or(Overflow)?;
            least = least.checked_add(resting).ok_or(Overflow)?;
        }
        Ok(Some(Cut { terms, least, from }))
    }
}
