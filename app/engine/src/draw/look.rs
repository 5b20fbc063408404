//! How the parts of the card look: their paper and which way its print runs.

use super::{Affine, Fill, Spot};
use crate::card::Card;
use crate::faces::Part;
use crate::paper::{Colour, Print, SideLook};
use crate::part::Part as Cut;
use crate::plane::Turn;
use crate::recipe::{Recipe, Side};

/// What a part is made of, with the turn of its print: for a face in the frame
/// of the flat piece, for a layer in the frame of its face.
pub(crate) struct Look {
    pub(crate) side: SideLook,
    pub(crate) head: Turn,
}

/// How a part looks; `None` when its paper is missing.
pub(crate) fn look(recipe: &Recipe, card: &Card, part: Part) -> Option<Look> {
    match part {
        Part::Face(face) => {
            let piece = card.laid.piece_with(card.laid.index_of(face.panel)?)?;
            let stock = recipe.stock(piece.stock)?;
            let lay = card.lies(Cut::Strip(piece.of))?.lay;
            Some(Look {
                side: stock.side(lay.stock_side(face.side)),
                head: lay.head_on(stock, face.side).unwrap_or_default(),
            })
        }
        Part::Layer(id) | Part::LayerBack(id) => {
            let layer = card.laid.layer(id)?;
            let stock = recipe.stock(layer.stock)?;
            // Its side A is the one that shows.
            let side = match part {
                Part::LayerBack(_) => Side::B,
                Part::Face(_) | Part::Layer(_) => Side::A,
            };
            let lay = card.lies(Cut::Layer(id))?.lay;
            Some(Look {
                side: stock.side(lay.stock_side(side)),
                head: lay.head_on(stock, side).unwrap_or_default(),
            })
        }
    }
}

/// The outside and the inside of a card where they are told apart by colour.
/// (Own choice: a printed cover, and paper.)
const OUTSIDE: Colour = Colour::rgb(0x4f_9a_98);
const INSIDE: Colour = Colour::rgb(0xfd_ec_c4);

impl Look {
    /// The look of a part told by its side: a face of plain paper is in the colour
    /// of the outside or the inside.
    pub(crate) fn by_side(self, part: Part) -> Self {
        let (Part::Face(face), Print::Plain) = (part, self.side.print) else {
            return self;
        };
        let colour = match face.side {
            Side::A => INSIDE,
            Side::B => OUTSIDE,
        };
        Self {
            side: SideLook {
                colour,
                ..self.side
            },
            ..self
        }
    }

    /// The fill of a part whose frame is carried into the drawing by `place`.
    pub(crate) fn fill(&self, place: &Affine, shade: f64) -> Fill {
        let (right, up): (Spot, Spot) = match self.head {
            Turn::None => ([1.0, 0.0], [0.0, 1.0]),
            Turn::Left => ([0.0, 1.0], [-1.0, 0.0]),
            Turn::Half => ([-1.0, 0.0], [0.0, -1.0]),
            Turn::Right => ([0.0, -1.0], [1.0, 0.0]),
        };
        let direction = |[x, y]: Spot| [0, 1].map(|i| x * place.x[i] + y * place.y[i]);
        Fill::Paper {
            colour: self.side.colour,
            print: self.side.print,
            place: Affine {
                x: direction(right),
                y: direction(up),
                origin: place.origin,
            },
            shade,
        }
    }
}
