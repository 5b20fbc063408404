//! Drawings of the card: areas, lines and texts that know what they mean.
//!
//! Coordinates are millimetres, x to the right and y up, in floating point:
//! a drawing is for the eye, and nothing is computed from it.

mod convex;
mod cut;
mod direction;
mod document;
mod edge;
mod fence;
mod flat;
mod folded;
mod heads;
mod held;
mod hiding;
mod hit;
mod look;
mod painted;
mod pen;
mod ruler;
mod sheet;
mod space;
mod standing;
mod svg;
mod worked;

pub use crate::posed::Moment;
pub use cut::cut_layer;
pub use direction::Direction;
pub use document::document;
pub use edge::edge_on;
pub use fence::{at_fence, letter};
pub use flat::{back_of_layer, flat};
pub use folded::{folding, opening, opening_from, opening_together, state};
pub use held::{Held, held_closed, held_flat, held_standing};
pub use hit::Target;
pub use painted::{Line, Motif, Paint, Painted, painted};
pub use pen::{Theme, Tone, style_sheet};
pub use sheet::part_on_sheet;
pub use standing::{Colouring, FirstLook, as_it_stands, first_look, on_table, told_apart};
pub use svg::{Addresses, Element, Written, svg};
pub use worked::{at_board, at_line, bare, place_on};

use crate::faces::Part;
use crate::length::Length;
use crate::paper::{Colour, PhotoId, Print, PrintedPaper, SideLook};
use crate::pattern::LineId;
use crate::plane::Point;
use crate::recipe::{CutoutId, MeasureId, StripId};

/// A point of a drawing, in millimetres.
pub type Spot = [f64; 2];

/// An affine map into a drawing: where x, where y, and where the origin go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Affine {
    /// Where one millimetre to the right goes.
    pub x: Spot,
    /// Where one millimetre up goes.
    pub y: Spot,
    /// Where the origin goes.
    pub origin: Spot,
}

impl Affine {
    /// Where nothing moves.
    pub const UNMOVED: Self = Self {
        x: [1.0, 0.0],
        y: [0.0, 1.0],
        origin: [0.0, 0.0],
    };

    /// Where a point goes.
    pub fn apply(&self, [x, y]: Spot) -> Spot {
        [0, 1].map(|i| self.origin[i] + x * self.x[i] + y * self.y[i])
    }

    /// This map followed by another.
    #[must_use]
    pub fn then(&self, next: &Self) -> Self {
        let way = |[x, y]: Spot| [0, 1].map(|i| x * next.x[i] + y * next.y[i]);
        Self {
            x: way(self.x),
            y: way(self.y),
            origin: next.apply(self.origin),
        }
    }
}

/// A photograph that is shown in place of colour and print.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Photo {
    /// Which.
    pub id: PhotoId,
    /// Width and height of the side it shows, in millimetres; its lower left corner
    /// lies at the origin of the print.
    pub size: Spot,
}

/// What an area is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fill {
    /// Paper, with its print carried from an upright sheet into the drawing.
    Paper {
        /// The colour under the print.
        colour: Colour,
        /// The print.
        print: Print,
        /// Whose motif is printed, where that is known.
        printed: Option<PrintedPaper>,
        /// The photograph that is shown in place of both, where it is at hand.
        photo: Option<Photo>,
        /// From an upright print, measured from the lower left corner of its sheet,
        /// to the drawing.
        place: Affine,
        /// How much darker it is for lying at an angle, 0 to 1.
        shade: f64,
    },
    /// Where glue may go.
    Glue,
    /// Where glue was asked for and is refused.
    Refused,
    /// What is cut away.
    Waste,
    /// What of the table lies in the shadow of a card; what several outlines share
    /// is as dark as the rest.
    Shadow,
    /// The ground behind everything.
    Ground,
}

impl Fill {
    /// A side of a sheet of that size in millimetres.
    fn of_paper(side: SideLook, sheet: Spot, place: Affine, shade: f64) -> Self {
        Self::Paper {
            colour: side.colour,
            print: side.print,
            printed: side.printed,
            photo: side.photo.map(|id| Photo { id, size: sheet }),
            place,
            shade,
        }
    }
}

/// What a line is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// The edge of paper.
    Edge,
    /// Paper seen along its edge.
    Section,
    /// A mountain, seen from the side drawn.
    Mountain,
    /// A valley, seen from the side drawn.
    Valley,
    /// A cut within the paper.
    Cut,
    /// A line that is not worked on now.
    Faint,
    /// Something on the other side.
    Hidden,
    /// A line that another piece is laid along.
    Laid,
    /// A dimension line.
    Dimension,
    /// The edge of a ruler, and its marks.
    Ruler,
}

/// What a text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// A measure that can be changed.
    Number(MeasureId),
    /// A length that follows from others.
    Length,
    /// A name or a hint.
    Label,
    /// A number on a ruler.
    Graduation,
}

