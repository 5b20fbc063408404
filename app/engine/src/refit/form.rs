//! Sums of measures that tell where something of the closed card lies.

use std::collections::BTreeMap;

use super::Cause;
use super::model::{Held, Model};
use crate::length::Length;
use crate::plane::{Bearing, Turn};
use crate::recipe::{MeasureId, Recipe};

/// How many parts a whole is told in. Folds along the edges and at half a right
/// angle to them need wholes only; those at any other angle turn paper by a
/// cosine and a sine, which are rounded to this part, and what that leaves off
/// is found when the card is folded anew.
const WHOLE: i64 = 1 << 12;

/// A sum of measures and a fixed length.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) struct Form {
    /// How many parts of a whole of each measure; none zero times.
    terms: BTreeMap<MeasureId, i64>,
    /// The fixed length, in parts of a unit.
    plus: i128,
}

impl Form {
    /// A measure.
    pub(super) fn of(measure: MeasureId) -> Self {
        Self {
            terms: BTreeMap::from([(measure, WHOLE)]),
            plus: 0,
        }
    }

    /// This and so many parts of another.
    #[must_use]
    fn and(&self, other: &Self, parts: i64) -> Self {
        let share = |times: i128| {
            let parts = times * i128::from(parts);
            (2 * parts + i128::from(WHOLE)).div_euclid(2 * i128::from(WHOLE))
        };
        let mut terms = self.terms.clone();
        for (measure, times) in &other.terms {
            let more = i64::try_from(share((*times).into())).unwrap_or_default();
            let sum = terms.entry(*measure).or_insert(0);
            *sum = sum.saturating_add(more);
        }
        terms.retain(|_, times| *times != 0);
        Self {
            terms,
            plus: self.plus.saturating_add(share(other.plus)),
        }
    }

    /// The sum of two.
    #[must_use]
    pub(super) fn plus(&self, other: &Self) -> Self {
        self.and(other, WHOLE)
    }

    /// What one is more than another.
    #[must_use]
    pub(super) fn minus(&self, other: &Self) -> Self {
        self.and(other, -WHOLE)
    }

    /// This many times.
    #[must_use]
    pub(super) fn times(&self, share: f64) -> Self {
        Self::default().and(self, parts(share))
    }

    /// With each measure in place of which another stands replaced by that.
    #[must_use]
    pub(super) fn with(&self, instead: &BTreeMap<MeasureId, MeasureId>) -> Self {
        let mut terms = BTreeMap::new();
        for (measure, times) in &self.terms {
            let measure = instead.get(measure).unwrap_or(measure);
            *terms.entry(*measure).or_insert(0) += times;
        }
        terms.retain(|_, times| *times != 0);
        Self {
            terms,
            plus: self.plus,
        }
    }

    /// What it comes to in a recipe, in parts of a unit.
    fn value(&self, recipe: &Recipe) -> i128 {
        let terms = self.terms.iter();
        let terms = terms.map(|(measure, times)| {
            i128::from(*times) * i128::from(recipe.value(*measure).units())
        });
        terms.fold(self.plus, i128::saturating_add)
    }

    /// The same moved so that it comes to a length in a recipe.
    #[must_use]
    pub(super) fn through(mut self, at: Length, recipe: &Recipe) -> Self {
        let off = i128::from(at.units()) * i128::from(WHOLE) - self.value(recipe);
        self.plus = self.plus.saturating_add(off);
        self
    }

    /// Whether it is a sum of whole measures and nothing else, and so holds
    /// however long these are.
    pub(super) fn is_exact(&self) -> bool {
        self.plus == 0 && self.terms.values().all(|times| times % WHOLE == 0)
    }

    /// That it keeps a range.
    pub(super) fn between(
        &self,
        model: &Model,
        cause: Cause,
        least: Option<Length>,
        most: Option<Length>,
    ) -> Held {
        let common = self.terms.values().fold(0, |a, b| greatest_common(a, *b));
        let common = i128::from(common.max(1));
        let over = |length: Length| i128::from(length.units()) * i128::from(WHOLE) - self.plus;
        let narrow = |times: i64| i64::try_from(i128::from(times) / common).unwrap_or(i64::MAX);
        let terms = self.terms.iter();
        let terms = terms.map(|(id, times)| (narrow(*times), *id));
        Held {
            least: least.map(|least| -(-over(least)).div_euclid(common)),
            most: most.map(|most| over(most).div_euclid(common)),
            ..model.held(cause, terms, None, None)
        }
    }
}

/// A share in parts of a whole, to the nearest.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    reason = "a cast to an integer stops at its ends, and a whole is a small number"
)]
fn parts(share: f64) -> i64 {
    (share * WHOLE as f64).round() as i64
}

fn greatest_common(a: i64, b: i64) -> i64 {
    let (mut a, mut b) = (a.saturating_abs(), b.saturating_abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

/// Where a point lies.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct At {
    /// To the right.
    pub(super) x: Form,
    /// Upwards.
    pub(super) y: Form,
}

impl At {
    /// Moved by another.
    #[must_use]
    pub(super) fn plus(&self, by: &Self) -> Self {
        Self {
            x: self.x.plus(&by.x),
            y: self.y.plus(&by.y),
        }
    }

    /// From another to this.
    #[must_use]
    pub(super) fn minus(&self, from: &Self) -> Self {
        Self {
            x: self.x.minus(&from.x),
            y: self.y.minus(&from.y),
        }
    }

    /// Mirrored left to right where paper is, and then turned about the origin.
    #[must_use]
    pub(super) fn turned(&self, mirrored: bool, turn: Bearing) -> Self {
        let none = Form::default();
        let x = if mirrored {
            none.minus(&self.x)
        } else {
            self.x.clone()
        };
        let y = self.y.clone();
        match turn {
            Bearing::Quarter(Turn::None) => Self { x, y },
            Bearing::Quarter(Turn::Left) => Self {
                x: none.minus(&y),
                y: x,
            },
            Bearing::Quarter(Turn::Half) => Self {
                x: none.minus(&x),
                y: none.minus(&y),
            },
            Bearing::Quarter(Turn::Right) => Self {
                x: y,
                y: none.minus(&x),
            },
            Bearing::Slant(_) => {
                let (cos, sin) = turn.cos_sin();
                Self {
                    x: x.times(cos).minus(&y.times(sin)),
                    y: x.times(sin).plus(&y.times(cos)),
                }
            }
        }
    }
}
