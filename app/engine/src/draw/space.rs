//! The card in space, while all of it moves at once.

use super::convex;
use super::flat::contours;
use super::folded::LIFT;
use super::hiding::{Sheet, farthest_first};
use super::{Affine, Fill, Mark, Spot, spot};
use crate::card::{Card, WholeOpening};
use crate::draw::look::look;
use crate::fold::State;
use crate::motion::Rigid;
use crate::plane::{PieceFrame, Polygon};
use crate::recipe::{Face, Recipe, Side};
use crate::show::Part;

/// The marks of the card at a share of its opening as a whole.
pub(super) fn marks(recipe: &Recipe, card: &Card, share: f64) -> Vec<Mark> {
    let Some(whole) = &card.whole else {
        return Vec::new();
    };
    let corners = |ring: &Polygon<PieceFrame>| ring.corners.iter().map(|at| spot(*at)).collect();
    let rings: Vec<(Vec<Spot>, Vec<Vec<Spot>>)> = card
        .laid
        .panels
        .iter()
        .map(|panel| {
            let holes = panel.facet.holes.iter().map(corners);
            (corners(&panel.facet.outline), holes.collect())
        })
        .collect();
    let sheets: Vec<_> = rings
        .iter()
        .zip(whole.pose_at(share).facets)
        .map(|((outline, holes), place)| Sheet::new(place, &convex::parts(outline, holes)))
        .collect();
    let mut marks = Vec::new();
    for number in farthest_first(&sheets, closed_order(card, &sheets)) {
        let (Some(sheet), Some(laid)) = (sheets.get(number), card.laid.panels.get(number)) else {
            continue;
        };
        let Some((outline, holes)) = rings.get(number) else {
            continue;
        };
        let face = Face {
            panel: laid.id,
            side: sheet.side,
        };
        let far = Face {
            side: sheet.side.other(),
            ..face
        };
        layers(recipe, card, sheet, far, Part::LayerBack, &mut marks);
        let place = affine(&sheet.place, [0.0; 2], [1.0, 0.0], [0.0, 1.0]);
        let fill = look(recipe, card, Part::Face(face));
        let seen = |ring: &Vec<Spot>| {
            let corners = ring.iter().map(|at| projected(&sheet.place, *at));
            corners.collect()
        };
        marks.push(Mark::Area {
            outlines: std::iter::once(outline).chain(holes).map(seen).collect(),
            fill: fill.map_or(Fill::Ground, |look| look.fill(&place, shade(sheet))),
            edged: true,
            part: Some(Part::Face(face)),
        });
        layers(recipe, card, sheet, face, Part::Layer, &mut marks);
    }
    marks
}

/// Whether of two sheets that touch the first lies on the second as they are
/// seen now: as they lie on each other in the closed card.
fn closed_order(card: &Card, sheets: &[Sheet]) -> impl Fn(usize, usize) -> bool {
    let states = card.folded.as_ref().map(|folded| &folded.states);
    let closed = states.and_then(|states| states.first());
    let count = sheets.len();
    let mut over = vec![false; count * count];
    for (front, back) in closed.into_iter().flat_map(State::overlaps) {
        if let Some(over) = over.get_mut(front * count + back) {
            *over = true;
        }
    }
    // Sheets that touch do so with the sides they had together.
    let turned = sheets.iter().enumerate().map(|(number, sheet)| {
        let pose = closed.and_then(|closed| closed.poses.get(number));
        let lay = pose.is_some_and(|pose| pose.place.mirrored);
        sheet.side == if lay { Side::A } else { Side::B }
    });
    let turned: Vec<bool> = turned.collect();
    move |a, b| {
        let was = over.get(a * count + b).copied().unwrap_or_default();
        was != turned.get(a).copied().unwrap_or_default()
    }
}

/// The layers on a face, from the panel outwards.
fn layers(
    recipe: &Recipe,
    card: &Card,
    sheet: &Sheet,
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
    if face.side != sheet.side {
        on.reverse();
    }
    for layer in on {
        let at = |corner: Spot| projected(&sheet.place, corner);
        let outlines = contours(&to_piece.region(&layer.region())).into_iter();
        let low = spot(to_piece.point(layer.at.low));
        let way = |x: f64, y: f64| {
            let (cos, sin) = to_piece.turn.cos_sin();
            let x = if to_piece.mirrored { -x } else { x };
            [x * cos - y * sin, x * sin + y * cos]
        };
        let place = affine(&sheet.place, low, way(1.0, 0.0), way(0.0, 1.0));
        let fill = look(recipe, card, part(layer.id));
        marks.push(Mark::Area {
            outlines: outlines
                .map(|corners| corners.into_iter().map(at).collect())
                .collect(),
            fill: fill.map_or(Fill::Ground, |look| look.fill(&place, shade(sheet))),
            edged: true,
            part: Some(part(layer.id)),
        });
    }
}

fn shade(sheet: &Sheet) -> f64 {
    super::folded::UPRIGHT_SHADE * (1.0 - sheet.place.turn[2][2].abs())
}

pub(super) fn projected(place: &Rigid, at: Spot) -> Spot {
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

/// Room for the card at every moment of its opening as a whole.
pub(super) fn reach(card: &Card) -> impl Iterator<Item = Spot> {
    let looks = card.whole.iter().flat_map(WholeOpening::looks);
    looks.flat_map(|look| {
        let panels = card.laid.panels.iter().zip(&look.facets);
        panels.flat_map(|(panel, place)| {
            let corners = panel.facet.outline.corners.iter();
            corners.map(|at| projected(place, spot(*at)))
        })
    })
}
