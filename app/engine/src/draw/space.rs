//! The card in space, while all of it moves at once.

use super::convex;
use super::flat::contours;
use super::folded::LIFT;
use super::hiding::{Sheet, farthest_first};
use super::{Affine, Fill, Mark, Spot, spot};
use crate::card::{Card, WholeOpening};
use crate::draw::look::look;
use crate::laid::{LaidLayer, LaidPanel};
use crate::motion::Rigid;
use crate::plane::{CardFrame, PieceFrame, Polygon, Region};
use crate::recipe::{Face, Recipe, Side};
use crate::show::Part;

/// The marks of the card at a share of its opening as a whole.
pub(super) fn marks(recipe: &Recipe, card: &Card, share: f64) -> Vec<Mark> {
    let Some(whole) = &card.whole else {
        return Vec::new();
    };
    let places = whole.pose_at(share).facets;
    let mut papers: Vec<Paper> = card
        .laid
        .panels
        .iter()
        .zip(&places)
        .enumerate()
        .map(|(number, (panel, place))| Paper::of_panel(number, panel, place))
        .collect();
    papers.extend(
        card.laid
            .layers
            .iter()
            .enumerate()
            .filter_map(|(put, layer)| {
                let panel = card.laid.place_of(layer.face.panel)?;
                Paper::of_layer(card, layer, put, (panel, places.get(panel)?))
            }),
    );
    // What is seen from its edge stays beside what carries it.
    papers.sort_by_key(|paper| (paper.panel, paper.height()));
    let sheets: Vec<&Sheet> = papers.iter().map(|paper| &paper.sheet).collect();
    let panels = papers.iter().filter(|paper| paper.put.is_none());
    let panels: Vec<&Sheet> = panels.map(|panel| &panel.sheet).collect();
    let panels_lie = closed_order(card, &panels);
    let lies_on = |a: usize, b: usize| {
        let (Some(one), Some(other)) = (papers.get(a), papers.get(b)) else {
            return false;
        };
        let carriers = panels.get(one.panel).zip(panels.get(other.panel));
        // Panels side by side lie at one height, and what is on them above.
        if one.panel == other.panel || carriers.is_none_or(|(p, q)| !p.meets(q)) {
            one.height() > other.height()
        } else {
            panels_lie(one.panel, other.panel)
        }
    };
    farthest_first(&sheets, lies_on)
        .into_iter()
        .filter_map(|turn| Some(papers.get(turn.number)?.mark(recipe, card, &turn.hidden)))
        .collect()
}

/// A panel or a layer where it is in space.
struct Paper {
    sheet: Sheet,
    /// The panel it is, or is glued to, by its place among all.
    panel: usize,
    /// Where a layer is put among all, and on which side of its panel.
    put: Option<(usize, Side)>,
    /// What it is, from side A and from side B.
    parts: [Part; 2],
    /// Its outline and holes in the plane of its panel's piece.
    rings: Vec<Vec<Spot>>,
    /// Where its own look begins there, and the two ways it runs.
    look: [Spot; 3],
}

impl Paper {
    fn of_panel(number: usize, panel: &LaidPanel, place: &Rigid) -> Self {
        let corners =
            |ring: &Polygon<PieceFrame>| ring.corners.iter().map(|at| spot(*at)).collect();
        let rings = std::iter::once(&panel.facet.outline).chain(&panel.facet.holes);
        let face = |side| {
            Part::Face(Face {
                panel: panel.id,
                side,
            })
        };
        let parts = [face(Side::A), face(Side::B)];
        let look = [[0.0; 2], [1.0, 0.0], [0.0, 1.0]];
        Self::of(
            place,
            number,
            None,
            parts,
            rings.map(corners).collect(),
            look,
        )
    }

