//! The relaxation of a program to fractions: the dual simplex method in exact
//! arithmetic, for columns whose cost rises on both sides of a target.
//!
//! All columns start at their targets, where nothing costs anything, and rows
//! are added that are out of their range. Each round takes one column that is
//! out of place, sets it where it belongs, and lets the column move instead
//! that makes this cheapest. So what is reached is the least cost as soon as
//! everything is in place.

use std::cmp::Ordering;

use super::row::{Overflow, Row};

/// From here on the smallest number goes first, which cannot go in circles
/// (Bland's rule).
const HURRY: u32 = 2_000;

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
    pub(super) fn exactly(&self) -> Option<i64> {
        self.least.filter(|_| self.least == self.most)
    }

    fn room_below(&self) -> bool {
        self.least.is_none_or(|least| least < self.target)
    }

    fn room_above(&self) -> bool {
        self.most.is_none_or(|most| most > self.target)
    }
}

/// Where a column stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    /// At its least, below its target.
    Least,
    /// At its target.
    Target,
    /// At its most, above its target.
    Most,
    /// Given by a row, at or below its target.
    Below,
    /// Given by a row, at or above its target.
    Above,
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
    const ZERO: Self = Self { over: 0, under: 1 };

    fn against(self, other: Self) -> Result<Ordering, Overflow> {
        let left = self.over.checked_mul(other.under).ok_or(Overflow)?;
        let right = other.over.checked_mul(self.under).ok_or(Overflow)?;
        Ok(left.cmp(&right))
    }

    fn add(&mut self, over: i128, under: i128) -> Result<(), Overflow> {
        if self.under == under {
            self.over = self.over.checked_add(over).ok_or(Overflow)?;
            return Ok(());
        }
        let left = self.over.checked_mul(under).ok_or(Overflow)?;
        let right = over.checked_mul(self.under).ok_or(Overflow)?;
        let over = left.checked_add(right).ok_or(Overflow)?;
        let under = self.under.checked_mul(under).ok_or(Overflow)?;
        let (mut a, mut b) = (over.unsigned_abs(), under.unsigned_abs());
        while b != 0 {
            (a, b) = (b, a % b);
        }
        let common = i128::try_from(a).map_or(1, |common| common.max(1));
        *self = Self {
            over: over / common,
            under: under / common,
        };
        Ok(())
    }
}

/// What optimising came to.
#[derive(Debug)]
pub(super) enum Relaxed {
    /// The least cost is reached.
    Least,
    /// These bounds cannot be kept together.
    Nothing(Vec<Bound>),
    /// The rounds allowed were used up.
    Unfinished,
}

#[derive(Debug, Clone)]
pub(super) struct Tableau {
    columns: Vec<Column>,
    places: Vec<Place>,
    rows: Vec<Row>,
    /// What the targets moved by branching cost.
    base: i128,
}

/// A column out of its place: the row that gives it, and whether it has to
/// rise.
struct Leaving {
    row: usize,
    rises: bool,
}

impl Tableau {
    /// All columns at their targets.
    pub(super) fn new(columns: Vec<Column>) -> Self {
        Self {
            places: vec![Place::Target; columns.len()],
            columns,
            rows: Vec::new(),
            base: 0,
        }
    }

    /// Asks for a sum of columns to stay in a range. The sum becomes a column
    /// of its own.
    pub(super) fn add_row(
        &mut self,
        terms: &[(usize, i64)],
        (least, most): (Option<i64>, Option<i64>),
    ) -> Result<(), Overflow> {
        let column = self.columns.len();
        self.columns.push(Column {
            least,
            target: least.or(most).unwrap_or(0),
            most,
            weight: 0,
        });
        let above = self.columns[column].room_above();
        self.places
            .push(if above { Place::Above } else { Place::Below });
        let mut row = Row {
            basic: column,
            own: 1,
            terms: terms.iter().map(|(at, times)| (*at, -times)).collect(),
            sum: 0,
        };
        row.terms.sort_unstable_by_key(|(at, _)| *at);
        for by in &self.rows {
            if let Some(times) = row.times(by.basic) {
                row.replace(times, by)?;
            }
        }
        self.rows.push(row);
        Ok(())
    }

