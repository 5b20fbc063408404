//! In which unit the numbers are that have none.

use super::line::{Line, Said, Spotted};
use super::sense::Language;
use super::token::written_unit;
use super::told::{Remark, Unlikely};
use crate::length::{DecimalMark, Figure, Length, Notation, Step, Unit, Written, nearest};

/// The largest bare number of a list that is a centimetre rather than a
/// millimetre: no card is 45 mm long, and no sheet on a craft table much longer
/// than 45 cm. Our own bound.
const MOST_CENTIMETRES: i64 = 45;

/// What was taken for granted about numbers without a unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Assumed {
    /// They are in the unit of the lines before them, or in another that is told
    /// beside the line.
    Mixed,
    /// All are in one unit.
    All {
        /// That unit.
        unit: Written,
        /// Why.
        why: UnitFor,
    },
}

/// Why numbers without a unit are in a unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnitFor {
    /// Other numbers of the list are.
    Elsewhere,
    /// The list has fractions.
    Fractions,
    /// They would be too large in inches.
    TooLarge,
    /// They would be too small in millimetres.
    TooSmall,
    /// It is usual in the language of the list.
    Language,
    /// It is the one of the settings.
    Settings,
}

/// What was found out about the units of a list.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Units {
    /// The unit of the bare numbers of each line.
    lines: Vec<Written>,
    /// The unit most numbers are in.
    list: Written,
    /// What was taken for granted, where something was.
    pub(super) assumed: Option<Assumed>,
    /// What is to be said beside single lines.
    pub(super) remarks: Vec<(usize, Remark)>,
}

/// Every number of a line that is a measure.
fn figures(line: &Line) -> Vec<Figure> {
    measures(line).map(|(_, figure)| figure).collect()
}

/// Every measure of a line, and what it measures.
fn measures(line: &Line) -> impl Iterator<Item = (Measured, Figure)> + '_ {
    line.said.iter().flat_map(|said| {
        let (what, spotted): (_, &[Spotted]) = match said {
            Said::Piece(piece) => (Measured::Piece, &piece.size),
            Said::Finished(size) | Said::EnvelopeSize(size) => (Measured::Piece, size),
            Said::SheetSize(size) => (Measured::Sheet, size),
            Said::Score(one, _) | Said::Every(one) | Said::Panel(one) => {
                (Measured::Mark, std::slice::from_ref(one))
            }
            Said::Border(one) => (Measured::Border, std::slice::from_ref(one)),
            _ => (Measured::Mark, &[]),
        };
        spotted.iter().map(move |it| (what, it.figure))
    })
}

/// What a number measures, as far as that tells how long it may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Measured {
    /// A side of a piece or of an envelope.
    Piece,
    /// A side of a sheet.
    Sheet,
    /// A score or the width of a panel.
    Mark,
    /// A border.
    Border,
}

impl Measured {
    /// The lengths that are likely in a unit. Our own bounds, wide enough for any
    /// card: they only decide where a number has no unit. In inches nothing is
    /// taken for too long that a sheet may be.
    const fn likely(self, unit: Written) -> [Length; 2] {
        let longest = match unit {
            Written::Inch | Written::Foot => Length::mm(1000),
            Written::Millimetre | Written::Centimetre | Written::Metre => {
                Length::mm(10 * MOST_CENTIMETRES)
            }
        };
        match self {
            Self::Piece => [Length::mm(12), longest],
            Self::Sheet => [Length::mm(50), Length::mm(1200)],
            Self::Mark => [Length::mm(3), longest],
            Self::Border => [Length::mm(1), Length::mm(20)],
        }
    }
}

