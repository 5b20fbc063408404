//! The flat pieces: what is cut, with its scores, where layers lie, and how
//! pieces are glued together.

mod cutout;
mod faults;
mod flaw;
mod join;
mod parts;
mod piece;

pub use faults::pattern_problems;

use std::ops::Range;

use crate::length::Length;
use crate::paper::{StockId, StockSide};
use crate::pattern::{self, Facet, Hinge, LineId, Misfit};
use crate::plane::{FaceFrame, PieceFrame, Placement, Point, Polygon, Rect, Region, Segment, Size};
use crate::problem::{Finding, LaidFinding, Place, Problem};
use crate::recipe::{
    Face, Flaw, Fold, Layer, LayerId, PanelId, PieceId, Recipe, Seat, Shaped, StripId,
};

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
    /// Its outline with its holes and slits, in the frame of its own piece.
    pub facet: Facet,
}

/// A piece before it is folded, seen from side A.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// Whose strip it is.
    pub of: StripId,
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
    /// The indices of its panels among all.
    pub panels: Range<usize>,
    /// The scores across the strip, in order along it.
    pub creases: Vec<Crease>,
    /// The creases and cuts that are drawn on the strip besides its scores.
    pub lines: Vec<pattern::Line>,
    /// What is cut out of it.
    pub waste: Vec<Facet>,
    /// The parts that no crease joins to the one that is kept, and so fall off:
    /// the facets of each.
    pub fallen: Vec<Vec<Facet>>,
    /// Where the panels do not come together when all creases are folded.
    pub misfits: Vec<Misfit>,
}

/// A panel of a piece glued onto a face of another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bond {
    /// The piece, and which of its joins.
    pub join: (PieceId, usize),
    /// The panel that is glued, by its index among all.
    pub part: usize,
    /// The panel that carries it.
    pub on: usize,
    /// What it is glued to.
    pub face: Face,
    /// From the piece to the one that carries it; `None` where it is glued
    /// wherever it comes to lie.
    pub place: Option<Placement<PieceFrame, PieceFrame>>,
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
    /// The piece that makes the card.
    pub base: Piece,
    /// The pieces glued in, in the recipe's order.
    pub pieces: Vec<Piece>,
    /// The panels of all pieces, those of the base first; of each piece by
    /// their corners farthest left: along a strip, in its order.
    pub panels: Vec<LaidPanel>,
    /// The creases between panels of a piece, `left` and `right` by index
    /// among all panels; those of the base first.
    pub hinges: Vec<Hinge>,
    /// How the pieces are glued together.
    pub bonds: Vec<Bond>,
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

    /// The index of a panel among all panels.
    pub fn index_of(&self, id: PanelId) -> Option<usize> {
        self.panels.iter().position(|panel| panel.id == id)
    }

    /// The base, then the pieces glued in.
    pub fn all_pieces(&self) -> impl Iterator<Item = &Piece> {
        std::iter::once(&self.base).chain(&self.pieces)
    }

    /// The base, or a piece glued in.
    pub fn piece(&self, of: StripId) -> Option<&Piece> {
        self.all_pieces().find(|piece| piece.of == of)
    }

    /// The piece a panel belongs to, by the panel's index among all.
    pub fn piece_with(&self, panel: usize) -> Option<&Piece> {
        self.all_pieces()
            .find(|piece| piece.panels.contains(&panel))
    }

    /// The same with some pieces, and what is glued to them, lying loose; and
    /// all pieces that do.
    pub(crate) fn without(&self, pieces: &[PieceId]) -> (Self, Vec<PieceId>) {
        let mut loose = pieces.to_vec();
        // A piece is glued to those before it.
        for piece in self.pieces.iter().filter_map(|piece| piece.of.piece()) {
            let mut bonds = self.bonds.iter().filter(|bond| bond.join.0 == piece);
            let is_on_loose = bonds.any(|bond| {
                let carrier = self.piece_with(bond.on);
                let carrier = carrier.and_then(|carrier| carrier.of.piece());
                carrier.is_some_and(|carrier| loose.contains(&carrier))
            });
            if is_on_loose && !loose.contains(&piece) {
                loose.push(piece);
            }
        }
        let mut left = self.clone();
        left.bonds.retain(|bond| !loose.contains(&bond.join.0));
        for piece in &mut left.pieces {
            if piece.of.piece().is_some_and(|of| loose.contains(&of)) {
                piece.misfits.clear();
            }
        }
        (left, loose)
    }

    /// The paper of a panel.
    pub fn stock_of(&self, id: PanelId) -> Option<StockId> {
        Some(self.piece_with(self.index_of(id)?)?.stock)
    }

    /// The stretches of a line of that course that lie between panels; all of it
    /// where none does.
    pub fn stretches(&self, line: LineId, course: Segment<PieceFrame>) -> Vec<Segment<PieceFrame>> {
        let mut found: Vec<Segment<PieceFrame>> = Vec::new();
        for hinge in self.hinges.iter().filter(|hinge| hinge.line == line) {
            match found.last_mut() {
                Some(last) if last.to == hinge.course.from => last.to = hinge.course.to,
                _ => found.push(hinge.course),
            }
        }
        if found.is_empty() {
            found.push(course);
        }
        found
    }

    /// The panels of a piece.
    pub fn panels_of(&self, piece: &Piece) -> &[LaidPanel] {
        self.panels.get(piece.panels.clone()).unwrap_or_default()
    }
}

/// Lays out the pieces of a recipe with exact lengths.
pub fn lay_out(recipe: &Recipe) -> LaidOut {
    let mut problems = broken_relations(recipe);
    let base = piece::lay_out(recipe, None, &recipe.base.strip, 0);
    problems.extend(base.problems);
    let mut laid = LaidOut {
        base: base.piece,
        pieces: Vec::new(),
        panels: base.panels,
        hinges: base.hinges,
        bonds: Vec::new(),
        layers: Vec::new(),
        problems,
    };
    for piece in &recipe.pieces {
        let next = piece::lay_out(recipe, Some(piece), &piece.strip, laid.panels.len());
        laid.pieces.push(next.piece);
        laid.panels.extend(next.panels);
        laid.hinges.extend(next.hinges);
        laid.problems.extend(next.problems);
    }
    join::glue(recipe, &mut laid);
    for layer in &recipe.layers {
        let Some((placed, flaw)) = place(recipe, &laid, layer) else {
            let found = LaidFinding::OnNothing(layer.id);
            laid.problems
                .push(Problem::stop(Place::Layer(layer.id), Finding::Laid(found)));
            continue;
        };
        let flaw = flaw.map(|flaw| flaw::flawed(Shaped::Layer(layer.id), flaw));
        laid.problems.extend(flaw);
        laid.layers.push(placed);
    }
    laid
}

/// Where a layer lies, given the layers before it.
fn place(recipe: &Recipe, laid: &LaidOut, layer: &Layer) -> Option<(LaidLayer, Option<Flaw>)> {
    let (face, seat) = match layer.on {
        Seat::Face(face) => {
            laid.index_of(face.panel)?;
            (face, Point::new(Length::ZERO, Length::ZERO))
        }
        Seat::Layer(id) => {
            let under = laid.layer(id)?;
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
        .into_iter()
        .map(|relation| Problem::warning(Place::Recipe, Finding::Broken(relation.clone())))
        .collect()
}
