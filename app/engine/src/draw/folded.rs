//! The folded card: closed, opened, and on its way between.

use super::direction::{Direction, Projection};
use super::space::Scene;
use super::standing::Colouring;
use super::{Affine, Drawing, Fill, Mark, Spot, spot};
use crate::card::{Card, WholeOpening};
use crate::draw::flat::affine;
use crate::draw::look::look;
use crate::faces::{Part, View, shown};
use crate::fold::{Folded, Pose, State};
use crate::motion::{Rigid, Vector, length, sub};
use crate::plane::{CardFrame, FaceFrame, Placement, Point};
use crate::posed::{Moment, Posed, swinging};
use crate::recipe::{Face, Recipe};

/// A state of the card as it is seen from one view: exactly what shows.
pub fn state(recipe: &Recipe, card: &Card, number: usize, view: View) -> Drawing {
    let state = card
        .folded
        .as_ref()
        .and_then(|folded| folded.states.get(number));
    let Some(state) = state else {
        return Drawing::empty();
    };
    // From the back, the card is turned over like a page.
    let seen: Placement<CardFrame, CardFrame> = match view {
        View::Front => Placement::unmoved(),
        View::Back => Placement::over_upright(crate::length::Length::ZERO),
    };
    let mut parts = shown(state, view, &card.laid.layers, &card.readings);
    parts.reverse();
    let marks = parts
        .into_iter()
        .map(|shown| {
            let place = part_place(card, state, shown.part).map(|place| Affine {
                origin: seen_from(&seen, place.origin),
                x: direction(&seen, place.x),
                y: direction(&seen, place.y),
            });
            let fill =
                place.and_then(|place| Some(look(recipe, card, shown.part)?.fill(&place, 0.0)));
            Mark::Area {
                outlines: shown
                    .region
                    .contours()
                    .map(|contour| contour.into_iter().map(|at| spot(seen.point(at))).collect())
                    .collect(),
                fill: fill.unwrap_or(Fill::Ground),
                edged: true,
                part: Some(shown.part),
            }
        })
        .collect();
    Drawing::framed(marks, 0.05)
}

fn direction(seen: &Placement<CardFrame, CardFrame>, [x, y]: Spot) -> Spot {
    [if seen.mirrored { -x } else { x }, y]
}

fn seen_from(seen: &Placement<CardFrame, CardFrame>, at: Spot) -> Spot {
    direction(seen, at)
}

/// From the frame a part's look is told in to the card.
fn part_place(card: &Card, state: &State, part: Part) -> Option<Affine> {
    match part {
        Part::Face(face) => {
            let pose = state.poses.iter().find(|pose| pose.panel == face.panel)?;
            Some(affine(&pose.place))
        }
        Part::Layer(id) | Part::LayerBack(id) => {
            let layer = card.laid.layer(id)?;
            let place = face_place(card, state, layer.face)?;
            Some(Affine {
                origin: spot(place.point(layer.at.low)),
                ..affine(&place)
            })
        }
    }
}

pub(super) fn face_place(
    card: &Card,
    state: &State,
    face: Face,
) -> Option<Placement<FaceFrame, CardFrame>> {
    card.readings
        .iter()
        .find(|reading| reading.face == face)?
        .in_card(state)
}

/// How a lifted point moves in the picture, for each millimetre of height:
/// a little to the right and up, as if seen from the foot of the table.
const LIFT: Spot = [0.12, 0.36];

fn from_the_foot() -> Projection {
    Projection::of([1.0, 0.0, LIFT[0]], [0.0, 1.0, LIFT[1]])
}

/// The card while it opens, seen a little from below.
pub fn opening(recipe: &Recipe, card: &Card, moment: Moment) -> Drawing {
    drawn(recipe, card, moment, from_the_foot()).map_or_else(nothing, |(drawing, folded)| {
        in_frame(drawing, &frame(card, folded))
    })
}

/// The same from any direction.
pub fn opening_from(recipe: &Recipe, card: &Card, moment: Moment, direction: Direction) -> Drawing {
    let from = direction.projection();
    drawn(recipe, card, moment, from).map_or_else(nothing, |(drawing, folded)| {
        in_frame(drawing, &frame_from(card, folded, &from))
    })
}

