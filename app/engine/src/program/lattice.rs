//! Equations in whole numbers: whether they have an answer at all, however
//! large, and how all of their answers lie.
//!
//! "Twice this less twice that is one" has none, and no search between bounds
//! would find that out soon. Where there are answers, they lie on a grid, one
//! of them and whole multiples of some directions from it (the general solution
//! of linear Diophantine equations). Searching along short directions ends soon
//! where searching column by column does not (Aardal, Hurkens and Lenstra 2000).

use std::collections::{BTreeMap, BTreeSet};

use super::row::{Overflow, gcd};

/// A sum of columns, and what it is or is short of.
#[derive(Debug, Clone)]
pub(super) struct Sum {
    /// Its columns, none of them zero times.
    pub(super) terms: BTreeMap<usize, i64>,
    /// In an equation what they add up to.
    pub(super) total: i64,
    /// The equations it was made from.
    pub(super) from: BTreeSet<usize>,
}

/// All answers of some equations.
#[derive(Debug)]
pub(super) struct Lattice {
    /// One of them, column by column.
    pub(super) one: Vec<i64>,
    /// The directions in which the others lie, column by column.
    pub(super) along: Vec<Vec<i64>>,
}

/// What equations come to.
#[derive(Debug)]
pub(super) enum Solved {
    /// They have these answers.
    Answers(Lattice),
    /// Those made from these have none.
    None(BTreeSet<usize>),
}

/// All answers of equations between so many columns.
pub(super) fn solve(mut equations: Vec<Sum>, columns: usize) -> Result<Solved, Overflow> {
    // Each column starts as one that may be anything, and is rewritten whenever
    // an equation says what that one is.
    let mut written: Vec<Sum> = (0..columns)
        .map(|column| Sum {
            terms: BTreeMap::from([(column, 1)]),
            total: 0,
            from: BTreeSet::new(),
        })
        .collect();
    equations.reverse();
    while let Some(mut equation) = equations.pop() {
        let common = equation.terms.values().fold(0, |all, times| match all {
            0 => *times,
            all => gcd(all, *times),
        });
        if common == 0 && equation.total == 0 {
            continue;
        }
        if common == 0 || equation.total % common != 0 {
            return Ok(Solved::None(equation.from));
        }
        equation.total /= common;
        for times in equation.terms.values_mut() {
            *times /= common;
        }
        let (column, own) = loop {
            let least = equation
                .terms
                .iter()
                .min_by_key(|(_, times)| times.unsigned_abs());
            let (column, times) = least.map(|(at, times)| (*at, *times)).ok_or(Overflow)?;
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
            let all = equations.iter_mut().chain(&mut written);
            for sum in all.chain([&mut equation]) {
                if let Some(mine) = sum.terms.get(&column).copied() {
                    for (other, share) in &shares {
                        sum.take(*other, mine, *share)?;
                    }
                }
            }
        };
        for other in equations.iter_mut().chain(&mut written) {
            let Some(times) = other.terms.get(&column).copied() else {
                continue;
            };
            let factor = times.checked_mul(own).ok_or(Overflow)?;
            for (at, theirs) in &equation.terms {
                other.take(*at, factor, *theirs)?;
            }
            let part = equation.total.checked_mul(factor).ok_or(Overflow)?;
            other.total = other.total.checked_sub(part).ok_or(Overflow)?;
            other.from.extend(&equation.from);
        }
    }
    let free: BTreeSet<usize> = written
        .iter()
        .flat_map(|it| it.terms.keys().copied())
        .collect();
    let mut along: Vec<Vec<i64>> = free
        .into_iter()
        .map(|free| {
            let times = |sum: &Sum| sum.terms.get(&free).copied().unwrap_or(0);
            written.iter().map(times).collect()
        })
        .collect();
    shorten(&mut along)?;
    // A column written as terms is what they add up to, less the total.
    let one = written
        .iter()
        .map(|it| it.total.checked_neg().ok_or(Overflow));
    Ok(Solved::Answers(Lattice {
        one: one.collect::<Result<_, _>>()?,
        along,
    }))
}

impl Sum {
    /// Takes a column away `times · share` times.
    fn take(&mut self, column: usize, times: i64, share: i64) -> Result<(), Overflow> {
        let by = times.checked_mul(share).ok_or(Overflow)?;
        let now = self.terms.get(&column).copied().unwrap_or(0);
        match now.checked_sub(by).ok_or(Overflow)? {
            0 => self.terms.remove(&column),
            left => self.terms.insert(column, left),
        };
        Ok(())
    }
}

/// Shortens directions by each other for as long as that helps.
fn shorten(along: &mut [Vec<i64>]) -> Result<(), Overflow> {
    let dot = |a: &[i64], b: &[i64]| {
        a.iter().zip(b).try_fold(0_i128, |sum, (a, b)| {
            sum.checked_add(i128::from(*a) * i128::from(*b))
                .ok_or(Overflow)
        })
    };
    let mut shorter = true;
    while shorter {
        shorter = false;
        for long in 0..along.len() {
            for short in 0..along.len() {
                if long == short {
                    continue;
                }
                let size = dot(&along[short], &along[short])?;
                let shared = dot(&along[long], &along[short])?;
                // A tie leaves the length as it is, and could go on for ever.
                if size == 0 || 2 * shared.abs() <= size {
                    continue;
                }
                let times = (2 * shared + size).div_euclid(2 * size);
                let times = i64::try_from(times).map_err(|_| Overflow)?;
                let by = along[short].clone();
                for (of, by) in along[long].iter_mut().zip(by) {
                    let part = by.checked_mul(times).ok_or(Overflow)?;
                    *of = of.checked_sub(part).ok_or(Overflow)?;
                }
                shorter = true;
            }
        }
    }
    Ok(())
}
