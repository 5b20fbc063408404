//! The flat pieces: what is cut, with its scores, and where layers lie.

use crate::cutout::{Ground, Paper, cut_out};
use crate::length::Length;
use crate::outlines;
use crate::paper::{StockId, StockSide};
use crate::pattern::{
    self, Divided, Facet, Fault, Hinge, LineId, LineKind, Misfit, Pattern, divide, misfits,
};
use crate::plane::{FaceFrame, PieceFrame, Point, Polygon, Rect, Region, Size};
use crate::problem::{Place, Problem, Weight};
use crate::recipe::{Face, Flaw, Fold, Layer, LayerId, PanelId, Recipe, Seat};

/// A score across a strip, from edge to edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Crease {
    /// One end.
    pub from: Point<PieceFrame>,
    /// The other end.
    pub to: Point<PieceFrame>,
    /// How it folds, seen from side A.
    pub fold: Fold,
}

/// A panel of a flat piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LaidPanel {
    /// Its lasting name.
    pub id: PanelId,
    /// Its outline with its holes and slits.
    pub facet: Facet,
}

/// The folded piece before it is folded, seen from side A.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// The paper.
    pub stock: StockId,
    /// What is cut.
    pub outline: Polygon<PieceFrame>,
    /// What is cut out of it.
    pub holes: Vec<Polygon<PieceFrame>>,
    /// Whether its edge is shaped or something is cut out of it.
    pub is_cut_out: bool,
    /// Length along the strip and height across it.
    pub size: Size,
    /// The panels by their corners farthest left: along a strip, in its order.
    pub panels: Vec<LaidPanel>,
    /// The creases between them, `left` and `right` by place among the panels.
    pub hinges: Vec<Hinge>,
    /// The scores across the strip, in order along it.
    pub creases: Vec<Crease>,
    /// The creases and cuts that are drawn on the strip besides its scores.
    pub lines: Vec<pattern::Line>,
    /// What is cut away.
    pub waste: Vec<Facet>,
    /// Whether creases or cuts go round something, so that not every crease
    /// can fold without others.
    pub has_rings: bool,
    /// Where the panels do not come together when all creases are folded.
    pub misfits: Vec<Misfit>,
}

impl Piece {
    /// The place of a panel among the panels.
    pub fn place_of(&self, id: PanelId) -> Option<usize> {
        self.panels.iter().position(|panel| panel.id == id)
    }
}

/// A layer in its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LaidLayer {
    /// Its lasting name.
    pub id: LayerId,
    /// The paper.
    pub stock: StockId,
    /// The side of the paper that shows.
    pub shows: StockSide,
    /// The face that carries it, perhaps through other layers.
    pub face: Face,
    /// Where it lies on that face.
    pub at: Rect<FaceFrame>,
    /// What it covers, where that is not all of the rectangle.
    pub shape: Option<Region<FaceFrame>>,
}

impl LaidLayer {
    /// What it covers.
    pub fn region(&self) -> Region<FaceFrame> {
        let shape = self.shape.clone();
        shape.unwrap_or_else(|| Region::from(self.at))
    }
}

/// Every piece of the card, flat.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LaidOut {
    /// The folded piece.
    pub base: Piece,
    /// The layers in the order they are put on.
    pub layers: Vec<LaidLayer>,
    /// What does not fit together.
    pub problems: Vec<Problem>,
}

impl LaidOut {
    /// The layer of that name.
    pub fn layer(&self, id: LayerId) -> Option<&LaidLayer> {
        self.layers.iter().find(|layer| layer.id == id)
    }
}

/// Lays out the pieces of a recipe with exact lengths.
pub fn lay_out(recipe: &Recipe) -> LaidOut {
    let mut problems = broken_relations(recipe);
    let (base, faults) = base(recipe);
    problems.extend(faults);
    let mut layers: Vec<LaidLayer> = Vec::new();
    for layer in &recipe.layers {
        match place(recipe, &base, &layers, layer) {
            Some((laid, flaw)) => {
                problems.extend(flaw.map(|flaw| outlines::flawed(layer, flaw)));
                layers.push(laid);
            }
            None => problems.push(Problem {
                place: Place::Layer(layer.id),
                weight: Weight::Stop,
                what: format!("{} lies on nothing.", layer.name),
                why: "What it lay on is no longer part of the card, or comes after it.".to_owned(),
                remedy: "Put it on a panel or on a layer before it, or take it off.".to_owned(),
            }),
        }
    }
    LaidOut {
        base,
        layers,
        problems,
    }
}

