//! How the parts of the card look: their paper, and which part of its print they
//! show.

use super::flat::affine;
use super::{Affine, Fill, millimetres};
use crate::card::Card;
use crate::faces::Part;
use crate::paper::{Colour, Print, SideLook, Stock};
use crate::part::Part as Cut;
use crate::plane::{PieceFrame, Placement, PrintFrame};
use crate::recipe::{Recipe, Side};

/// What a part is made of, and where the print of its sheet lies on it: for a face
/// in the frame of the flat piece, for a layer in that of its face, from the layer's
/// lower left corner.
pub(crate) struct Look {
    side: SideLook,
    /// The sheet's, in millimetres.
    sheet: [f64; 2],
    place: Placement<PrintFrame, PieceFrame>,
}

/// How a part looks; `None` when its paper is missing.
pub(crate) fn look(recipe: &Recipe, card: &Card, part: Part) -> Option<Look> {
    match part {
        Part::Face(face) => {
            let piece = card.laid.piece_with(card.laid.index_of(face.panel)?)?;
            Look::of(
                card,
                Cut::Strip(piece.of),
                recipe.stock(piece.stock)?,
                face.side,
            )
        }
        Part::Layer(id) | Part::LayerBack(id) => {
            let layer = card.laid.layer(id)?;
            // Its side A is the one that shows.
            let side = match part {
                Part::LayerBack(_) => Side::B,
                Part::Face(_) | Part::Layer(_) => Side::A,
            };
            Look::of(card, Cut::Layer(id), recipe.stock(layer.stock)?, side)
        }
    }
}

/// The outside and the inside of a card where they are told apart by colour.
/// (Own choice: a printed cover, and paper.)
const OUTSIDE: Colour = Colour::rgb(0x4f_9a_98);
const INSIDE: Colour = Colour::rgb(0xfd_ec_c4);

impl Look {
    fn of(card: &Card, cut: Cut, stock: &Stock, side: Side) -> Option<Self> {
        let blank = card.cut_list.of(cut)?;
        let of_stock = blank.lies.as_ref()?.lay.stock_side(side);
        let on_sheet = blank.on_sheet(stock)?;
        Some(Self {
            side: stock.side(of_stock),
            sheet: [stock.width, stock.height].map(millimetres),
            place: stock.print_on_sheet(of_stock).then(&on_sheet.back()),
        })
    }

    /// The look of a part told by its side: a face of plain paper is in the colour
    /// of the outside or the inside.
    pub(crate) fn by_side(self, part: Part) -> Self {
        let (Part::Face(face), Print::Plain, None) = (part, self.side.print, self.side.photo)
        else {
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
        Fill::of_paper(
            self.side,
            self.sheet,
            affine(&self.place).then(place),
            shade,
        )
    }
}
