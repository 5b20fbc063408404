//! In which unit the numbers are that have none.

use super::line::{Line, Said, Spotted};
use super::sense::Language;
use super::token::written_unit;
use crate::length::{DecimalMark, Figure, Length, Notation, Step, Unit, Written, nearest};

/// The largest bare number of a list that is a centimetre rather than a
/// millimetre: no card is 45 mm long, and no sheet on a craft table much longer
/// than 45 cm. Our own bound.
const MOST_CENTIMETRES: i64 = 45;

/// What was found out about the units of a list.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Units {
    /// The first unit of each line.
    lines: Vec<Option<Written>>,
    /// For numbers in lines without any.
    list: Written,
    /// What was taken for granted, where something was.
    pub(super) assumed: Option<String>,
}

/// Every number of a line that is a measure.
fn figures(line: &Line) -> Vec<Figure> {
    let pair = |pair: &[Spotted; 2]| pair.iter().map(|it| it.figure).collect();
    line.said
        .iter()
        .flat_map(|said| match said {
            Said::Piece { size, .. }
            | Said::Finished(size)
            | Said::EnvelopeSize(size)
            | Said::SheetSize(size) => pair(size),
            Said::Score(one, _) | Said::Every(one) | Said::Panel(one) | Said::Border(one) => {
                vec![one.figure]
            }
            _ => Vec::new(),
        })
        .collect()
}

impl Units {
    /// From all lines, the languages of their words, and how the maker writes.
    pub(super) fn of(lines: &[Line], languages: &[Language], usual: Notation) -> Self {
        let all: Vec<Vec<Figure>> = lines.iter().map(figures).collect();
        let first = |figures: &Vec<Figure>| {
            let given = figures.iter().find_map(|figure| figure.unit);
            given.or_else(|| figures.iter().find_map(|figure| written_unit(*figure)))
        };
        let by_line: Vec<_> = all.iter().map(first).collect();
        let flat: Vec<Figure> = all.into_iter().flatten().collect();
        let votes = |unit: Written| {
            flat.iter()
                .filter(|figure| written_unit(**figure) == Some(unit))
                .count()
        };
        let most = [Written::Inch, Written::Millimetre, Written::Centimetre]
            .into_iter()
            .rev()
            .max_by_key(|unit| votes(*unit))
            .filter(|unit| votes(*unit) > 0);
        let bare = flat.iter().any(|figure| written_unit(*figure).is_none());
        let words = |unit: Written, why: &str| {
            format!("Numbers without a unit are read as {}, {why}.", name(unit))
        };
        let (list, why) = match most {
            Some(unit) => (unit, "as elsewhere in the list"),
            None => guess(&flat, languages, usual),
        };
        // Fractions alone leave no doubt, and a unit behind one number of a
        // line speaks for the others.
        let doubtful = flat
            .iter()
            .any(|figure| figure.unit.is_none() && !figure.is_fraction);
        let told = flat.iter().any(|figure| figure.unit.is_some());
        Self {
            assumed: (bare && doubtful).then(|| match most {
                Some(Written::Inch) if !told => words(list, "since the list has fractions"),
                _ => words(list, why),
            }),
            lines: by_line,
            list,
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
            .or_else(|| self.lines.get(line).copied().flatten())
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

/// What bare numbers are where the list has no unit at all.
fn guess(figures: &[Figure], languages: &[Language], usual: Notation) -> (Written, &'static str) {
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
        (false, _) => (
            Written::Millimetre,
            "since they would be too large in inches",
        ),
        (true, _) if elsewhere || comma => {
            (Written::Centimetre, "the unit usual in the list’s language")
        }
        (true, Unit::Inch) => (Written::Inch, "the unit in the settings"),
        (true, Unit::Millimetre) => (
            Written::Centimetre,
            "since they would be too small in millimetres",
        ),
    }
}

const fn name(unit: Written) -> &'static str {
    match unit {
        Written::Inch => "inches",
        Written::Millimetre => "millimetres",
        Written::Centimetre => "centimetres",
        Written::Metre => "metres",
        Written::Foot => "feet",
    }
}
