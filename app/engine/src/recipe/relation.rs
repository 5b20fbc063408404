//! What must hold between measures: sums, equal measures, mats less borders.

use serde::{Deserialize, Serialize};

use super::MeasureId;
use crate::length::Length;

/// A whole number of times a measure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Term {
    /// How many times; 1 where nothing is said.
    #[serde(default = "once", skip_serializing_if = "is_once")]
    pub times: i64,
    /// The measure.
    pub of: MeasureId,
}

fn once() -> i64 {
    1
}

#[allow(
    clippy::trivially_copy_pass_by_ref,
    reason = "the signature serde asks for"
)]
fn is_once(times: &i64) -> bool {
    *times == 1
}

/// How the two sides of a relation compare.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Is {
    /// They are equal.
    #[default]
    Equal,
    /// The left side is at least the right side.
    AtLeast,
    /// The left side is at most the right side.
    AtMost,
}

/// Whether a card can do without a relation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Holds {
    /// There is no card without it.
    #[default]
    Must,
    /// It is given up where nothing else helps; of several that may be given
    /// up, the recipe's later ones go before its earlier ones.
    Should,
}

impl Holds {
    #[expect(
        clippy::trivially_copy_pass_by_ref,
        reason = "the signature serde asks for"
    )]
    fn is_must(&self) -> bool {
        *self == Self::Must
    }
}

/// Sum of the left terms is (or is at least, or at most) the sum of the right
/// terms plus a fixed length: "mat width + 2 × border = panel width".
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Relation {
    /// The terms on the left.
    pub left: Vec<Term>,
    /// How the sides compare.
    #[serde(default)]
    pub is: Is,
    /// The terms on the right.
    #[serde(default)]
    pub right: Vec<Term>,
    /// A fixed length added on the right.
    #[serde(default)]
    pub plus: Length,
    /// Whether a card can do without it.
    #[serde(default, skip_serializing_if = "Holds::is_must")]
    pub holds: Holds,
}

impl Relation {
    /// `left` equals the sum of `right`.
    pub fn sum(whole: MeasureId, parts: impl IntoIterator<Item = MeasureId>) -> Self {
        Self {
            left: vec![Term {
                times: 1,
                of: whole,
            }],
            is: Is::Equal,
            right: parts.into_iter().map(|of| Term { times: 1, of }).collect(),
            plus: Length::ZERO,
            holds: Holds::Must,
        }
    }

    /// `a` equals `b`.
    pub fn same(a: MeasureId, b: MeasureId) -> Self {
        Self::sum(a, [b])
    }

    /// `part` plus `times` times `gap` equals `whole`.
    pub fn less(part: MeasureId, times: i64, gap: MeasureId, whole: MeasureId) -> Self {
        Self {
            left: vec![Term { times: 1, of: part }, Term { times, of: gap }],
            is: Is::Equal,
            right: vec![Term {
                times: 1,
                of: whole,
            }],
            plus: Length::ZERO,
            holds: Holds::Must,
        }
    }

    /// Whether a measure takes part.
    pub fn mentions(&self, id: MeasureId) -> bool {
        self.terms().any(|(_, of)| of == id)
    }

    /// Every term carried to the left side, with its sign.
    pub(crate) fn terms(&self) -> impl Iterator<Item = (i64, MeasureId)> + '_ {
        let left = self.left.iter().map(|term| (term.times, term.of));
        let right = self
            .right
            .iter()
            .map(|term| (term.times.saturating_neg(), term.of));
        left.chain(right)
    }
}
