//! Whether the pieces fit their paper, and the card an envelope.

use crate::cut_list::{Blank, CutList};
use crate::faces::Reading;
use crate::lay::LayAdvice;
use crate::length::Length;
use crate::paper::{ClearanceRule, Envelope, EnvelopeFit, THICK, envelopes_taking, why_not};
use crate::part::Part;
use crate::pattern::LineId;
use crate::plane::Size;
use crate::problem::{Finding, FitFinding, Place, Problem};
use crate::recipe::{Face, Recipe, StripId};
use crate::score::Chart;

/// Parts without paper, larger than their paper, with folds across the grain or
/// with faces that cannot be upright.
pub(crate) fn paper(recipe: &Recipe, cut_list: &CutList, readings: &[Reading]) -> Vec<Problem> {
    let mut problems = Vec::new();
    for blank in &cut_list.blanks {
        let place = match blank.part {
            Part::Strip(StripId::Base) => Place::Paper,
            Part::Strip(StripId::Piece(id)) => Place::Piece(id),
            Part::Layer(id) => Place::Layer(id),
        };
        let Some(lies) = &blank.lies else {
            let found = FitFinding::NoPaper(blank.part);
            problems.push(Problem::stop(place, Finding::Fit(found)));
            continue;
        };
        let too_large = too_large(place, blank, lies);
        if too_large.is_none() && blank.at != blank.part.cut_at(recipe) {
            let found = FitFinding::Moved(blank.part);
            problems.push(Problem::note(place, Finding::Fit(found)));
        }
        problems.extend(too_large);
        if let Part::Strip(of) = blank.part {
            problems.extend(not_upright(recipe, lies, readings));
            if lies.is_across_grain() {
                let found = FitFinding::AcrossGrain(of);
                problems.push(Problem::note(place, Finding::Fit(found)));
            }
        }
    }
    problems
}

/// The faces of a strip that cannot be upright, or not together.
fn not_upright(
    recipe: &Recipe,
    lies: &LayAdvice,
    readings: &[Reading],
) -> impl Iterator<Item = Problem> {
    let conflicts = lies.conflicts.iter();
    let conflicts = conflicts.map(|(a, b)| {
        let found = FitFinding::NotBothUpright([*a, *b]);
        Problem::warning(Place::Face(*b), Finding::Fit(found))
    });
    let slanting = lies.slants.iter();
    conflicts.chain(slanting.filter_map(|face| slanted(recipe, lies, readings, *face)))
}

/// That a part does not fit its paper as it must lie.
fn too_large(place: Place, blank: &Blank, lies: &LayAdvice) -> Option<Problem> {
    let Size { width, height } = blank.size;
    let is_something = width > Length::ZERO && height > Length::ZERO;
    (is_something && blank.per_sheet() == 0).then(|| {
        let found = FitFinding::TooLarge {
            of: blank.part,
            size: blank.size,
            stock: blank.stock,
            turned_fits: lies.lays.iter().any(|report| report.per_sheet > 0),
        };
        Problem::stop(place, Finding::Fit(found))
    })
}

/// That the print of a face runs at a slant, and how near the lay brings it.
fn slanted(recipe: &Recipe, lies: &LayAdvice, readings: &[Reading], face: Face) -> Option<Problem> {
    let (_, strip, _) = recipe.strip_with(face.panel)?;
    let reading = readings.iter().find(|reading| reading.face == face)?;
    let stock = recipe.stock(strip.stock)?;
    let turned = lies.lay.turned(stock, face.side, &reading.place)?;
    let used = lies.used()?;
    let found = FitFinding::Slanted {
        face,
        turned,
        is_nearest: used.nearest.contains(&face),
    };
    Some(Problem::warning(Place::Face(face), Finding::Fit(found)))
}

/// That a card is so thick that an envelope it fits by the rules may be tight.
pub(crate) fn thick(thickness: Length) -> Option<Problem> {
    (thickness >= THICK)
        .then(|| Problem::note(Place::Envelope, Finding::Fit(FitFinding::Thick(thickness))))
}

/// The envelopes that take the card, and what is wrong with the chosen one. An
/// envelope goes into none.
pub(crate) fn envelopes(recipe: &Recipe, finished: Size) -> (Vec<EnvelopeFit>, Option<Problem>) {
    if recipe.posting.is_envelope {
        return (Vec::new(), None);
    }
    let warning = |found| Problem::warning(Place::Envelope, Finding::Fit(found));
    let Some(rule) = ClearanceRule::by_id(&recipe.posting.rule) else {
        return (Vec::new(), Some(warning(FitFinding::UnknownRule)));
    };
    let card = (finished.width, finished.height);
    let fits = envelopes_taking(card, rule);
    let problem = match &recipe.posting.envelope {
        Some(id) => match Envelope::by_id(id) {
            Some(envelope) => {
                why_not(envelope, card, rule).map(|misfit| warning(FitFinding::Tight(misfit)))
            }
            None => Some(warning(FitFinding::UnknownEnvelope)),
        },
        None => fits.is_empty().then(|| {
            let found = FitFinding::NoEnvelope(finished);
            Problem::note(Place::Envelope, Finding::Fit(found))
        }),
    };
    (fits, problem)
}

/// Scores that land between two marks of the maker's step.
pub(crate) fn between_marks(chart: &Chart) -> impl Iterator<Item = Problem> {
    let marks = chart.passes.iter().flat_map(|pass| &pass.marks);
    let between = marks.filter(|mark| !mark.mark.is_exact());
    between.map(|mark| {
        let found = FitFinding::BetweenMarks {
            score: mark.score,
            at: mark.exact,
        };
        let place = Place::Score(LineId::of_score(mark.score));
        Problem::note(place, Finding::Fit(found))
    })
}

/// Parts of which a recipe kept from before has more than one can have now.
pub(crate) fn too_many(recipe: &Recipe) -> impl Iterator<Item = Problem> {
    let many = recipe.too_many();
    many.map(|(parts, number)| Problem::note(Place::Recipe, Finding::TooMany { parts, number }))
}
