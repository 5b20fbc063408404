//! What reaches too far, as problems.

use crate::plane::Size;
use crate::problem::{Finding, Past, Place, Problem, Reach, ReachFinding, Reacher, Weight};
use crate::recipe::{Face, LayerId, Recipe, Seat};

/// What is wrong with each that reaches too far. That a layer reaches past its
/// panel is left out where `said` refuses its glue there.
pub(super) fn problems(
    recipe: &Recipe,
    reaches: &[Reach],
    finished: Size,
    said: &[Problem],
) -> Vec<Problem> {
    let is_said = |reach: &Reach| match reach.of {
        Reacher::Layer(id) => said
            .iter()
            .any(|it| it.place == Place::Layer(id) && it.weight == Weight::Stop),
        Reacher::Panel(_) => false,
    };
    reaches
        .iter()
        .filter(|reach| reach.past > Past::Panel || !is_said(reach))
        .map(|reach| problem(recipe, reach, finished))
        .collect()
}

/// The problem of one that reaches too far.
fn problem(recipe: &Recipe, reach: &Reach, finished: Size) -> Problem {
    let (place, on) = match reach.of {
        Reacher::Layer(id) => (Place::Layer(id), face_of(recipe, id)),
        Reacher::Panel(id) => {
            let of = recipe.strip_with(id).and_then(|(of, ..)| of.piece());
            (of.map_or(Place::Panel(id), Place::Piece), None)
        }
    };
    let found = Finding::Reach(Box::new(ReachFinding {
        reach: reach.clone(),
        on,
        finished,
    }));
    match (reach.of, reach.past) {
        (Reacher::Layer(_), Past::Fold) => Problem::stop(place, found),
        (Reacher::Layer(_), Past::Panel) => Problem::note(place, found),
        (Reacher::Layer(_), Past::Card) | (Reacher::Panel(_), _) => Problem::warning(place, found),
    }
}

/// The face a layer lies on, perhaps through others.
fn face_of(recipe: &Recipe, id: LayerId) -> Option<Face> {
    let mut on = recipe.layer(id)?.on;
    // A file may put layers on each other in a circle.
    for _ in 0..=recipe.layers.len() {
        match on {
            Seat::Face(face) => return Some(face),
            Seat::Layer(under) => on = recipe.layer(under)?.on,
        }
    }
    None
}