/// Why the measures of a line are not likely in a unit: too small or too large.
fn unlikely(line: &Line, unit: Written) -> Option<Unlikely> {
    let lengths = |what: &dyn Fn(Measured) -> bool| -> Vec<Length> {
        measures(line)
            .filter(|(measured, _)| what(*measured))
            .map(|(_, figure)| figure.length(unit).unwrap_or(Length::LIMIT))
            .collect()
    };
    for measured in [
        Measured::Piece,
        Measured::Sheet,
        Measured::Mark,
        Measured::Border,
    ] {
        let [least, most] = measured.likely(unit);
        let all = lengths(&|other| other == measured);
        if all.iter().any(|length| *length > most) {
            return Some(Unlikely::Large);
        }
        if all.iter().any(|length| *length < least) {
            return Some(Unlikely::Small);
        }
    }
    // Nobody sets a first score on tenths of a millimetre.
    let marks = lengths(&|measured| measured == Measured::Mark);
    let parts = figures(line).iter().any(|figure| figure.decimal.is_some());
    let near = !marks.is_empty() && marks.iter().all(|at| *at < Length::mm(15));
    (near && parts && unit == Written::Millimetre).then_some(Unlikely::Small)
}

/// The unit of a line that states none, where the one it would have is not
/// likely: another in which every measure of the line is.
fn likelier(line: &Line, unit: Written) -> Option<(Written, Unlikely)> {
    let why = unlikely(line, unit)?;
    let others: &[Written] = match unit {
        Written::Millimetre => &[Written::Centimetre],
        Written::Centimetre | Written::Metre => &[Written::Millimetre],
        Written::Inch | Written::Foot => &[Written::Millimetre, Written::Centimetre],
    };
    let other = others
        .iter()
        .find(|other| unlikely(line, **other).is_none())?;
    Some((*other, why))
}

impl Units {
    /// From all lines, the languages of their words, and how the maker writes.
    pub(super) fn of(lines: &[Line], languages: &[Language], usual: Notation) -> Self {
        let all: Vec<Vec<Figure>> = lines.iter().map(figures).collect();
        let flat: Vec<Figure> = all.into_iter().flatten().collect();
        // Borders are told in millimetres in lists that are in centimetres.
        let sizes = lines.iter().flat_map(measures);
        let sizes: Vec<Figure> = sizes
            .filter(|(what, _)| *what != Measured::Border)
            .map(|(_, figure)| figure)
            .collect();
        let votes = |unit: Written| {
            let of = |figures: &[Figure]| {
                let figures = figures.iter();
                figures
                    .filter(|it| written_unit(**it) == Some(unit))
                    .count()
            };
            (of(&sizes), of(&flat))
        };
        let most = [Written::Inch, Written::Millimetre, Written::Centimetre]
            .into_iter()
            .rev()
            .max_by_key(|unit| votes(*unit))
            .filter(|unit| votes(*unit) > (0, 0));
        let bare = flat.iter().any(|figure| written_unit(*figure).is_none());
        let all_in = |unit: Written, why: UnitFor| Assumed::All { unit, why };
        let (list, why) = match most {
            Some(unit) => (unit, UnitFor::Elsewhere),
            None => guess(&flat, languages, usual),
        };
        // Fractions alone leave no doubt, and a unit behind one number of a
        // line speaks for the others.
        let doubtful = flat
            .iter()
            .any(|figure| figure.unit.is_none() && !figure.is_fraction);
        let told = flat.iter().any(|figure| figure.unit.is_some());
        let (lines, remarks) = by_line(lines, list, most.is_some());
        let mixed = !remarks.is_empty();
        Self {
            assumed: (bare && doubtful).then(|| match most {
                _ if mixed => Assumed::Mixed,
                Some(Written::Inch) if !told => all_in(list, UnitFor::Fractions),
                _ => all_in(list, why),
            }),
            lines,
            list,
            remarks,
        }
    }

    /// The length a number is; `None` where it is too long to be one.
    pub(super) fn length(
        &self,
        line: usize,
        one: Spotted,
        beside: Option<Spotted>,
    ) -> Option<Length> {
        let figure = one.figure;
        let beside = beside.map(|it| it.figure);
        // In "14,8 x 29,7 cm" the last number speaks for both.
        let unit = written_unit(figure)
            .or_else(|| beside.and_then(|it| it.unit))
            .or_else(|| beside.and_then(written_unit))
            .or_else(|| self.lines.get(line).copied())
            .unwrap_or(self.list);
        figure.length(unit)
    }

