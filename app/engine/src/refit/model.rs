//! A recipe and a wish as a program in whole numbers of marks.

use std::collections::{BTreeMap, BTreeSet};

use super::Cause;
use super::grid::{Grid, loosened};
use crate::length::{Length, half_even};
use crate::program::{Answer, Column, Goal, Overflow, Part, Program, Range, Work};
use crate::recipe::{Is, MeasureId, Recipe, Relation};

/// A sum of measures, by their index in the recipe, within a range of units.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Held {
    /// Where it comes from.
    pub(super) cause: Cause,
    /// How many times each measure; none zero times.
    pub(super) terms: BTreeMap<usize, i64>,
    /// The least the sum may be.
    pub(super) least: Option<i128>,
    /// The most the sum may be.
    pub(super) most: Option<i128>,
    /// Whether the maker is told where it is given up.
    pub(super) told: bool,
}

impl Held {
    /// What the measures add up to.
    pub(super) fn sum(&self, values: &[i128]) -> i128 {
        let value = |at: &usize| values.get(*at).copied().unwrap_or(0);
        let terms = self.terms.iter();
        terms
            .map(|(at, times)| i128::from(*times) * value(at))
            .sum()
    }

    /// Whether the measures satisfy it.
    pub(super) fn by(&self, values: &[i128]) -> bool {
        let sum = self.sum(values);
        self.least.is_none_or(|least| sum >= least) && self.most.is_none_or(|most| sum <= most)
    }

    /// The measure this pins, and where.
    pub(super) fn pin(&self) -> Option<(usize, i128)> {
        let pins = matches!(self.cause, Cause::Pinned(_) | Cause::Asked(_));
        let value = self.least.filter(|_| pins && self.least == self.most)?;
        Some((*self.terms.keys().next()?, value))
    }

    /// A sum counted in marks, without what all its numbers share. Bounds that
    /// fall between two sums that can be are drawn in.
    #[expect(clippy::type_complexity, reason = "terms and range, used once")]
    fn counted(
        &self,
        grids: &[Grid],
    ) -> Result<(Vec<(usize, i64)>, Option<i64>, Option<i64>), Overflow> {
        let mut start = 0_i128;
        let mut common = 0_i128;
        for (at, times) in &self.terms {
            let grid = &grids[*at];
            start += i128::from(*times) * i128::from(grid.start);
            let step = i128::from(*times) * i128::from(grid.step);
            (common, _) = std::iter::successors(Some((common, step)), |(a, b)| {
                (*b != 0).then(|| (*b, a % b))
            })
            .last()
            .unwrap_or((1, 0));
        }
        let common = common.abs().max(1);
        let narrow = |number: i128| i64::try_from(number).map_err(|_| Overflow);
        let terms = self.terms.iter().map(|(at, times)| {
            let step = i128::from(*times) * i128::from(grids[*at].step);
            Ok((*at, narrow(step / common)?))
        });
        let least = self.least.map(|least| -(start - least).div_euclid(common));
        let most = self.most.map(|most| (most - start).div_euclid(common));
        Ok((
            terms.collect::<Result<_, _>>()?,
            least.map(narrow).transpose()?,
            most.map(narrow).transpose()?,
        ))
    }
}

/// The measures of a recipe and all that is to hold between them.
#[derive(Debug, Clone)]
pub(super) struct Model {
    index: BTreeMap<MeasureId, usize>,
    /// What each measure is now.
    now: Vec<i128>,
    /// On which marks each measure falls as long as nothing pins it.
    pub(super) ruler: Vec<Grid>,
    /// What is centred, and may fall halfway between marks.
    pub(super) centred: BTreeSet<usize>,
    /// On which marks each measure falls with all of what is hard.
    pub(super) grids: Vec<Grid>,
    /// What holds in any case.
    pub(super) hard: Vec<Held>,
    /// What should hold, the most important first.
    pub(super) soft: Vec<Held>,
}

/// The measures found, in units.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Found {
    pub(super) values: Vec<i128>,
    /// Whether no card is nearer; otherwise the search was cut short, or it was
    /// for any card.
    pub(super) nearest: bool,
}

/// What came of some of what holds.
pub(super) enum Tried {
    Found(Found),
    /// These, by their indices, can't hold together.
    Impossible(BTreeSet<usize>),
    CutShort,
}

impl Model {
    /// The measures of a recipe, with nothing to hold between them yet.
    pub(super) fn of(recipe: &Recipe, step: Length) -> Self {
        let ids = recipe.measures.iter().map(|measure| measure.id);
        Self {
            index: ids.zip(0..).collect(),
            now: recipe
                .measures
                .iter()
                .map(|measure| measure.value.units().into())
                .collect(),
            ruler: vec![Grid::marks(step); recipe.measures.len()],
            centred: BTreeSet::new(),
            grids: vec![Grid::marks(step); recipe.measures.len()],
            hard: Vec::new(),
            soft: Vec::new(),
        }
    }

