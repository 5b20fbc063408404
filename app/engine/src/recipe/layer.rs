//! What is put on the base: mats, mat stacks, focal pieces, inserts.

use serde::{Deserialize, Serialize};

use super::{Face, Holds, Is, Lay, MeasureId, Outline, Recipe, Relation, Term};
use crate::length::Length;
use crate::paper::{StockId, StockSide};
use crate::plane::{Point, SheetFrame, Turn};

/// Names a layer for as long as it exists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct LayerId(pub u32);

/// What a layer lies on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Seat {
    /// A face of a panel.
    Face(Face),
    /// Another layer, making a mat stack.
    Layer(LayerId),
}

/// What a layer is held by: one of nine points of what it lies on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[expect(missing_docs, reason = "the names are the nine points")]
pub enum Anchor {
    TopLeft,
    Top,
    TopRight,
    Left,
    Centre,
    Right,
    BottomLeft,
    Bottom,
    BottomRight,
}

/// How the maker places a layer. The relations that keep it are part of the
/// recipe; this says how they came about and how the editor shows them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Placing {
    /// An even border all round: the size follows from what it lies on.
    Border(MeasureId),
    /// By its own size, held at one of nine points.
    At(Anchor),
    /// By its own size and its distances from the left and the bottom.
    Distances,
}

/// How a layer is fixed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Bond {
    /// Glued wherever that is safe.
    #[default]
    Safe,
    /// Glued in a rectangle the maker chose, by its distances from the edges
    /// of the layer's back as seen when gluing.
    Within {
        /// From the left edge of the back.
        left: Length,
        /// From the right edge of the back.
        right: Length,
        /// From the top edge of the back.
        top: Length,
        /// From the bottom edge of the back.
        bottom: Length,
    },
    /// Not glued: a loose insert.
    Loose,
}

/// A flat piece put on a panel or on another layer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Layer {
    /// Its lasting name.
    pub id: LayerId,
    /// What the maker calls it.
    pub name: String,
    /// The paper it is cut from.
    pub stock: StockId,
    /// Which side of that paper shows.
    pub shows: StockSide,
    /// How the maker chose to turn it on the sheet it is cut from; otherwise it
    /// lies in the best way. Before it is turned, it lies upright on the sheet
    /// that lies face up, or turned over like a page where the back shows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub turn: Option<Turn>,
    /// Where on its sheet the maker wants it cut: the lower left corner of the
    /// rectangle it takes there, the sheet face up and its print upright. Otherwise it
    /// is cut from anywhere.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cut_at: Option<Point<SheetFrame>>,
    /// What it lies on.
    pub on: Seat,
    /// Its width as its reader sees it.
    pub width: MeasureId,
    /// Its height as its reader sees it.
    pub height: MeasureId,
    /// How far its left edge lies from the left edge of its seat; negative
    /// where it overhangs.
    pub left: MeasureId,
    /// How far its bottom edge lies from the bottom edge of its seat.
    pub bottom: MeasureId,
    /// How the maker places it.
    pub place: Placing,
    /// Its outline within its width and height.
    #[serde(default, skip_serializing_if = "Outline::is_straight")]
    pub outline: Outline,
    /// How it is fixed.
    #[serde(default)]
    pub bond: Bond,
    /// Whether it is what should be seen first.
    #[serde(default)]
    pub focal: bool,
}

impl Layer {
    /// The measures it is made of.
    pub fn measures(&self) -> impl Iterator<Item = MeasureId> + use<> {
        [self.width, self.height, self.left, self.bottom]
            .into_iter()
            .chain(self.place.border())
            .chain(self.outline.measure())
    }

    /// How the maker chose to lay it on its sheet. A layer lies there as a strip
    /// does whose side A shows.
    pub fn lay(&self) -> Option<Lay> {
        let outside = self.shows.other();
        self.turn.map(|turn| Lay { outside, turn })
    }

    /// The distances that follow from its size where it is held in the middle.
    pub(crate) fn centred(&self) -> impl Iterator<Item = MeasureId> + use<> {
        self.place.centred(self.left, self.bottom)
    }

