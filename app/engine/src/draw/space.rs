//! The card in space.

use std::cmp::Ordering;

use super::convex;
use super::direction::Projection;
use super::flat::contours;
use super::hiding::{Extent, Sheet, TOUCHING, farthest_first};
use super::standing::Colouring;
use super::{Affine, Fill, Mark, Spot, spot};
use crate::card::Card;
use crate::draw::look::look;
use crate::faces::Part;
use crate::laid::{LaidLayer, LaidPanel};
use crate::motion::{Rigid, Vector, dot};
use crate::plane::{CardFrame, PieceFrame, Polygon, Region};
use crate::posed::Posed;
use crate::recipe::{Face, Recipe, Side};
use crate::sorted::InOrder as _;

/// How much darker paper is for each share of the light it lacks, and the share
/// that is enough: paper that lies on the table has more. (Own choice: panels
/// side by side are told apart, and none is too dark for its print.)
const DARKENED: f64 = 0.3;
const ENOUGH: f64 = 0.5;

/// A card in space as it is looked at.
pub(super) struct Scene<'a> {
    recipe: &'a Recipe,
    card: &'a Card,
    from: Projection,
    papers: Vec<Paper>,
    touching: usize,
    colouring: Colouring,
}

impl<'a> Scene<'a> {
    pub(super) fn of(
        recipe: &'a Recipe,
        card: &'a Card,
        posed: &Posed,
        from: Projection,
        colouring: Colouring,
    ) -> Self {
        let places = posed.panels.iter().map(Option::as_ref);
        let panels = card.laid.panels.iter().zip(places).enumerate();
        let panels = panels.filter_map(|(number, (panel, place))| {
            Some(Paper::of_panel(number, panel, place?, &from))
        });
        let layers = card.laid.layers.iter().enumerate();
        let layers = layers.filter_map(|(put, layer)| {
            let panel = card.laid.index_of(layer.face.panel)?;
            let place = posed.panels.get(panel)?.as_ref()?;
            Paper::of_layer(card, layer, put, (panel, place), &from)
        });
        let mut papers: Vec<Paper> = panels.chain(layers).collect();
        // What is seen from its edge stays beside what carries it.
        papers.put_in_order_by_key(|paper| (paper.panel, paper.height()));
        Self {
            recipe,
            card,
            from,
            papers,
            touching: posed.touching,
            colouring,
        }
    }

    /// Its marks, from the farthest to the nearest.
    pub(super) fn marks(&self) -> Vec<Mark> {
        let sheets: Vec<&Sheet> = self.papers.iter().map(|paper| &paper.sheet).collect();
        farthest_first(&sheets, self.lying())
            .into_iter()
            .filter_map(|turn| Some(self.mark(self.papers.get(turn.number)?, &turn.hidden)))
            .collect()
    }