/// Something drawn.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// An area with any number of outlines; what two of them share is a hole.
    Area {
        /// The outlines.
        outlines: Vec<Vec<Spot>>,
        /// What it is made of.
        fill: Fill,
        /// Whether its edge is drawn.
        edged: bool,
        /// The part of the card it is, which can be chosen.
        part: Option<Part>,
    },
    /// A straight line.
    Line {
        /// One end.
        from: Spot,
        /// The other end.
        to: Spot,
        /// What it is.
        ink: Ink,
        /// The score or other line it stands for, which can be dragged.
        line: Option<LineId>,
    },
    /// Straight lines that are drawn together.
    Lines {
        /// Their ends.
        lines: Vec<[Spot; 2]>,
        /// What they are.
        ink: Ink,
    },
    /// A closed chain of straight lines.
    Outline {
        /// Its corners.
        corners: Vec<Spot>,
        /// What it is.
        ink: Ink,
    },
    /// An arrow to the head of a print.
    Arrow {
        /// Its foot.
        from: Spot,
        /// Its point.
        to: Spot,
    },
    /// A part that falls off when the paper is cut, which can be chosen.
    Fallen {
        /// Its outlines; what two of them share is a hole.
        outlines: Vec<Vec<Spot>>,
        /// What it falls off.
        of: StripId,
        /// Which of the parts that fall off.
        part: usize,
    },
    /// Where something can be taken hold of; nothing is drawn there.
    Grip {
        /// The middle of it.
        at: Spot,
        /// The window.
        window: CutoutId,
    },
    /// A text centred on a point.
    Text {
        /// Its centre.
        at: Spot,
        /// What it says.
        words: String,
        /// What it is.
        role: Role,
    },
}

/// A drawing with the rectangle it fills.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// Lower left corner.
    pub low: Spot,
    /// Upper right corner.
    pub high: Spot,
    /// The left edge of the paper: where the first of it lies, of a card that
    /// opens at any moment of that.
    pub left: f64,
    /// What is drawn, in the order it is drawn.
    pub marks: Vec<Mark>,
}

impl Drawing {
    /// One with nothing in it.
    pub fn empty() -> Self {
        Self::framed(Vec::new(), 0.0)
    }

    /// Frames some marks with a margin, which is a share of the longer side.
    pub(crate) fn framed(marks: Vec<Mark>, margin: f64) -> Self {
        let mut low = [f64::INFINITY; 2];
        let mut high = [f64::NEG_INFINITY; 2];
        let mut left = f64::INFINITY;
        let mut reach = |at: &Spot| {
            for i in [0, 1] {
                low[i] = low[i].min(at[i]);
                high[i] = high[i].max(at[i]);
            }
        };
        for mark in &marks {
            match mark {
                Mark::Area { outlines, .. } | Mark::Fallen { outlines, .. } => {
                    for at in outlines.iter().flatten() {
                        left = left.min(at[0]);
                        reach(at);
                    }
                }
                Mark::Lines { lines, .. } => lines.iter().flatten().for_each(&mut reach),
                Mark::Line { from, to, .. } | Mark::Arrow { from, to } => {
                    [from, to].into_iter().for_each(&mut reach);
                }
                Mark::Outline { corners, .. } => corners.iter().for_each(&mut reach),
                Mark::Grip { .. } => {}
                Mark::Text { at, .. } => reach(at),
            }
        }
        // Words need room on both sides of their centre.
        let letter = text_size([high[0] - low[0], high[1] - low[1]]) * LETTER_WIDTH;
        for mark in &marks {
            if let Mark::Text { at, words, .. } = mark {
                let letters = u32::try_from(words.chars().count()).unwrap_or(u32::MAX);
                let half = letter * f64::from(letters) / 2.0;
                low[0] = low[0].min(at[0] - half);
                high[0] = high[0].max(at[0] + half);
            }
        }
        if !(low[0].is_finite() && low[1].is_finite()) {
            (low, high) = ([0.0; 2], [1.0; 2]);
        }
        if !left.is_finite() {
            left = low[0];
        }
        let margin = margin * (high[0] - low[0]).max(high[1] - low[1]).max(1.0);
        Self {
            low: low.map(|edge| edge - margin),
            high: high.map(|edge| edge + margin),
            left,
            marks,
        }
    }

    /// Width and height in millimetres.
    pub fn size(&self) -> Spot {
        [self.high[0] - self.low[0], self.high[1] - self.low[1]]
    }
}

/// How wide a letter is, as a share of the text's size: most are narrower.
const LETTER_WIDTH: f64 = 0.6;

/// The size of text that can be read when a drawing of this size fills a
/// phone's width.
fn text_size([width, height]: Spot) -> f64 {
    width.max(height) / 24.0
}

/// The size of numbers on a ruler, larger on a tall drawing: a phone shows that
/// smaller than its width would let it.
fn graduation_size([width, height]: Spot) -> f64 {
    (width / 24.0).max(height / 18.0)
}

fn millimetres(length: Length) -> f64 {
    length.as_mm_f64()
}

fn spot<F>(at: Point<F>) -> Spot {
    [millimetres(at.x), millimetres(at.y)]
}