    /// Whether it has the shape and the size of what carries it, less a border.
    pub fn follows(&self) -> bool {
        let on_part = matches!(self.on, Seat::Face(face) if face.panel.part_number() > 0);
        let is_even = matches!(self.place, Placing::Border(_));
        is_even && (on_part || self.outline == Outline::Follows)
    }

    /// The relations that keep the layer in its place; none while what it lies
    /// on is missing, which the layout reports, and none where it takes the
    /// shape of what it lies on.
    pub(crate) fn keeps(&self, recipe: &Recipe) -> Vec<Relation> {
        if self.follows() {
            return Vec::new();
        }
        let Some(within) = recipe.seat_size(self.on) else {
            return Vec::new();
        };
        self.place
            .keeps((self.left, self.width), (self.bottom, self.height), within)
    }
}

impl Placing {
    /// The measure of the even border.
    pub(super) const fn border(self) -> Option<MeasureId> {
        match self {
            Self::Border(border) => Some(border),
            Self::At(_) | Self::Distances => None,
        }
    }

    /// The relations that keep a rectangle in its place within another, by
    /// where it begins and its size, across and up.
    pub(super) fn keeps(
        self,
        (left, width): (MeasureId, MeasureId),
        (bottom, height): (MeasureId, MeasureId),
        within: (MeasureId, MeasureId),
    ) -> Vec<Relation> {
        match self {
            Self::Distances => Vec::new(),
            Self::Border(border) => vec![
                Relation::same(left, border),
                Relation::same(bottom, border),
                Relation::less(width, 2, border, within.0),
                Relation::less(height, 2, border, within.1),
            ],
            Self::At(anchor) => {
                let (horizontal, vertical) = anchor.holds();
                let across = Span {
                    from: left,
                    size: width,
                    within: within.0,
                };
                let up = Span {
                    from: bottom,
                    size: height,
                    within: within.1,
                };
                vec![across.held(horizontal), up.held(vertical)]
            }
        }
    }

    /// The distances that follow from the size where it is held in the middle.
    pub(super) fn centred(
        self,
        left: MeasureId,
        bottom: MeasureId,
    ) -> impl Iterator<Item = MeasureId> {
        let held = match self {
            Self::At(anchor) => Some(anchor.holds()),
            Self::Border(_) | Self::Distances => None,
        };
        let middle =
            |hold: Hold, distance: MeasureId| matches!(hold, Hold::Middle).then_some(distance);
        held.into_iter()
            .flat_map(move |(across, up)| [middle(across, left), middle(up, bottom)])
            .flatten()
    }
}

/// Where along one direction a layer is held.
#[derive(Clone, Copy)]
enum Hold {
    Start,
    Middle,
    End,
}

impl Anchor {
    /// From left to right, and from bottom to top.
    const fn holds(self) -> (Hold, Hold) {
        match self {
            Self::TopLeft => (Hold::Start, Hold::End),
            Self::Top => (Hold::Middle, Hold::End),
            Self::TopRight => (Hold::End, Hold::End),
            Self::Left => (Hold::Start, Hold::Middle),
            Self::Centre => (Hold::Middle, Hold::Middle),
            Self::Right => (Hold::End, Hold::Middle),
            Self::BottomLeft => (Hold::Start, Hold::Start),
            Self::Bottom => (Hold::Middle, Hold::Start),
            Self::BottomRight => (Hold::End, Hold::Start),
        }
    }
}

/// A layer and its seat along one direction.
struct Span {
    from: MeasureId,
    size: MeasureId,
    within: MeasureId,
}

impl Span {
    fn held(&self, hold: Hold) -> Relation {
        let from = |times| Term {
            times,
            of: self.from,
        };
        let size = Term {
            times: 1,
            of: self.size,
        };
        let (left, right) = match hold {
            Hold::Start => (vec![from(1)], vec![]),
            Hold::Middle => (vec![from(2), size], vec![self.within]),
            Hold::End => (vec![from(1), size], vec![self.within]),
        };
        Relation {
            holds: Holds::Must,
            left,
            is: Is::Equal,
            right: right.into_iter().map(|of| Term { times: 1, of }).collect(),
            plus: Length::ZERO,
        }
    }
}