/// The strip as a pattern, with where each of its panels ends, and what is
/// left once all is cut out of it.
fn drawn(recipe: &Recipe) -> (Pattern, Vec<Length>, Paper) {
    let height = recipe.value(recipe.base.height);
    let mut ends = Vec::new();
    let mut at = Length::ZERO;
    for panel in &recipe.base.panels {
        at += recipe.value(panel.width);
        ends.push(at);
    }
    let scores = ends.iter().zip(&recipe.base.folds).enumerate();
    let scores = scores.take(ends.len().saturating_sub(1));
    let scores = scores.map(|(score, (at, fold))| pattern::Line {
        id: LineId::of_score(score),
        from: Point::new(*at, Length::ZERO),
        to: Point::new(*at, height),
        kind: LineKind::Crease(*fold),
    });
    let lines = recipe.base.lines.iter().map(|line| pattern::Line {
        id: LineId::of_line(line.id),
        from: recipe.corner(line.from),
        to: recipe.corner(line.to),
        kind: line.kind,
    });
    let outline = Rect::spanning(
        Point::new(Length::ZERO, Length::ZERO),
        Point::new(at, height),
    );
    let starts = std::iter::once(Length::ZERO).chain(ends.iter().copied());
    let grounds = recipe.base.panels.iter().zip(starts.zip(&ends));
    let grounds: Vec<_> = grounds
        .map(|(panel, (start, end))| Ground {
            panel: panel.id,
            at: Rect::spanning(Point::new(start, Length::ZERO), Point::new(*end, height)),
        })
        .collect();
    let paper = cut_out(recipe, outline, &grounds, &recipe.base.cutouts);
    let pattern = Pattern {
        outline: paper.outline.clone(),
        holes: paper.holes.clone(),
        lines: scores.chain(lines).collect(),
    };
    (pattern, ends, paper)
}

fn base(recipe: &Recipe) -> (Piece, Vec<Problem>) {
    let (pattern, ends, paper) = drawn(recipe);
    let divided = divide(&pattern);
    let mut panels = named(&divided, &ends, recipe);
    let root = panels
        .iter()
        .position(|panel| panel.id == recipe.base.rests);
    // What no crease joins to the panel that rests falls off when it is cut.
    let kept = joined_to(&divided, root.unwrap_or(0));
    let place = |facet: usize| kept.iter().position(|kept| *kept == facet);
    let hinges = divided.hinges.iter().filter_map(|hinge| {
        Some(Hinge {
            left: place(hinge.left)?,
            right: place(hinge.right)?,
            ..*hinge
        })
    });
    let hinges = hinges.collect();
    let mut number = 0;
    let is_cut_out = !paper.waste.is_empty();
    let mut waste = paper.waste;
    panels.retain(|panel| {
        let keep = kept.contains(&number);
        number += 1;
        if !keep {
            waste.push(panel.facet.clone());
        }
        keep
    });
    let misfits = misfits(&divided);
    let size = Size {
        width: ends.last().copied().unwrap_or_default(),
        height: recipe.value(recipe.base.height),
    };
    let faults: Vec<_> = divided
        .faults
        .iter()
        .filter(|fault| !matches!(fault, Fault::Loose { .. }))
        .filter(|fault| !(is_cut_out && ends_at_cutout(fault, size)))
        .copied()
        .collect();
    let mut problems = paper.problems;
    problems.extend(pattern::problems(
        &pattern,
        &faults,
        &misfits,
        recipe.notation,
    ));
    let (scores, lines): (Vec<_>, Vec<_>) = pattern
        .lines
        .into_iter()
        .partition(|line| line.id.score().is_some());
    let creases = scores.iter().filter_map(|line| {
        Some(Crease {
            from: line.from,
            to: line.to,
            fold: line.fold()?,
        })
    });
    let piece = Piece {
        stock: recipe.base.stock,
        outline: pattern.outline,
        holes: pattern.holes,
        is_cut_out,
        size,
        panels,
        hinges,
        creases: creases.collect(),
        lines,
        waste,
        has_rings: !divided.vertices.is_empty() || !divided.openings.is_empty(),
        misfits,
    };
    (piece, problems)
}

