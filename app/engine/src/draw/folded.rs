//! The folded card: closed, opened, and on its way between.

use super::{Affine, Drawing, Fill, Mark, Spot, space, spot};
use crate::card::{Card, WholeOpening};
use crate::draw::flat::affine;
use crate::draw::look::look;
use crate::face::side_seen;
use crate::fold::{Cover, Folded, Pose, State};
use crate::plane::{CardFrame, FaceFrame, Placement, Point};
use crate::recipe::{Face, Recipe};
use crate::show::{Part, View, shown};

/// Part of the way from one state of the card to the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// The state left behind, by its place in the order of opening.
    pub state: usize,
    /// How much of the next score's opening is done, 0 to 1.
    pub part: f64,
}

impl Moment {
    /// The moment at a share of the whole opening: 0 is closed, 1 is flat.
    pub fn at(share: f64, folded: &Folded) -> Self {
        let steps = folded.states.len().saturating_sub(1);
        let way = share.clamp(0.0, 1.0) * f64::from(u32::try_from(steps).unwrap_or(u32::MAX));
        let state = folded
            .states
            .iter()
            .enumerate()
            .map(|(number, _)| number)
            .take_while(|number| f64::from(u32::try_from(*number).unwrap_or(u32::MAX)) <= way)
            .last()
            .unwrap_or(0);
        let part = way - f64::from(u32::try_from(state).unwrap_or(u32::MAX));
        Self { state, part }
    }
}

