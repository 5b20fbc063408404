//! The marks a measure can fall on.

use std::collections::BTreeMap;

use super::model::{Held, marks};
use crate::length::Length;

/// Marks at equal steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Grid {
    /// Where one of the marks is, in units.
    pub(super) start: i64,
    /// From mark to mark, in units; above zero.
    pub(super) step: i64,
}

impl Grid {
    /// The marks of a ruler.
    pub(super) const fn marks(step: Length) -> Self {
        Self {
            start: 0,
            step: step.units(),
        }
    }

    /// The same marks moved so that one falls on a length.
    pub(super) const fn through(self, length: Length) -> Self {
        Self {
            start: length.units().rem_euclid(self.step),
            ..self
        }
    }

    /// The units of a mark.
    pub(super) fn at(self, count: i64) -> i128 {
        i128::from(self.start) + i128::from(count) * i128::from(self.step)
    }

    /// The nearest mark.
    pub(super) fn nearest(self, units: i128) -> i64 {
        marks(units - i128::from(self.start), self.step)
    }

    /// The first mark not below.
    pub(super) fn not_below(self, units: i128) -> i128 {
        -(i128::from(self.start) - units).div_euclid(self.step.into())
    }

    /// The last mark not above.
    pub(super) fn not_above(self, units: i128) -> i128 {
        (units - i128::from(self.start)).div_euclid(self.step.into())
    }
}

/// Lets those measures leave the marks that must, for the equations to hold:
/// each equation whose fixed length is not a whole number of steps moves the
/// marks of its last measure that may still choose. `fixed` may not.
///
/// Equations that only a measure which stands in them several times could take
/// up are left as they are.
pub(super) fn loosened<'a>(
    grids: &[Grid],
    held: impl IntoIterator<Item = &'a Held>,
    fixed: &[bool],
) -> Option<Vec<Grid>> {
    let step = i128::from(grids.iter().map(|grid| grid.step).max()?);
    let mut pivots: Vec<(usize, BTreeMap<usize, i128>, i128)> = Vec::new();
    for equation in held {
        let Some(sum) = equation.least.filter(|_| equation.least == equation.most) else {
            continue;
        };
        let mut sum = sum;
        let mut terms: BTreeMap<usize, i128> = BTreeMap::new();
        for (at, times) in &equation.terms {
            if *fixed.get(*at)? {
                sum -= i128::from(*times) * i128::from(grids.get(*at)?.start);
            } else {
                terms.insert(*at, (*times).into());
            }
        }
        for (column, theirs, their_sum) in &pivots {
            if let Some(times) = terms.remove(column) {
                for (at, other) in theirs {
                    let now = terms.entry(*at).or_insert(0);
                    *now = now.checked_sub(times.checked_mul(*other)?)?;
                }
                sum = sum.checked_sub(times.checked_mul(*their_sum)?)?;
            }
        }
        terms.retain(|_, times| *times != 0);
        let unit = terms.iter().rev().find(|(_, times)| times.abs() == 1);
        let Some((column, sign)) = unit.map(|(column, sign)| (*column, *sign)) else {
            continue;
        };
        terms.remove(&column);
        for times in terms.values_mut() {
            *times *= sign;
        }
        pivots.push((column, terms, (sum * sign).rem_euclid(step)));
    }
    // Later rows speak of no earlier column, so they are settled first. What
    // may choose freely stays on its mark.
    let mut starts = BTreeMap::new();
    for (column, terms, sum) in pivots.into_iter().rev() {
        let mut start = sum;
        for (at, times) in terms {
            let other = starts.get(&at).copied().unwrap_or(0);
            start = start.checked_sub(times.checked_mul(other)?)?;
        }
        starts.insert(column, start.rem_euclid(step));
    }
    let mut loose = grids.to_vec();
    for (at, start) in starts {
        let grid = loose.get_mut(at)?;
        grid.start = i64::try_from(start.rem_euclid(grid.step.into())).ok()?;
    }
    Some(loose)
}
