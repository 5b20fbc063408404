//! Rounding to marks a person can set.

use super::{Length, Step};
use crate::sorted::InOrder as _;

/// The mark nearest to a length, and what the mark leaves over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Mark {
    /// Where the mark is: a whole number of steps.
    pub at: Length,
    /// The length less the mark: negative when the mark lies beyond it.
    pub rest: Length,
}

impl Mark {
    /// Whether the length falls on the mark.
    pub fn is_exact(self) -> bool {
        self.rest == Length::ZERO
    }

    fn new(length: Length, steps: i128, step: Step) -> Self {
        let at = Length::saturated(steps * i128::from(step.length().units()));
        Self {
            at,
            rest: length - at,
        }
    }
}

/// The nearest mark. Halfway between two marks the even multiple of the step
/// is taken (rule A of ISO 80000-1, annex B).
pub fn nearest(length: Length, step: Step) -> Mark {
    let steps = half_even(length.units().into(), step.length().units().into());
    Mark::new(length, steps, step)
}

/// The last mark that is not beyond the length.
pub fn floor(length: Length, step: Step) -> Mark {
    let steps = length.units().div_euclid(step.length().units());
    Mark::new(length, steps.into(), step)
}

/// The first mark that is not short of the length.
pub fn ceil(length: Length, step: Step) -> Mark {
    let under = floor(length, step);
    if under.is_exact() {
        under
    } else {
        let at = under.at + step.length();
        Mark {
            at,
            rest: length - at,
        }
    }
}

/// Rounds the parts of a whole to marks so that they still add up: the sum of
/// the results is the nearest mark of the exact sum.
///
/// Every part is first shortened to a mark; the steps then missing go to the
/// parts that lost most, the earlier part first when two lost the same. So a
/// part moves by less than one step, and one that lies on a mark stays.
pub fn round_parts(parts: &[Length], step: Step) -> Vec<Length> {
    let size = i128::from(step.length().units());
    let whole: i128 = parts.iter().map(|part| i128::from(part.units())).sum();
    let mut rounded: Vec<Mark> = parts.iter().map(|&part| floor(part, step)).collect();
    let kept: i128 = rounded.iter().map(|mark| i128::from(mark.at.units())).sum();
    let missing = half_even(whole, size) - kept / size;

    let mut by_loss: Vec<&mut Mark> = rounded.iter_mut().collect();
    by_loss.put_in_order_by_key(|mark| std::cmp::Reverse(mark.rest));
    for (mark, _) in by_loss.into_iter().zip(0..missing) {
        mark.at += step.length();
    }
    rounded.into_iter().map(|mark| mark.at).collect()
}

/// `over / under` rounded to a whole number, ties to even; `under` is positive.
pub(crate) fn half_even(over: i128, under: i128) -> i128 {
    let quotient = over.div_euclid(under);
    let twice_rest = 2 * over.rem_euclid(under);
    let up = twice_rest > under || (twice_rest == under && quotient % 2 != 0);
    quotient + i128::from(up)
}
