//! Whether equations have an answer in whole numbers at all, however large.
//!
//! "Twice this less twice that is one" has none, and no search between bounds
//! would find that out soon.

use std::collections::{BTreeMap, BTreeSet};

use super::row::{Overflow, gcd};

/// An equation, or several put together.
pub(super) struct Equation {
    /// Its columns, none of them zero times.
    pub(super) terms: BTreeMap<usize, i64>,
    /// What they add up to.
    pub(super) sum: i64,
    /// What it was made from.
    pub(super) from: BTreeSet<usize>,
}

/// What the equations without an answer were made from; `None` where they have
/// one.
pub(super) fn contradiction(
    mut equations: Vec<Equation>,
) -> Result<Option<BTreeSet<usize>>, Overflow> {
    equations.reverse();
    while let Some(mut equation) = equations.pop() {
        let common = equation.terms.values().fold(0, |all, times| match all {
            0 => *times,
            all => gcd(all, *times),
        });
        if equation.terms.is_empty() {
            if equation.sum != 0 {
                return Ok(Some(equation.from));
            }
            continue;
        }
        if equation.sum % common != 0 {
            return Ok(Some(equation.from));
        }
        equation.sum /= common;
        for times in equation.terms.values_mut() {
            *times /= common;
        }
        let unit = loop {
            let least = equation
                .terms
                .iter()
                .min_by_key(|(_, times)| times.unsigned_abs());
            let Some((column, times)) = least.map(|(column, times)| (*column, *times)) else {
                return Ok(None);
            };
            if times.abs() == 1 {
                break (column, times);
            }
            // Counting this column differently leaves smaller numbers with the
            // others: it takes over as many times as it goes into them.
            let shares: Vec<(usize, i64)> = equation
                .terms
                .iter()
                .filter(|(other, _)| **other != column)
                .map(|(other, theirs)| (*other, theirs.div_euclid(times)))
                .collect();
            for equation in equations.iter_mut().chain([&mut equation]) {
                if let Some(mine) = equation.terms.get(&column).copied() {
                    for (other, share) in &shares {
                        put(equation, *other, mine, *share)?;
                    }
                }
            }
        };
        let (column, own) = unit;
        for other in &mut equations {
            let Some(times) = other.terms.get(&column).copied() else {
                continue;
            };
            let factor = times * own;
            for (at, theirs) in &equation.terms {
                put(other, *at, factor, *theirs)?;
            }
            let part = equation.sum.checked_mul(factor).ok_or(Overflow)?;
            other.sum = other.sum.checked_sub(part).ok_or(Overflow)?;
            other.from.extend(&equation.from);
        }
    }
    Ok(None)
}

/// Takes a column away `times · share` times.
fn put(equation: &mut Equation, column: usize, times: i64, share: i64) -> Result<(), Overflow> {
    let by = times.checked_mul(share).ok_or(Overflow)?;
    let now = equation.terms.get(&column).copied().unwrap_or(0);
    match now.checked_sub(by).ok_or(Overflow)? {
        0 => equation.terms.remove(&column),
        left => equation.terms.insert(column, left),
    };
    Ok(())
}