/// The card opened with all its creases at once, by a share of that, from any
/// direction.
pub fn opening_together(
    recipe: &Recipe,
    card: &Card,
    (whole, share): (&WholeOpening, f64),
    direction: Direction,
) -> Drawing {
    let from = direction.projection();
    let posed = Posed::of_whole(whole, share);
    let scene = Scene::of(recipe, card, &posed, from, Colouring::Paper);
    let drawing = Drawing::framed(scene.marks(), 0.0);
    in_frame(drawing, &frame_round(&looks(card, whole), &from))
}

/// From where a card is looked at as it is folded, besides from a little below, in degrees
/// round the table and above it: the maker does not go round to the other side. (Own
/// choice.)
const LOOKS: [[f64; 2]; 4] = [[0.0, 45.0], [-28.0, 40.0], [28.0, 40.0], [0.0, 65.0]];

/// How much of a panel that lies on the table is turned up at least. What is off is as good
/// as flat in a picture.
const FLAT: f64 = 0.999;

/// The card at a moment of its folding, as large as it is then, from where most of its
/// faces are seen; from above where it lies flat.
pub fn folding(recipe: &Recipe, card: &Card, moment: Moment) -> Drawing {
    let Some(posed) = Posed::at(card, moment) else {
        return nothing();
    };
    let mut panels = posed.panels.iter().flatten();
    let is_flat = panels.all(|place| place.turn[2][2].abs() > FLAT);
    let from_above = Direction {
        round: 0.0,
        above: 90.0,
    };
    let from: Vec<Projection> = if is_flat {
        vec![from_above.projection()]
    } else {
        let looks = LOOKS.map(|[round, above]| Direction { round, above }.projection());
        std::iter::once(from_the_foot()).chain(looks).collect()
    };
    let scenes = from.into_iter();
    let scenes = scenes.map(|from| Scene::of(recipe, card, &posed, from, Colouring::Paper));
    // Of those that show as much the first.
    let mut best: Option<(f64, Scene<'_>)> = None;
    for scene in scenes {
        let seen = scene.seen();
        if best.as_ref().is_none_or(|(most, _)| seen > *most) {
            best = Some((seen, scene));
        }
    }
    best.map_or_else(nothing, |(_, scene)| Drawing::framed(scene.marks(), MARGIN))
}

fn nothing() -> Drawing {
    Drawing::empty()
}

fn drawn<'a>(
    recipe: &Recipe,
    card: &'a Card,
    moment: Moment,
    from: Projection,
) -> Option<(Drawing, &'a Folded)> {
    let folded = card.folded.as_ref()?;
    let posed = Posed::at(card, moment)?;
    let scene = Scene::of(recipe, card, &posed, from, Colouring::Paper);
    Some((Drawing::framed(scene.marks(), 0.0), folded))
}

/// The same frame through the whole opening, so that the card does not jump.
fn in_frame(mut drawing: Drawing, whole: &Frame) -> Drawing {
    drawing.low = [0, 1].map(|i| drawing.low[i].min(whole.low[i]));
    drawing.high = [0, 1].map(|i| drawing.high[i].max(whole.high[i]));
    drawing.left = whole.left;
    drawing
}

/// The frame of a whole opening.
struct Frame {
    low: Spot,
    high: Spot,
    /// The left edge of the paper where it lies farthest to the left.
    left: f64,
}

/// Room for every state, with the height of what stands up on the way.
fn frame(card: &Card, folded: &Folded) -> Frame {
    let corners: Vec<Point<CardFrame>> = lying(folded).collect();
    let Some(all) = crate::plane::bounds(&corners) else {
        return Frame {
            low: [0.0; 2],
            high: [1.0; 2],
            left: 0.0,
        };
    };
    let from = from_the_foot();
    let as_a_whole = as_a_whole(card).into_iter().map(|at| from.seen(at));
    let [low, high] = bounds(
        [spot(all.low), spot(all.high)]
            .into_iter()
            .chain(as_a_whole),
    );
    // How far in front and behind anything stands on its way.
    let mut reach = [0.0_f64; 2];
    for [.., height] in on_the_way(card, folded, &[0.5]) {
        let behind = usize::from(height < 0.0);
        reach[behind] = reach[behind].max(height.abs());
    }
    let margin = MARGIN * (high[0] - low[0]).max(high[1] - low[1]);
    Frame {
        low: [0, 1].map(|i| low[i] - margin - LIFT[i] * reach[1]),
        high: [0, 1].map(|i| high[i] + margin + LIFT[i] * reach[0]),
        left: spot(all.low)[0],
    }
}

