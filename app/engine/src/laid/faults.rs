//! Faults and misfits of a strip's pattern as problems, each where its line lies.

use crate::pattern::{Fault, Line, Misfit, Pattern, TOUCHES_WITHIN};
use crate::plane::Segment;
use crate::problem::{Finding, PatternFinding, Place, Problem};
use crate::recipe::StripId;

/// What is wrong with the pattern of the base, or of a piece glued in.
pub fn pattern_problems(
    of: StripId,
    pattern: &Pattern,
    faults: &[Fault],
    misfits: &[Misfit],
) -> Vec<Problem> {
    // That mountains and valleys do not count up where two creases cross is
    // said by the crossing.
    let said = |misfit: &&Misfit| {
        let crossing = |fault: &Fault| {
            matches!(fault, Fault::Crossing { .. }) && fault.at() == Some(misfit.at())
        };
        matches!(misfit, Misfit::Folds { .. }) && faults.iter().any(crossing)
    };
    // Where creases meet, one of them leads there.
    let through = |at| {
        let meets = |line: &&Line| Segment::new(line.from, line.to).off(at) <= TOUCHES_WITHIN;
        let line = pattern.lines.iter().find(meets);
        line.map_or(Place::Recipe, |line| Place::of_line(line.id))
    };
    let found = |place, is| Problem::stop(place, Finding::Pattern { of, is });
    let faults = faults.iter().map(|fault| {
        let place = fault.line().map_or(Place::Recipe, Place::of_line);
        found(place, PatternFinding::Fault(*fault))
    });
    let misfits = misfits.iter().filter(|misfit| !said(misfit));
    let misfits =
        misfits.map(|misfit| found(through(misfit.at()), PatternFinding::Misfit(misfit.clone())));
    faults.chain(misfits).collect()
}
