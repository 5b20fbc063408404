//! The card in space, while all of it moves at once.

use super::flat::contours;
use super::folded::LIFT;
use super::{Affine, Fill, Mark, Spot, spot};
use crate::card::Card;
use crate::draw::look::look;
use crate::length::Length;
use crate::motion::Rigid;
use crate::plane::{CardFrame, PieceFrame, Point, Polygon, Region};
use crate::recipe::{Face, Recipe, Side};
use crate::show::Part;

/// How near two sheets may lie to each other and still touch, in millimetres:
/// a thin paper's thickness.
const TOUCHING: f64 = 0.05;

/// A panel where it is in space.
struct Panel {
    place: Rigid,
    /// Its outline and holes as they are seen.
    seen: Region<CardFrame>,
    /// The side the reader sees.
    side: Side,
}

/// The marks of the card at a share of its opening as a whole.
pub(super) fn marks(recipe: &Recipe, card: &Card, share: f64) -> Vec<Mark> {
    let Some(whole) = &card.whole else {
        return Vec::new();
    };
    let places = whole.pose_at(share).facets;
    let panels: Vec<_> = card
        .laid
        .panels
        .iter()
        .zip(places)
        .map(|(panel, place)| {
            let seen = |polygon: &Polygon<PieceFrame>| {
                let corners = polygon.corners.iter();
                Region::from(&Polygon {
                    corners: corners
                        .map(|at| point(projected(&place, spot(*at))))
                        .collect(),
                })
            };
            let holes = panel.facet.holes.iter();
            Panel {
                seen: holes.fold(seen(&panel.facet.outline), |all, hole| {
                    all.minus(&seen(hole))
                }),
                side: if towards(&place) >= 0.0 {
                    Side::A
                } else {
                    Side::B
                },
                place,
            }
        })
        .collect();
    let mut marks = Vec::new();
    for number in farthest_first(card, &panels) {
        let Some(panel) = panels.get(number) else {
            continue;
        };
        let Some(laid) = card.laid.panels.get(number) else {
            continue;
        };
        let face = Face {
            panel: laid.id,
            side: panel.side,
        };
        let far = Face {
            side: panel.side.other(),
            ..face
        };
        layers(recipe, card, panel, far, Part::LayerBack, &mut marks);
        let place = affine(&panel.place, [0.0; 2], [1.0, 0.0], [0.0, 1.0]);
        let fill = look(recipe, card, Part::Face(face));
        marks.push(Mark::Area {
            outlines: contours(&panel.seen),
            fill: fill.map_or(Fill::Ground, |look| look.fill(&place, shade(panel))),
            edged: true,
            part: Some(Part::Face(face)),
        });
        layers(recipe, card, panel, face, Part::Layer, &mut marks);
    }
    marks
}

/// The layers on a face, from the panel outwards.
fn layers(
    recipe: &Recipe,
    card: &Card,
    panel: &Panel,
    face: Face,
    part: fn(crate::recipe::LayerId) -> Part,
    marks: &mut Vec<Mark>,
) {
    let reading = card.readings.iter().find(|reading| reading.face == face);
    let Some(reading) = reading else { return };
    let to_piece = reading.place.back();
    let mut on: Vec<_> = card
        .laid
        .layers
        .iter()
        .filter(|layer| layer.face == face)
        .collect();
    if face.side != panel.side {
        on.reverse();
    }
    for layer in on {
        let at = |corner: Spot| projected(&panel.place, corner);
        let outlines = contours(&to_piece.region(&layer.region())).into_iter();
        let low = spot(to_piece.point(layer.at.low));
        let way = |x: f64, y: f64| {
            let (cos, sin) = to_piece.turn.cos_sin();
            let x = if to_piece.mirrored { -x } else { x };
            [x * cos - y * sin, x * sin + y * cos]
        };
        let place = affine(&panel.place, low, way(1.0, 0.0), way(0.0, 1.0));
        let fill = look(recipe, card, part(layer.id));
        marks.push(Mark::Area {
            outlines: outlines
                .map(|corners| corners.into_iter().map(at).collect())
                .collect(),
            fill: fill.map_or(Fill::Ground, |look| look.fill(&place, shade(panel))),
            edged: true,
            part: Some(part(layer.id)),
        });
    }
}

