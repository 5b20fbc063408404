//! Changing one measure and moving the others that depend on it.
//!
//! The relations are linear and exact. The measures are put in order of
//! firmness: what the maker asks for, what is pinned, then the recipe's own
//! order, firmest first. Solving each relation for its least firm measure
//! leaves the firmer ones where they are, so the least possible moves.

use std::collections::{BTreeMap, BTreeSet};

use super::{Holds, Is, Measure, MeasureId, Recipe, Relation};
use crate::length::{Length, half_even};
use crate::sorted::InOrder as _;

/// By how many units each measure of a relation may be off, where a length did
/// not divide into whole units. One unit is 1/72 µm: no paper shows it.
const ROUNDING: i128 = 1;

/// A measure that came out within this of what it was has not moved: a tenth
/// of a micron is rounding, shared out another way.
pub(super) const STILL: Length = Length::from_units(8);

/// A measure that moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Change {
    /// The measure.
    pub measure: MeasureId,
    /// What it was.
    pub from: Length,
    /// What it is now.
    pub to: Length,
}

/// Why a change cannot be made. Nothing has moved then.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Clash {
    /// These relations cannot hold together with what was asked for and what
    /// is pinned.
    Relations {
        /// The relations that together rule it out.
        relations: Vec<Relation>,
        /// The pinned measures they mention.
        pinned: Vec<MeasureId>,
    },
    /// A size would be nothing or less.
    NotPositive {
        /// The measure.
        measure: MeasureId,
        /// What it would have to be.
        value: Length,
    },
    /// A length would pass what can be handled.
    TooLong(MeasureId),
    /// The numbers in the relations are too large to be worked with.
    TooTangled,
}

/// A relation, or several put together: coefficients by column, and what they
/// add up to.
#[derive(Debug, Clone)]
struct Row {
    /// Never zero; the least firm column comes first.
    terms: BTreeMap<usize, i128>,
    sum: i128,
    /// The relations it was made from.
    from: BTreeSet<usize>,
}

impl Row {
    /// Takes the first term of `pivot` out of this row.
    fn without(&self, column: usize, pivot: &Self) -> Option<Self> {
        let (Some(mine), Some(theirs)) = (self.terms.get(&column), pivot.terms.get(&column)) else {
            return Some(self.clone());
        };
        let combine = |a: i128, b: i128| a.checked_mul(*theirs)?.checked_sub(b.checked_mul(*mine)?);
        let columns: BTreeSet<_> = self.terms.keys().chain(pivot.terms.keys()).collect();
        let mut terms = BTreeMap::new();
        for column in columns {
            let of = |row: &Self| row.terms.get(column).copied().unwrap_or(0);
            let value = combine(of(self), of(pivot))?;
            if value != 0 {
                terms.insert(*column, value);
            }
        }
        let sum = combine(self.sum, pivot.sum)?;
        let common = terms
            .values()
            .fold(sum, |a, b| greatest_common(a, *b))
            .max(1);
        Some(Self {
            terms: terms
                .into_iter()
                .map(|(at, value)| (at, value / common))
                .collect(),
            sum: sum / common,
            from: self.from.union(&pivot.from).copied().collect(),
        })
    }
}

/// The rows solved so far, by the columns they were solved for. None speaks of
/// another one's column.
#[derive(Default)]
struct Pivots {
    rows: BTreeMap<usize, Row>,
    /// For each other column the rows that speak of it: a change of one part of
    /// the card leaves those of all others alone.
    speaking: BTreeMap<usize, BTreeSet<usize>>,
}

impl Pivots {
    /// Takes every solved column out of a row.
    fn take_out_of(&self, row: &mut Row) -> Result<(), Clash> {
        let columns = row.terms.keys();
        let solved = columns.filter_map(|column| Some((*column, self.rows.get(column)?)));
        for (column, pivot) in solved.collect::<Vec<_>>() {
            *row = row.without(column, pivot).ok_or(Clash::TooTangled)?;
        }
        Ok(())
    }

