//! Which way printed paper must lie so that it reads upright.

use serde::{Deserialize, Serialize};

use crate::length::Length;
use crate::paper::{Heads, Print, Stock, StockSide};
use crate::plane::{PieceFrame, Placement, Point, SheetFrame, Turn};
use crate::recipe::Side;

/// How the strip lies on the sheet it is cut from: which side of the sheet
/// becomes the outside of the card, and how the strip is turned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Lay {
    /// The side of the stock that becomes the outside of the card.
    pub outside: StockSide,
    /// The turn of the strip, seen from its inside, against the sheet lying
    /// with that same side up, turned over like a page where it must be.
    pub turn: Turn,
}

/// How the strip lies on the scoring board: the first panel at the stop on the
/// left, one side up. Turned over about its long axis, the first panel stays
/// at the stop.
#[derive(Debug)]
pub enum BoardFrame {}

impl Lay {
    /// Every lay: two sides, four turns.
    pub fn all() -> impl Iterator<Item = Self> {
        [StockSide::Face, StockSide::Back]
            .into_iter()
            .flat_map(|outside| Turn::ALL.map(|turn| Self { outside, turn }))
    }

    /// The side of the stock that becomes a side of the strip.
    pub const fn stock_side(self, side: Side) -> StockSide {
        match side {
            Side::B => self.outside,
            Side::A => self.outside.other(),
        }
    }

    /// Whether the strip's length runs across the sheet's width (and so across
    /// an upright print), not along its height.
    pub const fn runs_across(self) -> bool {
        !self.turn.is_sideways()
    }

    /// Where the directions of the strip point on the sheet. Only directions
    /// count; where on the sheet the strip lies is for the cutting plan.
    fn on_sheet(self) -> Placement<PieceFrame, SheetFrame> {
        let turned_over = matches!(self.outside, StockSide::Face);
        Placement::new(
            turned_over,
            self.turn,
            Point::new(Length::ZERO, Length::ZERO),
        )
    }

    /// Where the print on a side of the strip has its head, in the strip's own
    /// frame (seen from side A); `None` where the print has no direction.
    pub fn head_on(self, stock: &Stock, side: Side) -> Option<Turn> {
        let from = self.stock_side(side);
        match stock.side(from).print {
            Print::Plain | Print::AllOver => None,
            Print::OneWay | Print::TwoWay => {
                let on_sheet = match (from, stock.heads) {
                    (StockSide::Face, _) | (StockSide::Back, Heads::ToHead) => Turn::None,
                    (StockSide::Back, Heads::ToFoot) => Turn::Half,
                };
                Some(self.on_sheet().back().direction(on_sheet))
            }
        }
    }

    /// Whether a face reads upright where its panel lies at `place` and is
    /// seen from the front or from the back; a print without direction always
    /// does, and one that reads both ways does upside down too.
    pub fn is_upright<F>(
        self,
        stock: &Stock,
        side: Side,
        place: &Placement<PieceFrame, F>,
    ) -> bool {
        let Some(head) = self.head_on(stock, side) else {
            return true;
        };
        match place.direction(head) {
            Turn::None => true,
            Turn::Half => matches!(stock.side(self.stock_side(side)).print, Print::TwoWay),
            Turn::Left | Turn::Right => false,
        }
    }

    /// Where the print that is up on the scoring board has its head: `Half`
    /// means its feet point away from the maker. `None` where it has no
    /// direction.
    pub fn head_on_board(self, stock: &Stock, up: Side) -> Option<Turn> {
        let place: Placement<PieceFrame, BoardFrame> = match up {
            Side::A => Placement::unmoved(),
            // Over its long axis: mirrored left to right and turned half round.
            Side::B => Placement::new(true, Turn::Half, Point::new(Length::ZERO, Length::ZERO)),
        };
        Some(place.direction(self.head_on(stock, up)?))
    }
}