/// Room for the whole opening from a direction.
fn frame_from(card: &Card, folded: &Folded, from: &Projection) -> Frame {
    let lying = lying(folded).map(|at| {
        let [x, y] = spot(at);
        [x, y, 0.0]
    });
    let way = on_the_way(card, folded, &[0.25, 0.5, 0.75]);
    let all: Vec<Vector> = lying.chain(way).chain(as_a_whole(card)).collect();
    frame_round(&all, from)
}

/// Room for all these places from a direction: as much as from any other, so that the
/// card does not jump when it is turned.
fn frame_round(all: &[Vector], from: &Projection) -> Frame {
    let middle: Vector = [0, 1, 2].map(|i| {
        let low = all.iter().map(|at| at[i]).fold(f64::INFINITY, f64::min);
        let high = all.iter().map(|at| at[i]).fold(f64::NEG_INFINITY, f64::max);
        f64::midpoint(low, high)
    });
    let reach = all.iter().map(|at| length(sub(*at, middle)));
    let reach = (1.0 + MARGIN) * reach.fold(0.0, f64::max);
    let middle = from.seen(middle);
    Frame {
        low: middle.map(|at| at - reach),
        high: middle.map(|at| at + reach),
        left: middle[0] - reach,
    }
}

/// Which share of the longer side is left free round the opening.
const MARGIN: f64 = 0.03;

fn bounds(places: impl Iterator<Item = Spot>) -> [Spot; 2] {
    let nowhere = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
    places.fold(nowhere, |[low, high], at| {
        [
            [0, 1].map(|i| low[i].min(at[i])),
            [0, 1].map(|i| high[i].max(at[i])),
        ]
    })
}

/// The corners of what lies in any state. A pose that stays from one state to the
/// next takes no more room.
fn lying(folded: &Folded) -> impl Iterator<Item = Point<CardFrame>> {
    let moved_poses = folded
        .states
        .windows(2)
        .flat_map(|two| moved(&two[0], &two[1]));
    let closed = folded.states.iter().take(1).flat_map(|state| &state.poses);
    closed
        .chain(moved_poses)
        .flat_map(|pose| pose.covers.corners())
}

/// The corners of what swings, when so much of each turn is done.
fn on_the_way(card: &Card, folded: &Folded, parts: &[f64]) -> Vec<Vector> {
    let states = 0..folded.states.len().saturating_sub(1);
    let moments = states.flat_map(|state| parts.iter().map(move |part| (state, *part)));
    let swings = moments.flat_map(|(state, part)| swinging(card, Moment { state, part }));
    swings
        .flat_map(|(panel, place)| corners_of(card, panel, &place))
        .collect()
}

/// The corners of the card as it opens as a whole; nothing where it opens fold by
/// fold.
fn as_a_whole(card: &Card) -> Vec<Vector> {
    let whole = card.whole.iter();
    whole.flat_map(|whole| looks(card, whole)).collect()
}

/// The corners of the card as it opens so, in steps.
fn looks(card: &Card, whole: &WholeOpening) -> Vec<Vector> {
    let looks = whole.looks().iter();
    let places = looks.flat_map(|look| look.facets.iter().enumerate());
    places
        .flat_map(|(panel, place)| corners_of(card, panel, place))
        .collect()
}

fn corners_of(card: &Card, panel: usize, place: &Rigid) -> Vec<Vector> {
    let panel = card.laid.panels.get(panel);
    let corners = panel
        .into_iter()
        .flat_map(|panel| &panel.facet.outline.corners);
    let corners = corners.map(|at| {
        let [x, y] = spot(*at);
        place.point([x, y, 0.0])
    });
    corners.collect()
}

/// The poses that are others after a state than in it.
fn moved<'a>(now: &'a State, next: &'a State) -> impl Iterator<Item = &'a Pose> {
    let poses = now.poses.iter().zip(&next.poses);
    let moved = poses.filter(|(now, next)| (now.place, now.stands) != (next.place, next.stands));
    moved.map(|(_, next)| next)
}
