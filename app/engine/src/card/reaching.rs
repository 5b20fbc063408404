//! What reaches too far, in the maker's words.

use super::folding::listed;
use crate::length::Length;
use crate::plane::{Edge, Size};
use crate::problem::{Place, Problem, Weight};
use crate::reach::{Past, Reach, Reacher};
use crate::recipe::{Face, LayerId, Recipe, Seat};
use crate::words::{face_name, line_name, reacher_name};

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
pub(super) fn problem(recipe: &Recipe, reach: &Reach, finished: Size) -> Problem {
    match reach.of {
        Reacher::Layer(id) => of_layer(recipe, reach, id, finished),
        Reacher::Panel(id) => {
            let of = recipe.strip_with(id).and_then(|(of, ..)| of);
            Problem {
                place: of.map_or(Place::Panel(id), Place::Piece),
                weight: Weight::Warning,
                what: format!(
                    "{} sticks out of the closed card: {}.",
                    reacher_name(recipe, reach.of),
                    far(recipe, &reach.edges, reach.most)
                ),
                why: format!("That is seen from the front. {}", size(recipe, finished)),
                remedy: format!(
                    "{}Or move it. Leave it so where it is meant to stick out.",
                    fits(recipe, reach, "fits")
                ),
            }
        }
    }
}

fn of_layer(recipe: &Recipe, reach: &Reach, id: LayerId, finished: Size) -> Problem {
    let name = reacher_name(recipe, reach.of);
    let face = face_of(recipe, id);
    let panel = face.map_or("its panel".to_owned(), |face| recipe.panel_name(face.panel));
    let far = far(recipe, &reach.edges, reach.most);
    let stays = fits(recipe, reach, &format!("stays on {panel}"));
    let lines: Vec<_> = reach
        .across
        .iter()
        .map(|line| format!("the {}", line_name(recipe, *line)))
        .collect();
    let lines = listed(&lines);
    let (weight, what, why, remedy) = match reach.past {
        Past::Fold if reach.across.is_empty() => (
            Weight::Stop,
            format!("{name} keeps the card from closing."),
            format!(
                "It reaches past {panel}, {far}, and would have to pass through other panels or \
                 through a fold."
            ),
            format!("{stays}Or move it back onto {panel}."),
        ),
        Past::Fold => {
            let fold = if reach.across.len() > 1 {
                "fold"
            } else {
                "folds"
            };
            (
                Weight::Stop,
                format!("{name} reaches past {lines}, which {fold} shut over it: {far}."),
                "Paper cannot pass through a fold, so the card would not close.".to_owned(),
                format!("{stays}Or move it away from the fold."),
            )
        }
        Past::Card => {
            let seen = face.map_or(String::new(), |face| {
                format!("That is as you look at {}. ", face_name(recipe, face))
            });
            (
                Weight::Warning,
                format!("{name} sticks out of the closed card: {far}."),
                format!("{seen}{}", size(recipe, finished)),
                format!(
                    "{}Or move it. Leave it so where it is meant to stick out.",
                    fits(recipe, reach, "fits")
                ),
            )
        }
        Past::Panel => {
            let across = if reach.across.is_empty() {
                String::new()
            } else {
                format!(", across {lines}")
            };
            (
                Weight::Note,
                format!("{name} reaches past {panel}: {far}{across}."),
                format!("Past {panel} it stays without glue, which would hold other paper there."),
                format!("{stays}Leave it so where it is meant to reach that far."),
            )
        }
    };
    Problem {
        place: Place::Layer(id),
        weight,
        what,
        why,
        remedy,
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

/// How far it reaches: "13 mm at the right", or past a shaped edge "by up to
/// 4 mm".
pub(super) fn far(recipe: &Recipe, edges: &[(Edge, Length)], most: Length) -> String {
    if edges.is_empty() {
        return format!("by up to {}", recipe.notation.with_unit(most));
    }
    let edges = edges.iter();
    let edges: Vec<_> = edges
        .map(|(edge, by)| format!("{} at the {}", recipe.notation.exact(*by), edge.word()))
        .collect();
    listed(&edges)
}

fn size(recipe: &Recipe, finished: Size) -> String {
    format!(
        "With all that sticks out the closed card measures {}.",
        recipe.notation.size(finished.width, finished.height)
    )
}

fn fits(recipe: &Recipe, reach: &Reach, where_: &str) -> String {
    let Some(size) = reach.fits else {
        return String::new();
    };
    let size = recipe.notation.size(size.width, size.height);
    if reach.in_rectangle {
        format!("The largest that {where_} is {size}. ")
    } else {
        format!("At {size} it {where_}. ")
    }
}