/// Whether a line leaves the paper only where something is cut out of the strip:
/// it ends there as it would at an edge.
fn ends_at_cutout(fault: &Fault, strip: Size) -> bool {
    let beyond = |at: Length, end: Length| at < Length::ZERO || at > end;
    let on_edge = |at: Length, end: Length| at == Length::ZERO || at == end;
    match fault {
        Fault::Outside { part, .. } => [part.from, part.to]
            .into_iter()
            .all(|at| !beyond(at.x, strip.width) && !beyond(at.y, strip.height)),
        Fault::AlongEdge { part, .. } => {
            let at = part.middle();
            !on_edge(at.x, strip.width) && !on_edge(at.y, strip.height)
        }
        _ => false,
    }
}

/// The facets with the names of the strip's panels they are parts of. The
/// largest part of a panel keeps the panel's own name, and what lies on it.
fn named(divided: &Divided, ends: &[Length], recipe: &Recipe) -> Vec<LaidPanel> {
    let panel_of = |facet: &Facet| {
        let left = facet.outline.corners.first()?.x;
        ends.iter().position(|end| left < *end)
    };
    let largest: Vec<_> = (0..ends.len())
        .map(|panel| {
            let facets = divided.facets.iter().enumerate();
            let parts = facets.filter(|(_, facet)| panel_of(facet) == Some(panel));
            // Of equals the last, so that a sheet folded in half rests on its
            // right page and opens like a book.
            parts
                .max_by_key(|(_, facet)| facet.twice_area())
                .map(|(place, _)| place)
        })
        .collect();
    let mut others = vec![0; ends.len()];
    let facets = divided.facets.iter().enumerate();
    facets
        .filter_map(|(place, facet)| {
            let panel = panel_of(facet)?;
            let id = recipe.base.panels.get(panel)?.id;
            let number = if largest.get(panel) == Some(&Some(place)) {
                0
            } else {
                let others = others.get_mut(panel)?;
                *others += 1;
                *others
            };
            Some(LaidPanel {
                id: id.part(number),
                facet: facet.clone(),
            })
        })
        .collect()
}

/// The facets that creases join to one of them, in order.
fn joined_to(divided: &Divided, root: usize) -> Vec<usize> {
    let mut found = vec![root];
    let mut next = 0;
    while let Some(facet) = found.get(next).copied() {
        next += 1;
        for hinge in &divided.hinges {
            if [hinge.left, hinge.right].contains(&facet) {
                let beyond = hinge.across(facet);
                if !found.contains(&beyond) {
                    found.push(beyond);
                }
            }
        }
    }
    found.retain(|facet| *facet < divided.facets.len());
    found.sort_unstable();
    found
}

/// Where a layer lies, given the layers before it.
fn place(
    recipe: &Recipe,
    base: &Piece,
    before: &[LaidLayer],
    layer: &Layer,
) -> Option<(LaidLayer, Option<Flaw>)> {
    let (face, seat) = match layer.on {
        Seat::Face(face) => {
            base.place_of(face.panel)?;
            (face, Point::new(Length::ZERO, Length::ZERO))
        }
        Seat::Layer(id) => {
            let under = before.iter().find(|under| under.id == id)?;
            (under.face, under.at.low)
        }
    };
    let low = Point::new(
        seat.x + recipe.value(layer.left),
        seat.y + recipe.value(layer.bottom),
    );
    let size = Size {
        width: recipe.value(layer.width),
        height: recipe.value(layer.height),
    };
    let at = Rect::at(low, size);
    let drawn = layer.outline.within(recipe, &at);
    let laid = LaidLayer {
        id: layer.id,
        stock: layer.stock,
        shows: layer.shows,
        face,
        at,
        shape: drawn.region,
    };
    Some((laid, drawn.flaw))
}

fn broken_relations(recipe: &Recipe) -> Vec<Problem> {
    recipe
        .broken()
        .iter()
        .map(|relation| Problem {
            place: Place::Recipe,
            weight: Weight::Warning,
            what: format!("It does not hold that {}.", relation.words(recipe)),
            why: "The lengths in the recipe say otherwise.".to_owned(),
            remedy: "Change one of these lengths, or take the relation away.".to_owned(),
        })
        .collect()
}