    pub(super) fn index_of(&self, id: MeasureId) -> Option<usize> {
        self.index.get(&id).copied()
    }

    /// A sum of measures within a range.
    pub(super) fn held(
        &self,
        cause: Cause,
        terms: impl IntoIterator<Item = (i64, MeasureId)>,
        least: Option<Length>,
        most: Option<Length>,
    ) -> Held {
        let mut sums = BTreeMap::new();
        for (times, of) in terms {
            if let Some(at) = self.index_of(of) {
                *sums.entry(at).or_insert(0) += times;
            }
        }
        sums.retain(|_, times| *times != 0);
        Held {
            cause,
            terms: sums,
            least: least.map(|least| least.units().into()),
            most: most.map(|most| most.units().into()),
            told: true,
        }
    }

    /// A relation.
    pub(super) fn relation(&self, cause: Cause, relation: &Relation) -> Held {
        let plus = Some(relation.plus);
        let (least, most) = match relation.is {
            Is::Equal => (plus, plus),
            Is::AtLeast => (plus, None),
            Is::AtMost => (None, plus),
        };
        self.held(cause, relation.terms(), least, most)
    }

    /// What each measure would be with nothing to hold: the mark nearest to
    /// what it is.
    pub(super) fn targets(&self) -> Vec<i128> {
        let marks = self.grids.iter().zip(&self.now);
        marks
            .map(|(grid, now)| grid.at(grid.nearest(*now)))
            .collect()
    }

