//! Where glue may go on the back of each layer, and which glue is refused.
//!
//! A layer may be glued only to what carries it. Past the edge of its panel it
//! touches other panels, which move away when the card opens, or lies across a
//! crease, which then cannot fold.

use std::collections::BTreeSet;

use crate::faces::{Part, Reading, shown};
use crate::fold::Folded;
use crate::laid::{LaidLayer, LaidOut};
use crate::length::Length;
use crate::plane::{BackFrame, FaceFrame, Placement, Point, Rect, Region, SAME_WITHIN, Size, Turn};
use crate::problem::{Finding, GlueFinding, Place, Problem, Weight};
use crate::reach::creases_crossed;
use crate::recipe::{Bond, Layer, LayerId, PanelId, Recipe, Seat};

/// Distances from the four edges of a layer's back, as seen when gluing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Edges {
    /// From the left edge.
    pub left: Length,
    /// From the right edge.
    pub right: Length,
    /// From the top edge.
    pub top: Length,
    /// From the bottom edge.
    pub bottom: Length,
}

/// Where a layer is glued.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gluing {
    /// The layer.
    pub layer: LayerId,
    /// The size of its back.
    pub back: Size,
    /// Its outline, seen from its back.
    pub outline: Region<BackFrame>,
    /// Where glue is safe: on what carries the layer, a margin from every
    /// edge and crease. `None` where there is no such place.
    pub safe: Option<Region<BackFrame>>,
    /// Where the maker wants the glue; `None` for a loose insert, and where
    /// there is no safe place.
    pub wanted: Option<Region<BackFrame>>,
    /// Whether what the maker wants would spoil the card.
    pub refused: bool,
}

impl Gluing {
    /// How far part of the back stays from the back's edges.
    pub fn edges(&self, of: &Region<BackFrame>) -> Edges {
        let of = of.bounds().unwrap_or_default();
        Edges {
            left: of.low.x,
            right: self.back.width - of.high.x,
            top: self.back.height - of.high.y,
            bottom: of.low.y,
        }
    }
}

/// Where every layer is glued, and what is wrong with that.
pub fn glue(
    recipe: &Recipe,
    laid: &LaidOut,
    folded: &Folded,
    readings: &[Reading],
) -> (Vec<Gluing>, Vec<Problem>) {
    let mut all = Vec::new();
    let mut problems = Vec::new();
    for layer in &recipe.layers {
        let Some(at) = laid.layer(layer.id) else {
            continue;
        };
        let Some(bench) = Bench::of(recipe, laid, folded, readings, layer, at) else {
            continue;
        };
        let (gluing, refusals) = bench.gluing();
        all.push(gluing);
        problems.extend(refusals);
    }
    (all, problems)
}

/// One layer with all that bears on its glue.
struct Bench<'a> {
    recipe: &'a Recipe,
    laid: &'a LaidOut,
    folded: &'a Folded,
    readings: &'a [Reading],
    layer: &'a Layer,
    at: Rect<FaceFrame>,
    /// What the layer covers.
    shape: Region<FaceFrame>,
    /// What carries the layer.
    seat: Region<FaceFrame>,
    reading: Reading,
}

impl<'a> Bench<'a> {
    fn of(
        recipe: &'a Recipe,
        laid: &'a LaidOut,
        folded: &'a Folded,
        readings: &'a [Reading],
        layer: &'a Layer,
        at: &LaidLayer,
    ) -> Option<Self> {
        let reading = *readings.iter().find(|reading| reading.face == at.face)?;
        let seat = match layer.on {
            Seat::Layer(id) => laid.layer(id)?.region(),
            Seat::Face(face) => {
                let panel = laid.panels.get(laid.index_of(face.panel)?)?;
                reading.place.region(&panel.facet.region())
            }
        };
        Some(Self {
            recipe,
            laid,
            folded,
            readings,
            layer,
            at: at.at,
            shape: at.region(),
            seat,
            reading,
        })
    }

    /// From the face to the layer's back: turned over like a page, so that the
    /// layer's right edge becomes the back's left edge.
    fn to_back(&self) -> Placement<FaceFrame, BackFrame> {
        Placement::new(
            true,
            Turn::None,
            Point::new(self.at.high.x, Length::ZERO - self.at.low.y),
        )
    }

