//! Setting a card down on the table, where it tips over until it stays.

use super::Posed;
use super::balance::{Footing, Support};
use super::leaves::Body;
use crate::card::Card;
use crate::motion::{Rigid, Vector, cross, dot, length, scale};
use crate::recipe::Recipe;

/// How far above the table a corner may be and still touch it, in millimetres:
/// half of a thin paper's thickness.
const TOUCHES: f64 = 0.05;

/// How often something tips over before it is left where it is. Each time it
/// falls onto another side, and no card has so many. (Own choice.)
const MOST_FALLS: usize = 64;

/// A card on the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing {
    /// From the card to the table, whose third direction points up.
    pub place: Rigid,
    /// What it rests on: corners on the table, anticlockwise.
    pub rests_on: Vec<[f64; 2]>,
    /// Its centre of mass, above the table.
    pub centre: Vector,
    /// How it stood as it was set down.
    pub first: Footing,
    /// How it stands where it came to rest.
    pub footing: Footing,
    /// By how much it turned on the way there, in radians.
    pub tipped: f64,
}

/// Sets a card down with a direction of its own pointing up, and lets it tip
/// over until it stays. `None` where nothing of it weighs anything, or where
/// there is no such direction.
pub fn set_down(recipe: &Recipe, card: &Card, posed: &Posed, up: Vector) -> Option<Standing> {
    let body = Body::of(recipe, card, posed)?;
    settle(&body, upright(up)?)
}

/// The turn after which a direction points up.
fn upright(up: Vector) -> Option<Rigid> {
    let long = length(up);
    let up = (long > 0.0).then(|| scale(up, 1.0 / long))?;
    // What is to the right stays there, as far as it can.
    let right = if up[0].abs() < 0.9 {
        [1.0, 0.0, 0.0]
    } else {
        [0.0, 1.0, 0.0]
    };
    let away = cross(up, right);
    let away = scale(away, 1.0 / length(away));
    let right = cross(away, up);
    let to_card = Rigid {
        turn: [right, away, up],
        shift: [0.0; 3],
    };
    Some(to_card.undone())
}

fn settle(body: &Body, mut place: Rigid) -> Option<Standing> {
    let set_down = place.turn;
    let mut first = None;
    let mut falls = 0;
    loop {
        let corners: Vec<Vector> = body.corners.iter().map(|at| place.point(*at)).collect();
        let low = corners.iter().map(|at| at[2]).fold(f64::INFINITY, f64::min);
        let corners: Vec<Vector> = corners
            .iter()
            .map(|at| [at[0], at[1], at[2] - low])
            .collect();
        place.shift[2] -= low;
        let centre = place.point(body.centre);
        let touching = corners.iter().filter(|at| at[2] <= TOUCHES);
        let support = Support::round(touching.map(|at| [at[0], at[1]]).collect());
        let over = support.over([centre[0], centre[1]])?;
        let footing = over.footing();
        let first = *first.get_or_insert(footing);
        if !matches!(footing, Footing::Tips(_)) || falls == MOST_FALLS {
            let agree: f64 = (0..3).map(|i| dot(set_down[i], place.turn[i])).sum();
            return Some(Standing {
                place,
                rests_on: support.0,
                centre,
                first,
                footing,
                tipped: ((agree - 1.0) / 2.0).clamp(-1.0, 1.0).acos(),
            });
        }
        falls += 1;
        let way = [centre[0] - over.nearest[0], centre[1] - over.nearest[1]];
        let far = way[0].hypot(way[1]);
        let way = way.map(|i| i / far);
        place = tip(&corners, over.nearest, way).after(&place);
    }
}

/// The turn about an edge on the table, towards one side of it, by which the
/// next corner comes to touch the table.
fn tip(corners: &[Vector], at: [f64; 2], way: [f64; 2]) -> Rigid {
    let angles = corners.iter().filter_map(|corner| {
        let ahead = (corner[0] - at[0]) * way[0] + (corner[1] - at[1]) * way[1];
        // What it tips about stays where it is.
        let stays = corner[2] <= TOUCHES && ahead <= TOUCHES;
        (!stays).then(|| corner[2].atan2(ahead))
    });
    let angle = angles.fold(std::f64::consts::FRAC_PI_2, f64::min);
    Rigid::about([at[0], at[1], 0.0], [-way[1], way[0], 0.0], angle)
}
