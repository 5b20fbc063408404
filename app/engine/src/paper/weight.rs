//! How heavy paper is: grammage, basis weight, and the mass of a piece.

use serde::{Deserialize, Serialize};

use super::Source;
use crate::length::{DecimalMark, Length, half_even};

/// Micrograms in an avoirdupois pound (international yard and pound, 1959).
const POUND: i128 = 453_592_370;

/// Sheets in the ream that a basis weight is the weight of.
const REAM: i128 = 500;

/// Square units of [`Length`] in a square metre.
const SQUARE_METRE: i128 = (1000 * Length::PER_MM as i128).pow(2);

/// The kind of paper a basis weight is given for, which settles the size of
/// the sheets weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Grade {
    /// Bond, ledger, writing: 17 × 22 in.
    Bond,
    /// Cover: 20 × 26 in.
    Cover,
    /// Text, book, offset: 25 × 38 in.
    Text,
    /// Index: 25 1/2 × 30 1/2 in.
    Index,
    /// Vellum and printing bristol: 22 1/2 × 28 1/2 in.
    Bristol,
    /// Tag, newsprint: 24 × 36 in.
    Tag,
}

impl Grade {
    /// Every grade, in the order offered.
    pub const ALL: [Self; 6] = [
        Self::Cover,
        Self::Text,
        Self::Bond,
        Self::Index,
        Self::Bristol,
        Self::Tag,
    ];

    /// Where the basic sizes come from.
    pub const SOURCE: Source = Source::BasisWeightTables;

    /// The size of the sheets weighed.
    pub const fn basic_size(self) -> (Length, Length) {
        let (width, height) = match self {
            Self::Bond => (34, 44),
            Self::Cover => (40, 52),
            Self::Text => (50, 76),
            Self::Index => (51, 61),
            Self::Bristol => (45, 57),
            Self::Tag => (48, 72),
        };
        (half_inches(width), half_inches(height))
    }
}

const fn half_inches(count: i64) -> Length {
    Length::sixty_fourths(32 * count)
}

/// The weight of a paper as its label gives it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Weight {
    /// Grammage (ISO 536).
    Grammage {
        /// Tenths of a gram per square metre.
        tenths: u32,
    },
    /// Pounds per ream of 500 sheets of the grade's basic size.
    Basis {
        /// Whole pounds.
        pounds: u32,
        /// The grade.
        grade: Grade,
    },
}

impl Weight {
    /// Whole grams per square metre.
    pub const fn grams(grams: u32) -> Self {
        Self::Grammage {
            tenths: grams.saturating_mul(10),
        }
    }

    /// Pounds of a grade.
    pub const fn pounds(pounds: u32, grade: Grade) -> Self {
        Self::Basis { pounds, grade }
    }

    /// The grammage in thousandths of a gram per square metre, rounded to the
    /// nearest, ties to even.
    pub fn milligrams_per_square_metre(self) -> i64 {
        let (micrograms, area) = self.mass_and_area();
        let milligrams = half_even(micrograms * SQUARE_METRE, 1000 * area);
        i64::try_from(milligrams).unwrap_or(i64::MAX)
    }

    /// The mass of a rectangle of this paper.
    pub fn mass_of(self, width: Length, height: Length) -> Mass {
        self.mass_of_area(i128::from(width.units()) * i128::from(height.units()))
    }

    /// The mass of an area given in square units of [`Length`], rounded to the
    /// nearest microgram, ties to even.
    pub fn mass_of_area(self, square_units: i128) -> Mass {
        let (micrograms, area) = self.mass_and_area();
        // Overflows only for areas no paper is made in.
        let mass = micrograms
            .checked_mul(square_units)
            .map_or(i128::MAX, |product| half_even(product, area));
        Mass(i64::try_from(mass).unwrap_or(i64::MAX))
    }

    /// So many micrograms to so many square units: exactly what the label says.
    fn mass_and_area(self) -> (i128, i128) {
        match self {
            Self::Grammage { tenths } => (i128::from(tenths) * 100_000, SQUARE_METRE),
            Self::Basis { pounds, grade } => {
                let (width, height) = grade.basic_size();
                let sheet = i128::from(width.units()) * i128::from(height.units());
                (i128::from(pounds) * POUND, REAM * sheet)
            }
        }
    }
}

/// A mass in micrograms.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Mass(i64);

impl Mass {
    /// From micrograms.
    pub const fn from_micrograms(micrograms: i64) -> Self {
        Self(micrograms)
    }

    /// In micrograms.
    pub const fn micrograms(self) -> i64 {
        self.0
    }

    /// Reads grams as people type them: `12`, `12.5`, `0,125`, to a milligram. `None` for
    /// anything else, and for more than a tonne.
    pub fn read(text: &str) -> Option<Self> {
        let text = text.trim();
        let (whole, part) = text.split_once(['.', ',']).unwrap_or((text, "0"));
        let is_number =
            |text: &str| !text.is_empty() && text.bytes().all(|letter| letter.is_ascii_digit());
        if !is_number(whole) || !is_number(part) || part.len() > 3 || whole.len() > 6 {
            return None;
        }
        let milligrams: i64 = format!("{whole}{part:0<3}").parse().ok()?;
        Some(Self(milligrams * 1000))
    }

    /// In grams, as exactly as it is kept to a milligram.
    pub fn grams(self, mark: DecimalMark) -> String {
        let milligrams = half_even(self.0.into(), 1000);
        let (whole, part) = (milligrams / 1000, milligrams % 1000);
        let part = format!("{part:03}");
        match part.trim_end_matches('0') {
            "" => whole.to_string(),
            part => format!("{whole}{}{part}", mark.as_str()),
        }
    }

    /// In tenths of a gram, rounded to the nearest, ties to even.
    pub fn tenths_of_a_gram(self) -> i64 {
        let tenths = half_even(self.0.into(), 100_000);
        i64::try_from(tenths).unwrap_or(i64::MAX)
    }

    /// So many of it. Saturates.
    #[must_use]
    pub fn times(self, count: u32) -> Self {
        Self(self.0.saturating_mul(count.into()))
    }
}

impl std::ops::Add for Mass {
    type Output = Self;

    /// Saturates, as lengths do.
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl std::iter::Sum for Mass {
    fn sum<I: Iterator<Item = Self>>(masses: I) -> Self {
        masses.fold(Self::default(), std::ops::Add::add)
    }
}