    fn gluing(&self) -> (Gluing, Vec<Problem>) {
        let to_back = self.to_back();
        let margin = self.recipe.glue_margin;
        let safe = self.shape.common(&self.seat).inset(margin);
        let safe = (!safe.is_empty()).then(|| to_back.region(&safe));
        let back = self.at.size();
        let wanted = match self.layer.bond {
            Bond::Loose => None,
            Bond::Safe => safe.clone(),
            Bond::Within {
                left,
                right,
                top,
                bottom,
            } => Some(Region::from(Rect {
                low: Point::new(left, bottom),
                high: Point::new(back.width - right, back.height - top),
            })),
        };
        let problems = match (self.layer.bond, &wanted) {
            (Bond::Loose, _) => Vec::new(),
            (_, None) => vec![self.refused(GlueFinding::NoRoom {
                margin: self.recipe.glue_margin,
            })],
            (_, Some(wanted)) => self.refusals(&to_back.back().region(wanted)),
        };
        // Past a rounded or cut outline there is no paper to glue.
        let outline = to_back.region(&self.shape);
        let wanted = wanted.map(|wanted| match self.layer.bond {
            Bond::Within { .. } if !problems.is_empty() => wanted,
            _ => wanted.common(&outline),
        });
        let gluing = Gluing {
            layer: self.layer.id,
            back,
            outline,
            safe,
            wanted,
            refused: problems
                .iter()
                .any(|problem| problem.weight == Weight::Stop),
        };
        (gluing, problems)
    }

    fn refused(&self, is: GlueFinding) -> Problem {
        let layer = self.layer.id;
        Problem::stop(Place::Layer(layer), Finding::Glue { layer, is })
    }

    /// What is wrong with glue in `wanted`.
    fn refusals(&self, wanted: &Region<FaceFrame>) -> Vec<Problem> {
        let beyond_layer = wanted.minus(&Region::from(self.at));
        let wanted = &wanted.common(&self.shape);
        if wanted.is_empty() || !beyond_layer.is_empty() {
            return vec![self.refused(GlueFinding::OffItsBack)];
        }
        let beyond = wanted.minus(&self.seat);
        if beyond.is_empty() {
            return Vec::new();
        }
        let crossed = creases_crossed(self.laid, &self.reading, wanted);
        let crossed = crossed
            .iter()
            .map(|crease| GlueFinding::Across(crease.line));
        let carrier = self.reading.face.panel;
        let tied = self.panels_tied(&beyond).into_iter();
        let tied = tied.map(|other| GlueFinding::Ties { carrier, other });
        let mut found: Vec<_> = crossed.chain(tied).collect();
        if found.is_empty() {
            found.push(GlueFinding::PastItsSeat);
        }
        found.into_iter().map(|is| self.refused(is)).collect()
    }

    /// The other panels that a part past the seat touches in any state, and
    /// that lie differently to the carrier in another state.
    fn panels_tied(&self, beyond: &Region<FaceFrame>) -> BTreeSet<PanelId> {
        let carrier = self.reading.face.panel;
        let mut tied = BTreeSet::new();
        // The layer is put on in the state in which its face is read.
        let Some(state) = self.folded.states.get(self.reading.state) else {
            return tied;
        };
        let Some(place) = self.reading.in_card(state) else {
            return tied;
        };
        let reach = place.region(beyond);
        for shown in shown(state, self.reading.view, &[], self.readings) {
            let Part::Face(face) = shown.part else {
                continue;
            };
            if face.panel != carrier
                && !shown.region.common(&reach).is_empty()
                && self.part_on_opening(carrier, face.panel)
            {
                tied.insert(face.panel);
            }
        }
        tied
    }

    /// Whether two panels ever change how they lie to each other.
    fn part_on_opening(&self, a: PanelId, b: PanelId) -> bool {
        let together: Vec<_> = self
            .folded
            .states
            .iter()
            .filter_map(|state| {
                let place = |id| state.poses.iter().find(|pose| pose.panel == id);
                Some(place(a)?.place.then(&place(b)?.place.back()))
            })
            .collect();
        let corners = || {
            let panels = self.laid.panels.iter();
            let carried = panels.filter(|panel| panel.id == a);
            carried.flat_map(|panel| panel.facet.corners())
        };
        together
            .windows(2)
            .any(|two| two[0].apart(&two[1], corners()) > SAME_WITHIN)
    }
}
