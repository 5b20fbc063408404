//! The card on its table, from any direction.

use super::direction::Direction;
use super::folded::state;
use super::space::Scene;
use super::{Drawing, Fill, Mark};
use crate::card::{Card, all_together};
use crate::faces::View;
use crate::posed::{Moment, Posed, Stands, set_down};
use crate::recipe::Recipe;

/// How the paper of a card is coloured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Colouring {
    /// As it is.
    Paper,
    /// Plain paper that looks alike on both sides has the outside of the card in
    /// colour, so that it is told from the inside: as diagrams of folds have it
    /// (common practice).
    Sides,
}

/// Which share of the longer side is left free round a card.
const MARGIN: f64 = 0.03;

/// A card in space above a table, of which the third direction points up, with
/// the shadow it casts there.
pub fn on_table(
    recipe: &Recipe,
    card: &Card,
    posed: &Posed,
    (direction, colouring): (Direction, Colouring),
) -> Drawing {
    let from = direction.projection();
    let scene = Scene::of(recipe, card, posed, from, colouring);
    let shadows = from.lights().map(|light| Mark::Area {
        outlines: scene.shadow(light),
        fill: Fill::Shadow,
        edged: false,
        part: None,
    });
    let marks = shadows.into_iter().chain(scene.marks());
    Drawing::framed(marks.collect(), MARGIN)
}

/// A card that is partly open on its table, and from where it is seen best.
#[derive(Debug, Clone, PartialEq)]
pub struct FirstLook {
    /// The card above its table.
    pub posed: Posed,
    /// From where.
    pub direction: Direction,
    /// Whether it stays as it is shown, standing.
    pub stands: Stands,
}

/// How far open a card is looked at, as shares of its opening.
const SHARES: [f64; 2] = [0.4, 0.56];

/// From where a card is looked at, in degrees round the table.
const ROUND: [f64; 8] = [-28.0, 28.0, -52.0, 52.0, -128.0, 128.0, -152.0, 152.0];

/// A way to put a card on its table.
struct Way {
    /// Which of its directions points up.
    up: [f64; 3],
    /// How far above the table it is looked at, in degrees.
    above: f64,
    /// What that is worth beside the other way.
    worth: f64,
    stands: bool,
}

/// Makers look at cards that stand, and from their front. (Own choice.)
const UPRIGHT: Way = Way {
    up: [0.0, 1.0, 0.0],
    above: 28.0,
    worth: 1.0,
    stands: true,
};
const LYING: Way = Way {
    up: [0.0, 0.0, 1.0],
    above: 45.0,
    worth: 0.55,
    stands: false,
};
const FROM_BEHIND: f64 = 0.9;

/// By how much a card may have tipped and still be as it was put, in radians: a
/// tent leans by half of its angle. (Own choice.)
const FALLEN: f64 = 1.0;

/// The card as it is told from others best: partly open, standing or lying, from
/// where most of its faces are seen and least of them is hidden. `None` where it
/// does not fold.
pub fn first_look(recipe: &Recipe, card: &Card) -> Option<FirstLook> {
    best_look(recipe, card, &[UPRIGHT, LYING])
}

/// The card as it stands by itself, partly open, from where it is seen best; lying,
/// where it falls over. `None` where it does not fold.
pub fn as_it_stands(recipe: &Recipe, card: &Card) -> Option<FirstLook> {
    best_look(recipe, card, &[UPRIGHT]).or_else(|| best_look(recipe, card, &[LYING]))
}

fn best_look(recipe: &Recipe, card: &Card, ways: &[Way]) -> Option<FirstLook> {
    let mut best: Option<(f64, FirstLook)> = None;
    for open in partly_open(recipe, card) {
        for Way {
            up,
            above,
            worth,
            stands,
        } in ways
        {
            let Some(standing) = set_down(recipe, card, &open, *up) else {
                continue;
            };
            if standing.tipped > FALLEN {
                continue;
            }
            let posed = open.moved(&standing.place);
            let stands = if *stands {
                Stands::of(standing.footing)
            } else {
                Stands::Falls
            };
            for round in ROUND {
                let direction = Direction {
                    round,
                    above: *above,
                };
                let from = direction.projection();
                let scene = Scene::of(recipe, card, &posed, from, Colouring::Paper);
                let is_behind = f64::abs(round) > 90.0;
                let worth = if is_behind {
                    worth * FROM_BEHIND
                } else {
                    *worth
                };
                let seen = worth * scene.seen();
                if best.as_ref().is_none_or(|(most, _)| seen > *most) {
                    let posed = posed.clone();
                    let look = FirstLook {
                        posed,
                        direction,
                        stands,
                    };
                    best = Some((seen, look));
                }
            }
        }
    }
    best.map(|(_, look)| look)
}

/// A card as it is told from others at a glance: partly open on its table, its
/// outside in colour. One that does not fold is seen as far as it does.
pub fn told_apart(recipe: &Recipe, card: &Card) -> Drawing {
    match first_look(recipe, card) {
        Some(look) => {
            let seen = (look.direction, Colouring::Sides);
            on_table(recipe, card, &look.posed, seen)
        }
        None => state(recipe, card, 0, View::Front),
    }
}

/// The card with all of its creases partly open, or where they do not move
/// together, with those of its last steps half open, or ajar as a leg stands out.
fn partly_open(recipe: &Recipe, card: &Card) -> Vec<Posed> {
    if let Some(whole) = all_together(recipe, card) {
        return SHARES.map(|share| Posed::of_whole(&whole, share)).into();
    }
    let states = card.folded.as_ref().map_or(0, |folded| folded.states.len());
    let last = states.saturating_sub(2);
    let moments = [(last, 0.5), (last.saturating_sub(1), 0.5), (last, 0.2)];
    let moments = moments.into_iter();
    moments
        .filter_map(|(state, part)| Posed::at(card, Moment { state, part }))
        .collect()
}