    /// Adds a row in which every solved column was taken out, and takes its own
    /// column out of the others.
    fn add(&mut self, column: usize, row: Row) -> Result<(), Clash> {
        let others = || row.terms.keys().filter(|at| **at != column);
        for of in self.speaking.remove(&column).unwrap_or_default() {
            let Some(pivot) = self.rows.get_mut(&of) else {
                continue;
            };
            *pivot = pivot.without(column, &row).ok_or(Clash::TooTangled)?;
            for at in others() {
                let speaking = self.speaking.entry(*at).or_default();
                if pivot.terms.contains_key(at) {
                    speaking.insert(of);
                } else {
                    speaking.remove(&of);
                }
            }
        }
        for at in others() {
            self.speaking.entry(*at).or_default().insert(column);
        }
        self.rows.insert(column, row);
        Ok(())
    }
}

fn greatest_common(a: i128, b: i128) -> i128 {
    let (mut a, mut b) = (a.saturating_abs(), b.saturating_abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

impl Recipe {
    /// Gives some measures new values and moves what depends on them: first
    /// the `yielding` ones, then the recipe's later measures before its earlier
    /// ones, never a pinned one. `also` holds in addition, for this change
    /// alone. Nothing moves where that cannot be done; relations that only
    /// should hold are left behind where they are in the way. Limits are not
    /// looked at: they are for [`crate::refit`], and [`Recipe::broken`] says
    /// which inequalities a change has left behind.
    pub fn settle(
        &mut self,
        asked: &[(MeasureId, Length)],
        also: &[Relation],
        yielding: &[MeasureId],
    ) -> Result<Vec<Change>, Clash> {
        let mut held: Vec<Relation> = self.held();
        held.extend_from_slice(also);
        held.retain(|relation| relation.is == Is::Equal);
        let mut now: BTreeMap<MeasureId, Length> = self
            .measures
            .iter()
            .map(|measure| (measure.id, measure.value))
            .collect();
        now.extend(asked.iter().copied());
        let (columns, firm) = self.by_firmness(asked, yielding);
        let solved = loop {
            match self.solve(&held, &columns, firm, &mut now, asked) {
                Err(Clash::Relations { relations, .. }) => {
                    let spare = held.iter().rposition(|relation| {
                        relation.holds == Holds::Should && relations.contains(relation)
                    });
                    match spare {
                        Some(spare) => held.remove(spare),
                        None => {
                            return Err(self.least_clash(relations, &columns, firm, &now, asked));
                        }
                    };
                }
                solved => break solved?,
            }
        };
        share_leftovers(&held, &solved, &mut now);
        self.refuse_nonsense(&now)?;
        Ok(self.take(&now))
    }

    /// The measures from the least firm to the firmest, and the first column
    /// that may not move.
    fn by_firmness(
        &self,
        asked: &[(MeasureId, Length)],
        yielding: &[MeasureId],
    ) -> (Vec<MeasureId>, usize) {
        let is_asked = |measure: &Measure| asked.iter().any(|(id, _)| *id == measure.id);
        let mut columns: Vec<_> = self.measures.iter().rev().collect();
        columns.put_in_order_by_key(|measure| {
            let yields = yielding.contains(&measure.id);
            (is_asked(measure), measure.pinned, !yields)
        });
        let may_move = columns.iter();
        let may_move = may_move.take_while(|measure| !measure.pinned && !is_asked(measure));
        let firm = may_move.count();
        (columns.into_iter().map(|it| it.id).collect(), firm)
    }

    /// Solves each relation for its least firm measure and writes the values
    /// found into `now`. Returns the measures that were solved for.
    fn solve(
        &self,
        held: &[Relation],
        columns: &[MeasureId],
        firm: usize,
        now: &mut BTreeMap<MeasureId, Length>,
        asked: &[(MeasureId, Length)],
    ) -> Result<Vec<MeasureId>, Clash> {
        let index: BTreeMap<_, _> = columns.iter().zip(0..).collect();
        let mut pivots = Pivots::default();
        for (number, relation) in held.iter().enumerate() {
            let mut row = Row {
                terms: BTreeMap::new(),
                sum: i128::from(relation.plus.units()),
                from: BTreeSet::from([number]),
            };
            for (times, of) in relation.terms() {
                if let Some(column) = index.get(&of) {
                    *row.terms.entry(*column).or_insert(0) += i128::from(times);
                }
            }
            row.terms.retain(|_, times| *times != 0);
            pivots.take_out_of(&mut row)?;
            match row.terms.keys().next().copied() {
                Some(column) if column < firm => pivots.add(column, row)?,
                _ => self.check_firm(held, &row, columns, now, asked)?,
            }
        }
        // Every pivot row now speaks of its own measure and of ones that stay.
        let mut solved = Vec::new();
        for (column, row) in &pivots.rows {
            let (mut rest, mut own) = (row.sum, 1);
            for (at, times) in &row.terms {
                if at == column {
                    own = *times;
                } else if let Some(value) = columns.get(*at).and_then(|id| now.get(id)) {
                    let part = times.checked_mul(i128::from(value.units()));
                    rest = part
                        .and_then(|part| rest.checked_sub(part))
                        .ok_or(Clash::TooTangled)?;
                }
            }
            let Some(id) = columns.get(*column) else {
                continue;
            };
            let (rest, own) = if own < 0 { (-rest, -own) } else { (rest, own) };
            let units = i64::try_from(half_even(rest, own)).map_err(|_| Clash::TooLong(*id))?;
            now.insert(*id, Length::from_units(units));
            solved.push(*id);
        }
        Ok(solved)
    }

    /// A row that speaks only of measures that may not move must hold as it is.
    fn check_firm(
        &self,
        held: &[Relation],
        row: &Row,
        columns: &[MeasureId],
        now: &BTreeMap<MeasureId, Length>,
        asked: &[(MeasureId, Length)],
    ) -> Result<(), Clash> {
        let mut off = row.sum;
        let mut slack = 0_i128;
        for (at, times) in &row.terms {
            let value = columns.get(*at).and_then(|id| now.get(id));
            let units = i128::from(value.copied().unwrap_or_default().units());
            off = times
                .checked_mul(units)
                .and_then(|part| off.checked_sub(part))
                .ok_or(Clash::TooTangled)?;
            slack = slack.saturating_add(times.saturating_abs().saturating_mul(ROUNDING));
        }
        if off.saturating_abs() <= slack {
            return Ok(());
        }
        let relations: Vec<_> = row
            .from
            .iter()
            .filter_map(|number| held.get(*number))
            .cloned()
            .collect();
        Err(self.clash(relations, asked))
    }

    /// The clash without the relations it does not need: each is left out in
    /// turn, and stays out where the rest still clash.
    fn least_clash(
        &self,
        mut relations: Vec<Relation>,
        columns: &[MeasureId],
        firm: usize,
        now: &BTreeMap<MeasureId, Length>,
        asked: &[(MeasureId, Length)],
    ) -> Clash {
        let mut clash = None;
        let mut at = 0;
        while at < relations.len() {
            let mut fewer = relations.clone();
            fewer.remove(at);
            match self.solve(&fewer, columns, firm, &mut now.clone(), asked) {
                Err(smaller @ Clash::Relations { .. }) => {
                    clash = Some(smaller);
                    relations = fewer;
                }
                _ => at += 1,
            }
        }
        clash.unwrap_or_else(|| self.clash(relations, asked))
    }

    /// The relations, with the pinned measures they mention.
    fn clash(&self, relations: Vec<Relation>, asked: &[(MeasureId, Length)]) -> Clash {
        let pinned = self
            .measures
            .iter()
            .filter(|measure| measure.pinned)
            .filter(|measure| !asked.iter().any(|(id, _)| *id == measure.id))
            .filter(|measure| relations.iter().any(|held| held.mentions(measure.id)))
            .map(|measure| measure.id)
            .collect();
        Clash::Relations { relations, pinned }
    }

    /// What does not hold as the measures stand and yet must: an equation that
    /// is off by more than rounding explains, or a measure less than it has to
    /// be.
    pub fn broken(&self) -> Vec<Relation> {
        let mut off = self.off();
        off.retain(|relation| relation.holds == Holds::Must);
        off
    }

    /// The same with what only should hold.
    pub(super) fn off(&self) -> Vec<Relation> {
        let measures = self.measures.iter();
        let values: BTreeMap<_, _> = measures.map(|it| (it.id, it.value)).collect();
        let holds = |relation: &Relation| {
            let mut over = -i128::from(relation.plus.units());
            let mut slack = 0_i128;
            for (times, of) in relation.terms() {
                let value = values.get(&of).copied().unwrap_or_default();
                over = over.saturating_add(i128::from(times) * i128::from(value.units()));
                slack += i128::from(times).abs() * ROUNDING;
            }
            match relation.is {
                Is::Equal => over.abs() <= slack,
                Is::AtLeast => over >= -slack,
                Is::AtMost => over <= slack,
            }
        };
        let mut held = self.held();
        held.retain(|relation| !holds(relation));
        held
    }

    /// Refuses sizes without paper and lengths past the limit.
    fn refuse_nonsense(&self, now: &BTreeMap<MeasureId, Length>) -> Result<(), Clash> {
        for measure in self.sizes() {
            match now.get(&measure) {
                Some(value) if *value <= Length::ZERO => {
                    return Err(Clash::NotPositive {
                        measure,
                        value: *value,
                    });
                }
                _ => {}
            }
        }
        match now.iter().find(|(_, value)| value.abs() > Length::LIMIT) {
            Some((measure, _)) => Err(Clash::TooLong(*measure)),
            None => Ok(()),
        }
    }

    fn take(&mut self, now: &BTreeMap<MeasureId, Length>) -> Vec<Change> {
        let mut changes = Vec::new();
        for measure in &mut self.measures {
            if let Some(to) = now.get(&measure.id) {
                if (*to - measure.value).abs() > STILL {
                    changes.push(Change {
                        measure: measure.id,
                        from: measure.value,
                        to: *to,
                    });
                }
                measure.value = *to;
            }
        }
        // What is changed by hand is designed so.
        if !changes.is_empty() {
            self.take_for_design();
        }
        changes
    }
}

/// Where a length does not divide into whole units (1/72 µm), rounding each
/// part leaves a unit or two over; they go to the least firm part, so that sums
/// are exact. The panels of a strip, whose sum is held first, are put right
/// last, so that nothing that lies on a panel spoils it.
fn share_leftovers(held: &[Relation], solved: &[MeasureId], now: &mut BTreeMap<MeasureId, Length>) {
    let index: BTreeMap<_, _> = solved.iter().zip(0..).collect();
    let sums = held.iter().filter(|held| held.terms().count() > 2);
    for relation in sums.rev() {
        let mut off = i128::from(relation.plus.units());
        let mut slack = 0;
        for (times, of) in relation.terms() {
            let value = now.get(&of).copied().unwrap_or_default();
            off -= i128::from(times) * i128::from(value.units());
            slack += i128::from(times).abs() * ROUNDING;
        }
        if off == 0 || off.abs() > slack {
            continue;
        }
        let taker = relation
            .terms()
            .filter(|(times, _)| times.abs() == 1)
            .filter_map(|(times, of)| Some((*index.get(&of)?, times, of)))
            .min_by_key(|(index, ..)| *index);
        if let (Some((_, times, of)), Ok(off)) = (taker, i64::try_from(off))
            && let Some(value) = now.get_mut(&of)
        {
            *value += Length::from_units(off * times);
        }
    }
}