    /// A layer on a panel at a place, of which its rectangle's corner tells
    /// where its look begins.
    fn of_layer(
        card: &Card,
        layer: &LaidLayer,
        put: usize,
        (panel, place): (usize, &Rigid),
    ) -> Option<Self> {
        let mut readings = card.readings.iter();
        let reading = readings.find(|reading| reading.face == layer.face)?;
        let to_piece = reading.place.back();
        let way = |x: f64, y: f64| {
            let (cos, sin) = to_piece.turn.cos_sin();
            let x = if to_piece.mirrored { -x } else { x };
            [x * cos - y * sin, x * sin + y * cos]
        };
        let (front, back) = (Part::Layer(layer.id), Part::LayerBack(layer.id));
        let parts = match layer.face.side {
            Side::A => [front, back],
            Side::B => [back, front],
        };
        let rings = contours(&to_piece.region(&layer.region()));
        let low = spot(to_piece.point(layer.at.low));
        let look = [low, way(1.0, 0.0), way(0.0, 1.0)];
        let put = Some((put, layer.face.side));
        Some(Self::of(place, panel, put, parts, rings, look))
    }

    fn of(
        place: &Rigid,
        panel: usize,
        put: Option<(usize, Side)>,
        parts: [Part; 2],
        rings: Vec<Vec<Spot>>,
        look: [Spot; 3],
    ) -> Self {
        let (outline, holes) = rings
            .split_first()
            .map_or((&[][..], &[][..]), |it| (it.0, it.1));
        Self {
            sheet: Sheet::new(*place, &convex::parts(outline, holes)),
            panel,
            put,
            parts,
            rings,
            look,
        }
    }

    /// How far out it lies on the side of its panel that is seen: a panel at
    /// 0, what was put on it later the farther out.
    fn height(&self) -> i64 {
        let Some((put, side)) = self.put else {
            return 0;
        };
        let out = i64::try_from(put).map_or(i64::MAX, |put| put.saturating_add(1));
        if side == self.sheet.side { out } else { -out }
    }

    /// It as it is seen, but for where it is hidden by what is painted before.
    fn mark(&self, recipe: &Recipe, card: &Card, hidden: &[Vec<Spot>]) -> Mark {
        let place = &self.sheet.place;
        let [front, back] = self.parts;
        let part = match self.sheet.side {
            Side::A => front,
            Side::B => back,
        };
        let seen = |ring: &Vec<Spot>| ring.iter().map(|at| projected(place, *at)).collect();
        let mut outlines: Vec<Vec<Spot>> = self.rings.iter().map(seen).collect();
        if !hidden.is_empty() {
            outlines = without(&outlines, hidden);
        }
        let [origin, x, y] = self.look;
        let affine = affine(place, origin, x, y);
        let fill = look(recipe, card, part);
        Mark::Area {
            outlines,
            fill: fill.map_or(Fill::Ground, |look| look.fill(&affine, shade(&self.sheet))),
            edged: true,
            part: Some(part),
        }
    }
}

/// Whether of two sheets that touch the first lies on the second as they are
/// seen now: as they lie on each other in the closed card.
fn closed_order<'a>(card: &'a Card, sheets: &[&Sheet]) -> impl Fn(usize, usize) -> bool + use<'a> {
    let states = card.folded.as_ref().map(|folded| &folded.states);
    let closed = states.and_then(|states| states.first());
    // Sheets that touch do so with the sides they had together.
    let turned = sheets.iter().enumerate().map(|(number, sheet)| {
        let pose = closed.and_then(|closed| closed.poses.get(number));
        let lay = pose.is_some_and(|pose| pose.place.mirrored);
        sheet.side == if lay { Side::A } else { Side::B }
    });
    let turned: Vec<bool> = turned.collect();
    move |a, b| {
        let was = closed.is_some_and(|closed| closed.is_over(a, b));
        was != turned.get(a).copied().unwrap_or_default()
    }
}

/// What of outlines, each followed by its holes, which run the other way round,
/// is left outside of rings.
fn without(outlines: &[Vec<Spot>], rings: &[Vec<Spot>]) -> Vec<Vec<Spot>> {
    let around = |ring: &Vec<Spot>| Region::<CardFrame>::around(ring);
    let runs = |ring: &Vec<Spot>| convex::twice_area(ring) > 0.0;
    let way = outlines.first().is_some_and(runs);
    let whole = outlines.iter().fold(Region::default(), |all, ring| {
        if runs(ring) == way {
            all.and(&around(ring))
        } else {
            all.minus(&around(ring))
        }
    });
    let left = rings.iter().map(around);
    contours(&left.fold(whole, |left, ring| left.minus(&ring)))
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