    /// Whether of two papers that touch the first lies on the second, as they are
    /// seen.
    fn lying(&self) -> impl Fn(usize, usize) -> bool + '_ {
        let mut panels: Vec<Option<&Sheet>> = vec![None; self.card.laid.panels.len()];
        for paper in self.papers.iter().filter(|paper| paper.put.is_none()) {
            panels[paper.panel] = Some(&paper.sheet);
        }
        let panels_lie = self.lying_order(&panels);
        move |a: usize, b: usize| {
            let (Some(one), Some(other)) = (self.papers.get(a), self.papers.get(b)) else {
                return false;
            };
            // It is asked of what covers each other: two panels do.
            let carriers = panels[one.panel].zip(panels[other.panel]);
            let meet = || carriers.is_some_and(|(p, q)| p.meets(q));
            let are_panels = one.put.is_none() && other.put.is_none();
            if are_panels || (one.panel != other.panel && meet()) {
                panels_lie(one.panel, other.panel)
            } else {
                // Panels side by side lie at one height, and what is on them above.
                one.height() > other.height()
            }
        }
    }

    /// Whether of two panels that touch the first lies on the second as they are
    /// seen now: as they lie on each other in the state that says so.
    fn lying_order(&self, panels: &[Option<&Sheet>]) -> impl Fn(usize, usize) -> bool + use<'a> {
        let states = self.card.folded.as_ref().map(|folded| &folded.states);
        let state = states.and_then(|states| states.get(self.touching));
        // Sheets that touch do so with the sides they had together.
        let turned = panels.iter().enumerate().map(|(number, sheet)| {
            let pose = state.and_then(|state| state.poses.get(number));
            let lay = pose.is_some_and(|pose| pose.place.mirrored);
            sheet.is_some_and(|sheet| sheet.side == if lay { Side::A } else { Side::B })
        });
        let turned: Vec<bool> = turned.collect();
        move |a, b| {
            let was = state.is_some_and(|state| state.is_over(a, b));
            was != turned.get(a).copied().unwrap_or_default()
        }
    }

    /// A paper as it is seen, but for where it is hidden by what is painted
    /// before.
    fn mark(&self, paper: &Paper, hidden: &[Vec<Spot>]) -> Mark {
        let place = &paper.sheet.place;
        let part = paper.part();
        let seen = |ring: &Vec<Spot>| {
            ring.iter()
                .map(|at| self.from.of_flat(place, *at))
                .collect()
        };
        let mut outlines: Vec<Vec<Spot>> = paper.rings.iter().map(seen).collect();
        if !hidden.is_empty() {
            outlines = without(&outlines, hidden);
        }
        let [origin, x, y] = paper.look;
        let way = |[x, y]: Spot| self.from.seen(place.direction([x, y, 0.0]));
        let affine = Affine {
            origin: self.from.of_flat(place, origin),
            x: way(x),
            y: way(y),
        };
        let look = look(self.recipe, self.card, part).map(|look| match self.colouring {
            Colouring::Paper => look,
            Colouring::Sides => look.by_side(part),
        });
        let fill = look.map(|look| look.fill(&affine, self.shade(&paper.sheet)));
        Mark::Area {
            outlines,
            fill: fill.unwrap_or(Fill::Ground),
            edged: true,
            part: Some(part),
        }
    }

    /// How much darker a sheet is than one in full light.
    fn shade(&self, sheet: &Sheet) -> f64 {
        let light = self.from.light();
        let [.., normal] = sheet.place.turn;
        let lit = match sheet.side {
            Side::A => dot(normal, light),
            Side::B => -dot(normal, light),
        };
        DARKENED * (ENOUGH - lit).max(0.0)
    }

    /// How much of its faces is seen: for each of them the root of the share of it
    /// that is, so that another face is worth more than more of the same. Looked
    /// at in a grid of places, since it is only held against others.
    pub(super) fn seen(&self) -> f64 {
        const ACROSS: u32 = 28;
        let extents = self.papers.iter().map(|paper| paper.sheet.extent);
        let Extent { low, high } = Extent::all(extents);
        let step = (high[0] - low[0]).max(high[1] - low[1]) / f64::from(ACROSS);
        let lies_on = self.lying();
        let mut seen = vec![0_u32; self.papers.len()];
        for row in 0..ACROSS {
            for column in 0..ACROSS {
                let at = [
                    low[0] + (f64::from(column) + 0.5) * step,
                    low[1] + (f64::from(row) + 0.5) * step,
                ];
                let papers = self.papers.iter().enumerate();
                let here = papers.filter(|(_, paper)| paper.sheet.covers(at));
                let nearest = here.max_by(|(one, a), (other, b)| {
                    let far = a.sheet.near(at) - b.sheet.near(at);
                    if far.abs() > TOUCHING {
                        far.total_cmp(&0.0)
                    } else if lies_on(*one, *other) {
                        Ordering::Greater
                    } else {
                        Ordering::Less
                    }
                });
                if let Some((number, _)) = nearest {
                    seen[number] += 1;
                }
            }
        }
        let shares = self.papers.iter().zip(seen).map(|(paper, places)| {
            let twice: f64 = paper
                .rings
                .iter()
                .map(|ring| convex::twice_area(ring))
                .sum();
            let all = twice.abs().max(step * step);
            (2.0 * f64::from(places) * step * step / all).sqrt()
        });
        shares.sum()
    }

    /// What of the table lies in its shadow from a light, as outlines of which each
    /// is dark: one for each paper, all running the same way round, holes the
    /// other.
    pub(super) fn shadow(&self, light: Vector) -> Vec<Vec<Spot>> {
        let cast = |place: &Rigid, [x, y]: Spot| {
            let at = place.point([x, y, 0.0]);
            let down = at[2] / light[2];
            self.from
                .seen([at[0] - down * light[0], at[1] - down * light[1], 0.0])
        };
        let mut shadow = Vec::new();
        for paper in &self.papers {
            let mut rings = paper.rings.iter().map(|ring| {
                let ring = ring.iter().map(|at| cast(&paper.sheet.place, *at));
                ring.collect::<Vec<_>>()
            });
            let outline = rings.next();
            let turns = outline
                .as_deref()
                .is_some_and(|it| convex::twice_area(it) < 0.0);
            shadow.extend(outline.into_iter().chain(rings).map(|mut ring| {
                if turns {
                    ring.reverse();
                }
                ring
            }));
        }
        shadow
    }
}

/// A panel or a layer where it is in space.
struct Paper {
    sheet: Sheet,
    /// The panel it is, or is glued to, by its index among all.
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
    fn of_panel(number: usize, panel: &LaidPanel, place: &Rigid, from: &Projection) -> Self {
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
            (look, from),
        )
    }

    /// A layer on a panel at a place, of which its rectangle's corner tells
    /// where its look begins.
    fn of_layer(
        card: &Card,
        layer: &LaidLayer,
        put: usize,
        (panel, place): (usize, &Rigid),
        from: &Projection,
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
        Some(Self::of(place, panel, put, parts, rings, (look, from)))
    }

    fn of(
        place: &Rigid,
        panel: usize,
        put: Option<(usize, Side)>,
        parts: [Part; 2],
        rings: Vec<Vec<Spot>>,
        (look, from): ([Spot; 3], &Projection),
    ) -> Self {
        let (outline, holes) = rings
            .split_first()
            .map_or((&[][..], &[][..]), |it| (it.0, it.1));
        Self {
            sheet: Sheet::new(*place, &convex::parts(outline, holes), from),
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

    /// What of it is seen.
    fn part(&self) -> Part {
        let [front, back] = self.parts;
        match self.sheet.side {
            Side::A => front,
            Side::B => back,
        }
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
