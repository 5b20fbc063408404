//! What paper and what is bought besides costs.

use std::num::NonZeroU32;

use serde::{Deserialize, Serialize};

use crate::length::{DecimalMark, half_even};

/// An amount of whatever money the maker pays with, in hundredths.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Money(u32);

impl Money {
    /// From hundredths.
    pub const fn hundredths(hundredths: u32) -> Self {
        Self(hundredths)
    }

    /// Reads an amount as people type it: `12`, `12.5`, `12,50`. `None` for
    /// anything else, and for more than some 40 million.
    pub fn read(text: &str) -> Option<Self> {
        hundredths(text).map(Self)
    }

    /// As it is written, with two decimals.
    pub fn words(self, mark: DecimalMark) -> String {
        format!("{}{}{:02}", self.0 / 100, mark.as_str(), self.0 % 100)
    }

    /// So many times it. Saturates.
    #[must_use]
    pub const fn times(self, count: u32) -> Self {
        Self(self.0.saturating_mul(count))
    }

    /// What one of so many costs, to the nearest hundredth, ties to even.
    #[must_use]
    pub fn shared(self, by: NonZeroU32) -> Self {
        Self::rounded(half_even(self.0.into(), by.get().into()))
    }

    /// A part of it, from a fraction of more than nothing by more than nothing, to the
    /// nearest hundredth, ties to even. Saturates.
    pub(crate) fn part(self, taken: i128, of: i128) -> Self {
        Self::rounded(half_even(i128::from(self.0).saturating_mul(taken), of))
    }

    fn rounded(hundredths: i128) -> Self {
        Self(u32::try_from(hundredths).unwrap_or(u32::MAX))
    }
}

/// Reads a number with two decimals at most as people type it, in hundredths: `12`,
/// `12.5`, `12,50`. `None` for anything else, and for more than some 40 million.
pub fn hundredths(text: &str) -> Option<u32> {
    let text = text.trim();
    let (whole, part) = text.split_once(['.', ',']).unwrap_or((text, "0"));
    let is_number =
        |text: &str| !text.is_empty() && text.bytes().all(|letter| letter.is_ascii_digit());
    if !is_number(whole) || !is_number(part) || part.len() > 2 {
        return None;
    }
    let hundredths: u32 = format!("{part:0<2}").parse().ok()?;
    let whole: u32 = whole.parse().ok()?;
    whole.checked_mul(100)?.checked_add(hundredths)
}

impl std::iter::Sum for Money {
    /// Saturates, as lengths do.
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::default(), |sum, more| {
            Self(sum.0.saturating_add(more.0))
        })
    }
}

/// What is bought of something.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ToBuy {
    /// Whole packs or rolls.
    pub packs: u32,
    /// What they cost, where the price of one is known.
    pub costs: Option<Money>,
}

/// Paper as it is bought.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Pack {
    /// What a pack costs.
    pub price: Money,
    /// How many sheets are in it.
    pub sheets: NonZeroU32,
}

impl Pack {
    /// What is bought where so many sheets are short.
    pub const fn to_buy(self, sheets: u32) -> ToBuy {
        let packs = sheets.div_ceil(self.sheets.get());
        ToBuy {
            packs,
            costs: Some(self.price.times(packs)),
        }
    }

    /// What so many sheets of it cost, to the nearest hundredth, ties to even. What
    /// is left of a pack is paper on hand, and so costs nothing here.
    pub fn cost(self, sheets: u32) -> Money {
        self.price.part(sheets.into(), self.sheets.get().into())
    }
}