    /// How a recipe with these lengths is written: in the list's unit, on marks
    /// fine enough for all of them.
    pub(super) fn notation(&self, lengths: &[Length], lines: &[Line], usual: Notation) -> Notation {
        let unit = match self.list {
            Written::Inch | Written::Foot => Unit::Inch,
            Written::Millimetre | Written::Centimetre | Written::Metre => Unit::Millimetre,
        };
        let fits = |step: &Step| lengths.iter().all(|it| nearest(*it, *step).is_exact());
        let steps = Step::all_for(unit);
        let usual_step = Some(usual.step).filter(|step| step.unit() == unit);
        let coarsest = match unit {
            Unit::Inch => Step::Sixteenth,
            Unit::Millimetre => Step::Millimetre,
        };
        let wanted = usual_step.unwrap_or(coarsest);
        let step = std::iter::once(&wanted)
            .chain(steps.iter().filter(|step| step.length() < wanted.length()))
            .find(|step| fits(step));
        let marks: Vec<char> = lines
            .iter()
            .flat_map(figures)
            .filter_map(|figure| figure.decimal)
            .collect();
        let decimal = match marks.first() {
            Some(',') => DecimalMark::Comma,
            Some(_) => DecimalMark::Point,
            None => usual.decimal,
        };
        Notation {
            step: step.copied().unwrap_or(wanted),
            decimal,
        }
    }
}

/// The unit of the bare numbers of each line, and what is to be said of it: the
/// line's own, else the one stated last before it, else the list's.
///
/// Where that is not likely, and another is, that other one. A border states a
/// unit for its own line only: 3 mm stands in lists that are in centimetres.
fn by_line(lines: &[Line], list: Written, is_told: bool) -> (Vec<Written>, Vec<(usize, Remark)>) {
    let mut carried = list;
    let mut units = Vec::new();
    let mut remarks = Vec::new();
    for (number, line) in lines.iter().enumerate() {
        // The first unit and the last one that the line states.
        let ends = |borders: bool| {
            let figures: Vec<Figure> = measures(line)
                .filter(|(what, _)| borders || *what != Measured::Border)
                .map(|(_, figure)| figure)
                .collect();
            let ends = |mut units: Vec<Written>| Some((*units.first()?, units.pop()?));
            let given = ends(figures.iter().filter_map(|it| it.unit).collect());
            given.or_else(|| ends(figures.iter().filter_map(|it| written_unit(*it)).collect()))
        };
        if let Some((first, last)) = ends(false) {
            carried = last;
            units.push(first);
            continue;
        }
        if let Some((first, _)) = ends(true) {
            units.push(first);
            continue;
        }
        let other = likelier(line, carried).filter(|_| is_told);
        if let Some((unit, why)) = other {
            let remark = Remark::Likelier {
                unit,
                than: carried,
                why,
            };
            remarks.push((number, remark));
        } else if carried != list && measures(line).next().is_some() {
            remarks.push((number, Remark::Carried(carried)));
        }
        units.push(other.map_or(carried, |(unit, _)| unit));
    }
    (units, remarks)
}

/// What bare numbers are where the list has no unit at all.
fn guess(figures: &[Figure], languages: &[Language], usual: Notation) -> (Written, UnitFor) {
    let english = languages
        .iter()
        .filter(|language| **language == Language::English)
        .count();
    let elsewhere = languages.len() - english > english;
    let small = figures.iter().all(|figure| {
        figure
            .length(Written::Millimetre)
            .is_some_and(|it| it <= Length::mm(MOST_CENTIMETRES))
    });
    let comma = figures.iter().any(|figure| figure.decimal == Some(','));
    match (small, usual.unit()) {
        (false, _) => (Written::Millimetre, UnitFor::TooLarge),
        (true, _) if elsewhere || comma => (Written::Centimetre, UnitFor::Language),
        (true, Unit::Inch) => (Written::Inch, UnitFor::Settings),
        (true, Unit::Millimetre) => (Written::Centimetre, UnitFor::TooSmall),
    }
}
