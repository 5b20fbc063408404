//! The flat pieces: what is cut, with its scores, and where layers lie.

use crate::length::Length;
use crate::paper::{StockId, StockSide};
use crate::plane::{FaceFrame, PieceFrame, Point, Polygon, Rect, Size};
use crate::problem::{Place, Problem, Weight};
use crate::recipe::{Face, Fold, Layer, LayerId, PanelId, Recipe, Runs, Seat};

/// A score on a piece, from edge to edge.
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
    /// Its outline.
    pub outline: Polygon<PieceFrame>,
}

/// The folded piece before it is folded, seen from side A.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// The paper.
    pub stock: StockId,
    /// What is cut.
    pub outline: Polygon<PieceFrame>,
    /// Length along the strip and height across it.
    pub size: Size,
    /// The panels in order along the strip.
    pub panels: Vec<LaidPanel>,
    /// The scores in order along the strip.
    pub creases: Vec<Crease>,
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
    let base = base(recipe);
    let mut layers: Vec<LaidLayer> = Vec::new();
    for layer in &recipe.layers {
        match place(recipe, &layers, layer) {
            Some(laid) => layers.push(laid),
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

fn base(recipe: &Recipe) -> Piece {
    let height = recipe.value(recipe.base.height);
    let mut at = Length::ZERO;
    let mut panels = Vec::new();
    let mut creases = Vec::new();
    let mut folds = recipe.base.folds.iter();
    for panel in &recipe.base.panels {
        let from = at;
        at += recipe.value(panel.width);
        let outline = Rect::spanning(Point::new(from, Length::ZERO), Point::new(at, height));
        panels.push(LaidPanel {
            id: panel.id,
            outline: outline.into(),
        });
        if let Some(fold) = folds.next() {
            creases.push(Crease {
                from: Point::new(at, Length::ZERO),
                to: Point::new(at, height),
                fold: *fold,
            });
        }
    }
    creases.truncate(panels.len().saturating_sub(1));
    let size = Size { width: at, height };
    Piece {
        stock: recipe.base.stock,
        outline: Rect::at(Point::new(Length::ZERO, Length::ZERO), size).into(),
        size,
        panels,
        creases,
    }
}

/// Where a layer lies, given the layers before it.
fn place(recipe: &Recipe, before: &[LaidLayer], layer: &Layer) -> Option<LaidLayer> {
    let (face, seat) = match layer.on {
        Seat::Face(face) => {
            recipe.panel(face.panel)?;
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
    Some(LaidLayer {
        id: layer.id,
        stock: layer.stock,
        shows: layer.shows,
        face,
        at: Rect::at(low, size),
    })
}

/// The size of a face as its reader sees it.
pub fn face_size(recipe: &Recipe, face: Face) -> Option<Size> {
    let (_, panel) = recipe.panel(face.panel)?;
    let size = Size {
        width: recipe.value(panel.width),
        height: recipe.value(recipe.base.height),
    };
    Some(match recipe.base.runs {
        Runs::Across => size,
        Runs::Down => size.turned(),
    })
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
