//! Outlines that are not as they were asked for, as problems.

use crate::problem::{Finding, OutlineFinding, Place, Problem};
use crate::recipe::{Flaw, Shaped};

/// An outline that is not as it was asked for.
pub(crate) fn flawed(of: Shaped, flaw: Flaw) -> Problem {
    let place = match of {
        Shaped::Layer(id) => Place::Layer(id),
        Shaped::Window(id) => Place::Cutout(id),
    };
    match flaw {
        Flaw::TooRound => Problem::warning(place, Finding::Outline(OutlineFinding::TooRound(of))),
        Flaw::Crossed => Problem::stop(place, Finding::Outline(OutlineFinding::Crossed(of))),
    }
}