    /// What a step off its mark costs for each measure: between once for the
    /// last and twice for the first, so that of two cards as near as each
    /// other the one is taken that changes what is firmer less.
    pub(super) fn weights(&self) -> impl Iterator<Item = i64> + '_ {
        let finest = self.grids.iter().map(|grid| grid.step).min().unwrap_or(1);
        let count = i64::try_from(self.grids.len()).unwrap_or(i64::MAX / 2);
        let firmness = (count + 1..=2 * count).rev();
        let grids = self.grids.iter().zip(firmness);
        grids.map(move |(grid, firmness)| firmness * (grid.step / finest))
    }

    /// What the change to these values costs.
    pub(super) fn cost(&self, values: &[i128]) -> i128 {
        let off = self.targets().into_iter().zip(values);
        off.zip(&self.grids)
            .zip(self.weights())
            .map(|(((target, value), grid), weight)| {
                (target - value).abs() / i128::from(grid.step) * i128::from(weight)
            })
            .sum()
    }

    /// The marks on which measures fall where this holds: what is pinned stays
    /// where it is, on a mark of the ruler or not.
    pub(super) fn marks<'a>(&self, held: impl IntoIterator<Item = &'a Held>) -> Vec<Grid> {
        let mut grids = self.ruler.clone();
        for (at, value) in held.into_iter().filter_map(Held::pin) {
            if let Some(grid) = grids.get_mut(at) {
                *grid = grid.through(Self::length(value));
            }
        }
        grids
    }

    /// The marks where this holds with those measures let fall between marks
    /// that cannot do otherwise: beside fixed lengths that are no whole number
    /// of steps, and halfway for what is centred. `None` where that changes
    /// nothing.
    pub(super) fn loose<'a>(
        &self,
        held: impl IntoIterator<Item = &'a Held> + Clone,
    ) -> Option<Vec<Grid>> {
        let strict = self.marks(held.clone());
        let mut fixed = vec![false; strict.len()];
        for (at, _) in held.clone().into_iter().filter_map(Held::pin) {
            *fixed.get_mut(at)? = true;
        }
        let mut grids = strict.clone();
        for at in &self.centred {
            if let Some(grid) = grids.get_mut(*at).filter(|_| !fixed[*at]) {
                grid.step = (grid.step / 2).max(1);
            }
        }
        loosened(&grids, held, &fixed).filter(|loose| *loose != strict)
    }

    /// Measures on some marks that satisfy some of what holds: the nearest, or
    /// any. Where some are known already, only nearer ones are looked for.
    pub(super) fn solve<'a>(
        &self,
        grids: &[Grid],
        held: impl IntoIterator<Item = &'a Held>,
        goal: Goal,
        known: Option<&Found>,
        work: &mut Work,
    ) -> Result<Tried, Overflow> {
        let limit = i128::from(Length::LIMIT.units());
        let columns = grids.iter().zip(&self.now).zip(self.weights());
        let columns = columns.map(|((grid, now), weight)| Column {
            least: i64::try_from(grid.not_below(-limit)).ok(),
            target: grid.nearest(*now),
            most: i64::try_from(grid.not_above(limit)).ok(),
            weight,
        });
        let mut program = Program {
            columns: columns.collect(),
            ranges: Vec::new(),
        };
        let count = program.columns.len();
        let (mut below, mut above) = (vec![None; count], vec![None; count]);
        let mut ranged = Vec::new();
        for (number, held) in held.into_iter().enumerate() {
            let (terms, least, most) = held.counted(grids)?;
            match terms[..] {
                [] if least.is_none_or(|least| least <= 0) && most.is_none_or(|most| most >= 0) => {
                }
                [] => return Ok(Tried::Impossible(BTreeSet::from([number]))),
                [(at, times)] => {
                    let flip = |bound: Option<i64>| bound.map(i64::saturating_neg);
                    let (least, most) = if times > 0 {
                        (least, most)
                    } else {
                        (flip(most), flip(least))
                    };
                    let column = &mut program.columns[at];
                    if least > column.least {
                        column.least = least;
                        below[at] = Some(number);
                    }
                    if let Some(most) = most
                        && column.most.is_none_or(|bound| most < bound)
                    {
                        column.most = Some(most);
                        above[at] = Some(number);
                    }
                }
                _ => {
                    ranged.push(number);
                    program.ranges.push(Range { terms, least, most });
                }
            }
        }
        for column in &mut program.columns {
            let target = column.target.min(column.most.unwrap_or(i64::MAX));
            column.target = target.max(column.least.unwrap_or(i64::MIN));
        }
        let known = known.map(|known| {
            let counts = grids.iter().zip(&known.values);
            counts.map(|(grid, value)| grid.nearest(*value)).collect()
        });
        let known: Option<Vec<i64>> = known;
        Ok(match program.solve(goal, known.as_deref(), work)? {
            Answer::Found { values, least } => Tried::Found(Found {
                values: grids
                    .iter()
                    .zip(values)
                    .map(|(grid, count)| grid.at(count))
                    .collect(),
                nearest: least,
            }),
            Answer::Infeasible(parts) => {
                let from = parts.into_iter().filter_map(|part| match part {
                    Part::Least(at) => below.get(at).copied().flatten(),
                    Part::Most(at) => above.get(at).copied().flatten(),
                    Part::Range(range) => ranged.get(range).copied(),
                });
                Tried::Impossible(from.collect())
            }
            Answer::Unknown => Tried::CutShort,
        })
    }

    /// What a value is as a length.
    pub(super) fn length(units: i128) -> Length {
        Length::from_units(i64::try_from(units).unwrap_or(i64::MAX))
    }

    /// The measures nearest to these of all that satisfy what is hard and as
    /// much as possible of what is soft, with the indices of what is given up.
    pub(super) fn settle(
        &self,
        work: &mut Work,
    ) -> Result<Result<(Found, Vec<usize>), Stuck>, Overflow> {
        let solve = |kept: &[&Held], goal, known: Option<&Found>, work: &mut Work| {
            let held = self.hard.iter().chain(kept.iter().copied());
            self.solve(&self.grids, held, goal, known, work)
        };
        let mut part = work.part(3);
        let first = solve(&[], Goal::Least, None, &mut part);
        work.back(part);
        let mut found = match first? {
            Tried::Found(found) => found,
            Tried::Impossible(_) => return Ok(Err(Stuck::Impossible)),
            Tried::CutShort => return Ok(Err(Stuck::CutShort)),
        };
        let (mut kept, mut given_up): (Vec<&Held>, Vec<usize>) = Default::default();
        // Whether it is known of all that is given up that it has to be.
        let mut sure = true;
        let mut moved = false;
        for (number, soft) in self.soft.iter().enumerate() {
            kept.push(soft);
            if soft.by(&found.values) {
                continue;
            }
            // Which measures these are is settled at the end.
            let mut part = work.part(self.soft.len() - number + 1);
            let tried = solve(&kept, Goal::Any, None, &mut part);
            work.back(part);
            match tried? {
                Tried::Found(other) => {
                    found = other;
                    moved = true;
                }
                tried => {
                    sure &= matches!(tried, Tried::Impossible(_));
                    kept.pop();
                    given_up.push(number);
                }
            }
        }
        if moved && let Tried::Found(nearer) = solve(&kept, Goal::Least, Some(&found), work)? {
            found = nearer;
        }
        found.nearest &= sure;
        Ok(Ok((found, given_up)))
    }
}

/// Why there are no measures.
pub(super) enum Stuck {
    /// What is hard can't hold together.
    Impossible,
    /// The search was cut short.
    CutShort,
}

/// `over / under` in marks, ties to even.
pub(super) fn marks(over: i128, under: i64) -> i64 {
    i64::try_from(half_even(over, under.into())).unwrap_or(0)
}