    /// What a column is now.
    pub(super) fn level(&self, column: usize) -> Result<Fraction, Overflow> {
        match self.rows.iter().find(|row| row.basic == column) {
            Some(row) => self.given(row),
            None => Ok(Fraction {
                over: self.resting(column).into(),
                under: 1,
            }),
        }
    }

    fn resting(&self, column: usize) -> i64 {
        let bounds = &self.columns[column];
        let at = match self.places[column] {
            Place::Least => bounds.least,
            Place::Most => bounds.most,
            Place::Target | Place::Below | Place::Above => None,
        };
        at.unwrap_or(bounds.target)
    }

    fn given(&self, row: &Row) -> Result<Fraction, Overflow> {
        let mut over = i128::from(row.sum);
        for (at, times) in &row.terms {
            over = over
                .checked_sub(i128::from(*times) * i128::from(self.resting(*at)))
                .ok_or(Overflow)?;
        }
        Ok(Fraction {
            over,
            under: row.own.into(),
        })
    }

    /// The columns that rows give, with what they are.
    pub(super) fn moved(&self) -> impl Iterator<Item = Result<(usize, Fraction), Overflow>> + '_ {
        let given = |row: &Row| Ok((row.basic, self.given(row)?));
        self.rows.iter().map(given)
    }

    /// The cost, rounded up to a whole number.
    pub(super) fn cost(&self) -> Result<i128, Overflow> {
        let mut cost = Fraction {
            over: self.base,
            under: 1,
        };
        for (at, column) in self.columns.iter().enumerate() {
            if column.weight != 0 && matches!(self.places[at], Place::Least | Place::Most) {
                let off = (i128::from(self.resting(at)) - i128::from(column.target)).abs();
                let over = off.checked_mul(column.weight.into()).ok_or(Overflow)?;
                cost.add(over, 1)?;
            }
        }
        for row in &self.rows {
            let column = &self.columns[row.basic];
            if column.weight != 0 {
                let is = self.given(row)?;
                let off = (is.over - i128::from(column.target) * is.under).abs();
                let over = off.checked_mul(column.weight.into()).ok_or(Overflow)?;
                cost.add(over, is.under)?;
            }
        }
        Ok(cost.over.div_euclid(cost.under) + i128::from(cost.over.rem_euclid(cost.under) != 0))
    }

    /// Narrows the bounds of a column that a row gives. What is left of the
    /// bounds may not be empty.
    pub(super) fn narrow(&mut self, column: usize, least: Option<i64>, most: Option<i64>) {
        let bounds = &mut self.columns[column];
        bounds.least = least.or(bounds.least);
        bounds.most = most.or(bounds.most);
        let mut target = bounds.target;
        target = bounds.most.map_or(target, |most| target.min(most));
        target = bounds.least.map_or(target, |least| target.max(least));
        let moved = (i128::from(target) - i128::from(bounds.target)).abs();
        self.base += i128::from(bounds.weight) * moved;
        bounds.target = target;
    }

    /// Moves until the least cost is reached.
    pub(super) fn optimise(&mut self, rounds: &mut u32) -> Result<Relaxed, Overflow> {
        let mut round = 0;
        while let Some(leaving) = self.leaving(round > HURRY)? {
            if *rounds == 0 {
                return Ok(Relaxed::Unfinished);
            }
            *rounds -= 1;
            round += 1;
            let given = &self.rows[leaving.row];
            match self.entering(&leaving)? {
                None => return Ok(Relaxed::Nothing(self.reasons(&leaving))),
                Some((column, _)) if column == given.basic => {
                    let place = &mut self.places[column];
                    *place = if *place == Place::Above {
                        Place::Below
                    } else {
                        Place::Above
                    };
                }
                Some((column, place)) => self.exchange(&leaving, column, place)?,
            }
        }
        Ok(Relaxed::Least)
    }

    /// The span a column that a row gives may be in without a change of price.
    fn span(&self, column: usize) -> (Option<i64>, Option<i64>) {
        let bounds = &self.columns[column];
        match self.places[column] {
            Place::Below => (bounds.least, Some(bounds.target)),
            _ => (Some(bounds.target), bounds.most),
        }
    }

    /// The column that is farthest out of place, or the first one.
    fn leaving(&self, first: bool) -> Result<Option<Leaving>, Overflow> {
        let mut found: Option<(Fraction, Leaving)> = None;
        for (at, row) in self.rows.iter().enumerate() {
            let is = self.given(row)?;
            let (least, most) = self.span(row.basic);
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

    /// The column that moves instead most cheaply, and on which side of its
    /// target it then is; the leaving column itself where it is cheapest to
    /// let that one pass its target.
    fn entering(&self, leaving: &Leaving) -> Result<Option<(usize, Place)>, Overflow> {
        let row = &self.rows[leaving.row];
        let mut best: Option<(Fraction, usize, Place)> = None;
        let mut offer = |price: Fraction, column: usize, place: Place| {
            let better = match &best {
                None => true,
                Some((least, other, _)) => match price.against(*least)? {
                    Ordering::Less => true,
                    Ordering::Equal => column < *other,
                    Ordering::Greater => false,
                },
            };
            if better {
                best = Some((price, column, place));
            }
            Ok(())
        };
        let own = &self.columns[row.basic];
        let passes = match (self.places[row.basic], leaving.rises) {
            (Place::Above, true) => own.room_below(),
            (Place::Below, false) => own.room_above(),
            _ => false,
        };
        if passes {
            let twice = Fraction {
                over: 2 * i128::from(own.weight),
                under: 1,
            };
            offer(twice, row.basic, Place::Target)?;
        }
        let slopes = self.slopes(row)?;
        for ((at, times), slope) in row.terms.iter().zip(slopes) {
            let column = &self.columns[*at];
            let rises = leaving.rises == (*times < 0);
            let (place, up) = match (self.places[*at], rises) {
                (Place::Target, true) if column.room_above() => (Place::Above, 1),
                (Place::Target, false) if column.room_below() => (Place::Below, 1),
                (Place::Least, true) => (Place::Below, -1),
                (Place::Most, false) => (Place::Above, -1),
                _ => continue,
            };
            // What the first step of this column costs, per step gained.
            let toward = if rises { 1 } else { -1 };
            let weight = i128::from(up * column.weight);
            let step = weight
                .checked_mul(slope.under)
                .and_then(|weight| weight.checked_add(toward * slope.over))
                .ok_or(Overflow)?;
            let price = Fraction {
                over: step.checked_mul(row.own.into()).ok_or(Overflow)?,
                under: slope
                    .under
                    .checked_mul(i128::from(*times).abs())
                    .ok_or(Overflow)?,
            };
            offer(price, *at, place)?;
        }
        Ok(best.map(|(_, column, place)| (column, place)))
    }

    /// For each term of a row, by how much the columns that rows give become
    /// dearer with each step its column rises.
    fn slopes(&self, row: &Row) -> Result<Vec<Fraction>, Overflow> {
        let mut slopes = vec![Fraction::ZERO; row.terms.len()];
        for other in &self.rows {
            let weight = match self.places[other.basic] {
                Place::Below => self.columns[other.basic].weight,
                _ => -self.columns[other.basic].weight,
            };
            if weight == 0 {
                continue;
            }
            let mut theirs = other.terms.iter().peekable();
            for ((at, _), slope) in row.terms.iter().zip(&mut slopes) {
                while theirs.next_if(|(there, _)| there < at).is_some() {}
                if let Some((_, times)) = theirs.next_if(|(there, _)| there == at) {
                    slope.add(i128::from(weight) * i128::from(*times), other.own.into())?;
                }
            }
        }
        Ok(slopes)
    }

    /// Sets the leaving column where it belongs and gives the entering one by
    /// its row.
    fn exchange(&mut self, leaving: &Leaving, column: usize, place: Place) -> Result<(), Overflow> {
        let row = self.rows.swap_remove(leaving.row);
        let left = row.basic;
        let bounds = &self.columns[left];
        self.places[left] = match (self.places[left], leaving.rises) {
            (Place::Below, true) if bounds.room_below() => Place::Least,
            (Place::Above, false) if bounds.room_above() => Place::Most,
            _ => Place::Target,
        };
        self.places[column] = place;
        let times = row.times(column).ok_or(Overflow)?;
        let row = row.giving(column, times)?;
        for other in &mut self.rows {
            if let Some(times) = other.times(column) {
                other.replace(times, &row)?;
            }
        }
        self.rows.push(row);
        Ok(())
    }

    /// The bounds that keep a column out of its place for good.
    fn reasons(&self, leaving: &Leaving) -> Vec<Bound> {
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
}
