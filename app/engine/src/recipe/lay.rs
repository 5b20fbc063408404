//! How what is cut lies on its sheet, and which way its print runs then.

use serde::{Deserialize, Serialize};

use super::Side;
use crate::length::Length;
use crate::paper::{Print, Stock, StockSide};
use crate::plane::{Bearing, Edge, PieceFrame, Placement, Point, Rect, SheetFrame, Size, Turn};

/// How a strip lies on the sheet it is cut from: which side of the sheet
/// becomes the outside of the card, and how the strip is turned.
///
/// A layer lies there as a strip does whose side A is the one that shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Lay {
    /// The side of the stock that becomes the outside of the card.
    pub outside: StockSide,
    /// The turn of the strip on the sheet that lies face up, its print upright.
    /// Before it is turned, the strip lies as it is drawn, its inside up, or
    /// turned over like a page where the face becomes the outside.
    pub turn: Turn,
}

/// How a piece lies on its sheet as the maker sees it, the sheet face up and
/// its print upright: what instructions and figures go by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct OnSheet {
    /// The side of the piece that is up.
    pub up: Side,
    /// The edge of the sheet, face up and its print upright, towards which the
    /// first panel lies.
    pub first: Edge,
    /// The edge towards which its top lies.
    pub top: Edge,
}

/// How the strip lies on the scoring board: the first panel at the stop on the
/// left, one side up. Turned over about its long axis, the first panel stays
/// at the stop.
#[derive(Debug)]
pub enum BoardFrame {}

impl Lay {
    /// As the strip is drawn, side B up.
    pub const AS_DRAWN: Self = Self {
        outside: StockSide::Face,
        turn: Turn::None,
    };

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

    /// The size of a strip as it lies on its sheet, across the sheet and up it.
    #[must_use]
    pub const fn size(self, strip: Size) -> Size {
        if self.runs_across() {
            strip
        } else {
            strip.turned()
        }
    }

    /// How the piece lies on the sheet, in what a maker sees.
    pub fn on_table(self) -> OnSheet {
        let up = match self.outside {
            StockSide::Face => Side::B,
            StockSide::Back => Side::A,
        };
        let edge = |towards: Turn| match self.on_sheet().direction(towards).quarter() {
            Some(Turn::None) => Edge::Top,
            Some(Turn::Half) => Edge::Bottom,
            Some(Turn::Right) => Edge::Right,
            // The only other: strips lie on sheets in quarter turns.
            Some(Turn::Left) | None => Edge::Left,
        };
        OnSheet {
            up,
            // As the strip is drawn, its first panel lies to the left.
            first: edge(Turn::Left),
            top: edge(Turn::None),
        }
    }

    /// Where a piece of that size lies on its sheet whose lower left corner lies
    /// there, as it lies on the sheet.
    pub(crate) fn placed(
        self,
        size: Size,
        low: Point<SheetFrame>,
    ) -> Placement<PieceFrame, SheetFrame> {
        let turned = self.on_sheet();
        let ground = Rect::at(Point::new(Length::ZERO, Length::ZERO), size);
        let lies = turned.rect(&ground).low;
        let shift: Placement<SheetFrame, SheetFrame> = Placement::new(
            false,
            Turn::None,
            Point::new(low.x - lies.x, low.y - lies.y),
        );
        turned.then(&shift)
    }

    /// Where a piece of that size lies that is the first to be cut from its sheet:
    /// in the upper left corner.
    pub(crate) fn first_on(self, stock: &Stock, size: Size) -> Placement<PieceFrame, SheetFrame> {
        let top = stock.height - self.size(size).height;
        self.placed(size, Point::new(Length::ZERO, top))
    }

    /// Where the directions of the strip point on the sheet; see
    /// [`placed`](Self::placed) for where it lies.
    pub(crate) fn on_sheet(self) -> Placement<PieceFrame, SheetFrame> {
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
                let on_sheet = stock.print_on_sheet(from).direction(Turn::None);
                self.on_sheet().back().direction(on_sheet).quarter()
            }
        }
    }

    /// How far the print of a face is turned from upright where its panel lies
    /// at `place` and is seen from the front or from the back; one that reads
    /// both ways by its nearer head. `None` where it has no direction.
    pub fn turned<F>(
        self,
        stock: &Stock,
        side: Side,
        place: &Placement<PieceFrame, F>,
    ) -> Option<Bearing> {
        let turned = place.direction(self.head_on(stock, side)?);
        let print = stock.side(self.stock_side(side)).print;
        if print == Print::TwoWay && turned.cos_sin().0 < 0.0 {
            return Some(turned.then(Turn::Half.into()));
        }
        Some(turned)
    }

    /// Whether a face reads upright where its panel lies at `place`; a print
    /// without direction always does.
    pub fn is_upright<F>(
        self,
        stock: &Stock,
        side: Side,
        place: &Placement<PieceFrame, F>,
    ) -> bool {
        let turned = self.turned(stock, side, place);
        turned.is_none_or(|turned| turned.looks_like() == Some(Turn::None))
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
        place.direction(self.head_on(stock, up)?).quarter()
    }
}