/// Panels from the farthest to the nearest. Of two that overlap as they are
/// seen, the one whose paper is nearer there; where they touch, as they lie on
/// each other in the closed card.
fn farthest_first(card: &Card, panels: &[Panel]) -> Vec<usize> {
    let closed = card
        .folded
        .as_ref()
        .and_then(|folded| folded.states.first());
    let mut over = Vec::new();
    for (b, back) in panels.iter().enumerate() {
        for (a, front) in panels.iter().enumerate().take(b) {
            let common = front.seen.common(&back.seen);
            let Some(at) = inside(&common) else { continue };
            let ahead = match (height(front, at), height(back, at)) {
                (Some(one), Some(other)) if (one - other).abs() > TOUCHING => one > other,
                _ => closed.is_some_and(|closed| {
                    // Sheets that touch do so with the sides they had together.
                    let lay = closed.poses.get(a).is_some_and(|pose| pose.place.mirrored);
                    closed.is_over(a, b) == (front.side == if lay { Side::B } else { Side::A })
                }),
            };
            over.push(if ahead { (a, b) } else { (b, a) });
        }
    }
    crate::fold::lined_up(&(0..panels.len()).collect::<Vec<_>>(), &over)
}

/// A point within the largest part of a region: the middle of its corners.
fn inside(region: &Region<CardFrame>) -> Option<Spot> {
    let largest = region.contours().max_by_key(Vec::len)?;
    let mut count = 0.0;
    let mut sum = [0.0; 2];
    for corner in largest {
        let corner = spot(corner);
        count += 1.0;
        sum = [0, 1].map(|i| sum[i] + corner[i]);
    }
    Some(sum.map(|sum| sum / count))
}

/// How far above the table a panel's paper is where it is seen at a place.
fn height(panel: &Panel, at: Spot) -> Option<f64> {
    let [nx, ny, nz] = panel.place.turn[2];
    let [px, py, pz] = panel.place.shift;
    let steep = nz - nx * LIFT[0] - ny * LIFT[1];
    // Seen edge on, it covers nothing.
    (steep.abs() > 1e-6).then(|| (nx * (px - at[0]) + ny * (py - at[1]) + nz * pz) / steep)
}

/// How much of the side A of a panel is turned to the reader, who looks from
/// the foot of the table.
fn towards(place: &Rigid) -> f64 {
    let [x, y, z] = place.turn[2];
    z - x * LIFT[0] - y * LIFT[1]
}

fn shade(panel: &Panel) -> f64 {
    super::folded::UPRIGHT_SHADE * (1.0 - panel.place.turn[2][2].abs())
}

fn projected(place: &Rigid, at: Spot) -> Spot {
    let [x, y, z] = place.point([at[0], at[1], 0.0]);
    [x + LIFT[0] * z, y + LIFT[1] * z]
}

fn affine(place: &Rigid, origin: Spot, x: Spot, y: Spot) -> Affine {
    let way = |of: Spot| {
        let [x, y, z] = place.direction([of[0], of[1], 0.0]);
        [x + LIFT[0] * z, y + LIFT[1] * z]
    };
    Affine {
        origin: projected(place, origin),
        x: way(x),
        y: way(y),
    }
}

/// A place in the picture as a point of the card's plane, so that areas seen
/// can be compared.
fn point(at: Spot) -> Point<CardFrame> {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a cast to an integer stops at its ends, far beyond any paper"
    )]
    let [x, y] = at.map(|mm| Length::microns((mm * 1000.0).round() as i64));
    Point::new(x, y)
}

/// Room for the card at every moment of its opening as a whole.
pub(super) fn reach(card: &Card) -> Vec<Spot> {
    const LOOKS: u32 = 12;
    let Some(whole) = &card.whole else {
        return Vec::new();
    };
    let looks = (0..=LOOKS).map(|look| f64::from(look) / f64::from(LOOKS));
    looks
        .flat_map(|share| {
            let places = whole.pose_at(share).facets;
            let panels = card.laid.panels.iter().zip(places);
            panels
                .flat_map(|(panel, place)| {
                    let corners = panel.facet.outline.corners.iter();
                    corners
                        .map(|at| projected(&place, spot(*at)))
                        .collect::<Vec<_>>()
                })
                .collect::<Vec<_>>()
        })
        .collect()
}