/// A state of the card as it is seen from one view: exactly what shows.
pub fn state(recipe: &Recipe, card: &Card, number: usize, view: View) -> Drawing {
    let state = card
        .folded
        .as_ref()
        .and_then(|folded| folded.states.get(number));
    let Some(state) = state else {
        return Drawing::framed(Vec::new(), 0.0);
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

fn face_place(card: &Card, state: &State, face: Face) -> Option<Placement<FaceFrame, CardFrame>> {
    card.readings
        .iter()
        .find(|reading| reading.face == face)?
        .in_card(state)
}

/// How a lifted point moves in the picture, for each millimetre of height:
/// a little to the right and up, as if seen from the foot of the table.
pub(super) const LIFT: Spot = [0.12, 0.36];

/// How much darker paper is that stands upright.
pub(super) const UPRIGHT_SHADE: f64 = 0.28;

/// The card while it opens, seen a little from below.
pub fn opening(recipe: &Recipe, card: &Card, moment: Moment) -> Drawing {
    let Some(folded) = &card.folded else {
        return Drawing::framed(Vec::new(), 0.0);
    };
    let Some(now) = folded.states.get(moment.state) else {
        return Drawing::framed(Vec::new(), 0.0);
    };
    // Where it stands up, or opens no further, it does not lie as its last state
    // has it.
    let ends_in_space = |whole: &WholeOpening| now.stands() || whole.stops_at.is_some();
    let together = now.opened.as_ref().is_some_and(|opened| opened.together);
    if together && card.whole.as_ref().is_some_and(ends_in_space) {
        return in_frame(card, folded, space::marks(recipe, card, 1.0));
    }
    let next = folded.states.get(moment.state + 1);
    let together = next.and_then(|next| next.opened.as_ref());
    if together.is_some_and(|opened| opened.together) && moment.part > 0.0 {
        let marks = space::marks(recipe, card, moment.part);
        return in_frame(card, folded, marks);
    }
    let swing = next
        .filter(|_| moment.part > 0.0)
        .and_then(|next| Swing::of(card, now, next, moment.part));
    let mut marks = Vec::new();
    let opened = next.and_then(|next| next.opened.as_ref());
    let opened = opened.filter(|_| swing.is_some());
    let moves = |place: &usize| opened.is_some_and(|opened| opened.moved.contains(place));
    let places = now.order.iter().copied();
    let (mut swinging, still): (Vec<usize>, Vec<usize>) = places.partition(moves);
    if swing.as_ref().is_some_and(Swing::is_turned_away) {
        swinging.reverse();
    }
    // What rises comes in front of what lies still, what sinks behind it.
    let rises = |place: &usize| {
        let pose = now.poses.get(*place);
        pose.zip(swing.as_ref())
            .is_some_and(|(pose, swing)| swing.rise(pose) > 0.0)
    };
    let (rising, sinking): (Vec<_>, Vec<_>) = swinging.into_iter().partition(rises);
    let turning = |places: Vec<usize>| places.into_iter().map(|place| (place, swing.as_ref()));
    let still = still.into_iter().map(|place| (place, None));
    for (place, swing) in turning(sinking).chain(still).chain(turning(rising)) {
        let Some(pose) = now.poses.get(place).filter(|pose| !pose.stands) else {
            continue;
        };
        panel(recipe, card, now, pose, swing, &mut marks);
    }
    in_frame(card, folded, marks)
}

fn in_frame(card: &Card, folded: &Folded, marks: Vec<Mark>) -> Drawing {
    let mut drawing = Drawing::framed(marks, 0.0);
    // The same frame through the whole opening, so that the card does not jump.
    let whole = frame(card, folded);
    drawing.low = [0, 1].map(|i| drawing.low[i].min(whole.0[i]));
    drawing.high = [0, 1].map(|i| drawing.high[i].max(whole.1[i]));
    drawing
}

/// Room for every state, with the height of what stands up on the way.
fn frame(card: &Card, folded: &Folded) -> (Spot, Spot) {
    // A pose that stays from one state to the next takes no more room.
    let moved_poses = folded
        .states
        .windows(2)
        .flat_map(|two| moved(&two[0], &two[1]));
    let closed = folded.states.iter().take(1).flat_map(|state| &state.poses);
    let corners: Vec<Point<CardFrame>> = closed
        .chain(moved_poses)
        .flat_map(|pose| pose.covers.corners())
        .collect();
    let Some(all) = crate::plane::bounds(&corners) else {
        return ([0.0; 2], [1.0; 2]);
    };
    let (mut low, mut high) = (spot(all.low), spot(all.high));
    for at in space::reach(card) {
        low = [0, 1].map(|i| low[i].min(at[i]));
        high = [0, 1].map(|i| high[i].max(at[i]));
    }
    // How far in front and behind anything stands on its way.
    let mut reach = [0.0_f64; 2];
    for two in folded.states.windows(2) {
        let [now, next] = two else { continue };
        let Some(swing) = Swing::of(card, now, next, 0.0) else {
            continue;
        };
        let opened = next.opened.iter().flat_map(|opened| &opened.moved);
        let moving = opened.filter_map(|place| now.poses.get(*place));
        for corner in moving.flat_map(|pose| pose.covers.corners()) {
            let height = swing.height(spot(corner));
            let behind = usize::from(height < 0.0);
            reach[behind] = reach[behind].max(height.abs());
        }
    }
    let margin = 0.03 * (high[0] - low[0]).max(high[1] - low[1]);
    (
        [0, 1].map(|i| low[i] - margin - LIFT[i] * reach[1]),
        [0, 1].map(|i| high[i] + margin + LIFT[i] * reach[0]),
    )
}

/// The poses that are others after a state than in it.
fn moved<'a>(now: &'a State, next: &'a State) -> impl Iterator<Item = &'a Pose> {
    let poses = now.poses.iter().zip(&next.poses);
    let moved = poses.filter(|(now, next)| (now.place, now.stands) != (next.place, next.stands));
    moved.map(|(_, next)| next)
}

/// One panel with the layers on it, as far as the side that shows.
fn panel(
    recipe: &Recipe,
    card: &Card,
    state: &State,
    pose: &Pose,
    swing: Option<&Swing>,
    marks: &mut Vec<Mark>,
) {
    let turned_away = swing.is_some_and(Swing::is_turned_away);
    let view = if turned_away { View::Back } else { View::Front };
    let near = Face {
        panel: pose.panel,
        side: side_seen(pose.place.mirrored, view),
    };
    let far = Face {
        side: near.side.other(),
        ..near
    };
    let on = |face: Face, back: bool| {
        card.laid
            .layers
            .iter()
            .filter(move |layer| layer.face == face)
            .filter_map(move |layer| {
                let part = if back {
                    Part::LayerBack(layer.id)
                } else {
                    Part::Layer(layer.id)
                };
                let place = face_place(card, state, face)?;
                Some((part, Cover::shaped(place.region(&layer.region()))))
            })
    };
    let mut parts: Vec<(Part, Cover)> = on(far, true).collect();
    parts.reverse();
    parts.push((Part::Face(near), pose.area()));
    parts.extend(on(near, false));
    for (part, covers) in parts {
        let Some(place) = part_place(card, state, part) else {
            continue;
        };
        let shade = swing.map_or(0.0, Swing::shade);
        let place = Affine {
            origin: lifted(swing, place.origin),
            x: lifted_direction(swing, place.x),
            y: lifted_direction(swing, place.y),
        };
        let fill = look(recipe, card, part).map(|look| look.fill(&place, shade));
        let contours = covers.region();
        marks.push(Mark::Area {
            outlines: contours
                .contours()
                .map(|contour| {
                    let corners = contour.into_iter();
                    corners.map(|at| lifted(swing, spot(at))).collect()
                })
                .collect(),
            fill: fill.unwrap_or(Fill::Ground),
            edged: true,
            part: Some(part),
        });
    }
}

fn lifted(swing: Option<&Swing>, at: Spot) -> Spot {
    swing.map_or(at, |swing| swing.lifted(at))
}

fn lifted_direction(swing: Option<&Swing>, of: Spot) -> Spot {
    swing.map_or(of, |swing| swing.direction(of))
}

/// Panels that swing about a crease.
struct Swing {
    /// A point of the axis and the direction along it, of length one.
    axis: Spot,
    along: Spot,
    /// From 0, folded, to a half turn, open.
    angle: f64,
    /// 1 towards the front, -1 towards the back.
    towards: f64,
    /// On which side of the axis the folded paper lies: 1 to its left, or -1.
    side: f64,
}

impl Swing {
    fn of(card: &Card, now: &State, next: &State, part: f64) -> Option<Self> {
        let opened = next.opened.as_ref().filter(|opened| !opened.together)?;
        let hinge = card.laid.hinges.get(*opened.hinges.first()?)?;
        let moving = if opened.moved.contains(&hinge.left) {
            hinge.left
        } else {
            hinge.right
        };
        let pose = now.poses.get(moving)?;
        let from = spot(pose.place.point(hinge.course.from));
        let to = spot(pose.place.point(hinge.course.to));
        let long = (to[0] - from[0]).hypot(to[1] - from[1]);
        if long <= 0.0 {
            return None;
        }
        let mut swing = Self {
            axis: from,
            along: [(to[0] - from[0]) / long, (to[1] - from[1]) / long],
            angle: part * std::f64::consts::PI,
            towards: if next.towards_front() { 1.0 } else { -1.0 },
            side: 1.0,
        };
        // A panel lies wholly on one side of its crease.
        let corners = pose
            .area()
            .region()
            .contours()
            .flatten()
            .collect::<Vec<_>>();
        let reach = corners.iter().map(|at| swing.off_axis(spot(*at)));
        if reach.sum::<f64>() < 0.0 {
            swing.side = -1.0;
        }
        Some(swing)
    }

    /// How far a point lies to the left of the axis.
    fn off_axis(&self, at: Spot) -> f64 {
        let [x, y] = [at[0] - self.axis[0], at[1] - self.axis[1]];
        y * self.along[0] - x * self.along[1]
    }

    /// How high a point stands half-way.
    fn height(&self, at: Spot) -> f64 {
        self.towards * self.side * self.off_axis(at)
    }

    /// The same of all corners of a panel together.
    fn rise(&self, pose: &Pose) -> f64 {
        let contours = pose.area().contours();
        let corners = contours.into_iter().flatten();
        corners.map(|at| self.height(spot(at))).sum()
    }

    /// A direction of the swinging paper in the picture.
    fn direction(&self, of: Spot) -> Spot {
        let (sine, cosine) = self.angle.sin_cos();
        let along = of[0] * self.along[0] + of[1] * self.along[1];
        let across = of[1] * self.along[0] - of[0] * self.along[1];
        // On whichever side of the axis the paper lies, opening lifts it.
        let height = self.towards * self.side * across * sine;
        let left = [-self.along[1], self.along[0]];
        [0, 1].map(|i| along * self.along[i] + across * cosine * left[i] + LIFT[i] * height)
    }

    fn lifted(&self, at: Spot) -> Spot {
        let moved = self.direction([0, 1].map(|i| at[i] - self.axis[i]));
        [0, 1].map(|i| self.axis[i] + moved[i])
    }

    /// Whether the side that was in front is turned away from the reader.
    fn is_turned_away(&self) -> bool {
        let [x, y] = [[1.0, 0.0], [0.0, 1.0]].map(|of| self.direction(of));
        x[0] * y[1] - x[1] * y[0] < 0.0
    }

    fn shade(&self) -> f64 {
        UPRIGHT_SHADE * self.angle.sin()
    }
}
