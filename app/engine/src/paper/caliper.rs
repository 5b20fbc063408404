//! How thick paper of a weight tends to be: a suggestion, never a fact.
//!
//! Weight alone does not fix thickness. The tables below call themselves
//! indicative, and a sheet varies by some 5 % within itself, so the maker's own
//! measurement always goes first.

use super::Source;
use super::weight::{Grade, Weight};
use crate::length::{Length, half_even};

/// A printed pair of weight and thickness.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CaliperRow {
    /// The weight.
    pub weight: Weight,
    /// The printed thickness of one sheet.
    pub caliper: Length,
    /// Where it was printed.
    pub source: Source,
}

const BOND: Source = Source::BondCalipers;
const COVER: Source = Source::WeightChart;
const CARD: Source = Source::OfficePrinters;
const BOARD: Source = Source::CardGuide;
const PAIRS: Source = Source::CardPairs;

/// Printed thicknesses, thinnest first.
pub const CALIPERS: &[CaliperRow] = &[
    pounds(16, Grade::Bond, 325, BOND),
    pounds(20, Grade::Bond, 400, BOND),
    pounds(24, Grade::Bond, 450, BOND),
    pounds(28, Grade::Bond, 520, BOND),
    pounds(32, Grade::Bond, 600, BOND),
    grams(148, 180, CARD),
    grams(163, 200, CARD),
    pounds(65, Grade::Cover, 800, COVER),
    grams(180, 230, BOARD),
    pounds(80, Grade::Cover, 950, COVER),
    pounds(90, Grade::Cover, 1000, COVER),
    pounds(100, Grade::Cover, 1100, COVER),
    grams(300, 290, PAIRS),
    pounds(105, Grade::Cover, 1300, COVER),
    pounds(120, Grade::Cover, 1500, COVER),
    pounds(146, Grade::Cover, 1800, COVER),
];

/// Caliper in 1/100 000 in, the finest the tables print, cut to whole microns.
const fn pounds(
    pounds: u32,
    grade: Grade,
    hundredths_of_a_point: i64,
    source: Source,
) -> CaliperRow {
    CaliperRow {
        weight: Weight::pounds(pounds, grade),
        caliper: Length::from_units(Length::PER_INCH * hundredths_of_a_point / 100_000),
        source,
    }
}

const fn grams(grams: u32, microns: i64, source: Source) -> CaliperRow {
    CaliperRow {
        weight: Weight::grams(grams),
        caliper: Length::microns(microns),
        source,
    }
}

/// A thickness to start from until the maker has measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CaliperHint {
    /// The suggested thickness of one sheet, to 0.01 mm.
    pub caliper: Length,
    /// The printed row it was scaled from.
    pub from: &'static CaliperRow,
}

/// Suggests a thickness: as dense as the printed row of the nearest weight.
/// `None` for paper that weighs nothing.
pub fn suggest_caliper(weight: Weight) -> Option<CaliperHint> {
    let wanted = weight.milligrams_per_square_metre();
    let from = CALIPERS
        .iter()
        .min_by_key(|row| row.weight.milligrams_per_square_metre().abs_diff(wanted))
        .filter(|_| wanted > 0)?;
    let hundredth = Length::hundredths_mm(1).units();
    let hundredths = half_even(
        i128::from(from.caliper.units()) * i128::from(wanted),
        i128::from(from.weight.milligrams_per_square_metre()) * i128::from(hundredth),
    );
    Some(CaliperHint {
        caliper: Length::hundredths_mm(i64::try_from(hundredths.max(1)).ok()?),
        from,
    })
}

/// What a thickness is, as far as the printed tables tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CaliperIs {
    /// The one that is printed for paper of that very weight.
    Printed(&'static CaliperRow),
    /// What [`suggest_caliper`] makes of the row nearest in weight.
    Estimated(&'static CaliperRow),
    /// Neither: measured, or given by whoever sold it.
    Own,
}

/// How near to a printed thickness counts as that: the tables are printed to
/// about so much, and paper varies by more.
const AS_PRINTED: Length = Length::microns(5);

/// What a thickness is that is given for a paper of a weight.
pub fn caliper_is(weight: Weight, caliper: Length) -> CaliperIs {
    let is = |other: Length| (other - caliper).abs() <= AS_PRINTED;
    let grammage = Weight::milligrams_per_square_metre;
    let printed = CALIPERS
        .iter()
        .find(|row| grammage(row.weight) == grammage(weight) && is(row.caliper));
    if let Some(row) = printed {
        return CaliperIs::Printed(row);
    }
    match suggest_caliper(weight) {
        Some(hint) if is(hint.caliper) => CaliperIs::Estimated(hint.from),
        _ => CaliperIs::Own,
    }
}
