//! Which way printed paper must lie so that it reads upright.

use serde::{Deserialize, Serialize};

use crate::face::Reading;
use crate::length::Length;
use crate::paper::{Grain, Heads, Print, Stock, StockSide};
use crate::plane::{Bearing, Edge, PieceFrame, Placement, Point, SheetFrame, Size, Turn};
use crate::recipe::{Face, Side};

/// How the strip lies on the sheet it is cut from: which side of the sheet
/// becomes the outside of the card, and how the strip is turned.
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

    /// How the piece lies on the sheet, in what a maker sees.
    pub fn on_table(self) -> OnSheet {
        let up = match self.outside {
            StockSide::Face => Side::B,
            StockSide::Back => Side::A,
        };
        // As the strip is drawn, its first panel lies to the left.
        let first = match self.on_sheet().direction(Turn::Left).quarter() {
            Some(Turn::None) => Edge::Top,
            Some(Turn::Half) => Edge::Bottom,
            Some(Turn::Right) => Edge::Right,
            // The only other: strips lie on sheets in quarter turns.
            Some(Turn::Left) | None => Edge::Left,
        };
        OnSheet { up, first }
    }

    /// Where the directions of the strip point on the sheet. Only directions
    /// count; where on the sheet the strip lies is for the cutting plan.
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
                let on_sheet = match (from, stock.heads) {
                    (StockSide::Face, _) | (StockSide::Back, Heads::ToHead) => Turn::None,
                    (StockSide::Back, Heads::ToFoot) => Turn::Half,
                };
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

/// How a lay does on the recipe's paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LayReport {
    /// The lay.
    pub lay: Lay,
    /// The marked faces that read upright with it.
    pub upright: Vec<Face>,
    /// The marked faces that read upright with no lay, for which this one
    /// comes nearest to it.
    pub nearest: Vec<Face>,
    /// How many strips one sheet gives, all laid alike in rows; none where the
    /// strip does not fit so.
    pub per_sheet: i64,
    /// Whether the folds run along the paper's grain, where it is known.
    pub along_grain: Option<bool>,
}

/// What the print asks of the maker.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PrintAdvice {
    /// The lay to use: the maker's choice, or else the best.
    pub lay: Lay,
    /// Every lay, the best first.
    pub lays: Vec<LayReport>,
    /// Marked faces that no lay makes upright together.
    pub conflicts: Vec<(Face, Face)>,
    /// Marked faces that no lay makes upright, for their panels lie at a slant.
    pub slants: Vec<Face>,
}

impl PrintAdvice {
    /// How many strips a sheet gives with the lay to use; `None` where that lay
    /// is none.
    pub fn per_sheet(&self) -> Option<i64> {
        let mut lays = self.lays.iter();
        let report = lays.find(|report| report.lay == self.lay)?;
        Some(report.per_sheet)
    }

    /// Whether, with the lay to use, the folds run across the paper's grain.
    pub(crate) fn is_across_grain(&self) -> bool {
        let mut lays = self.lays.iter();
        let report = lays.find(|report| report.lay == self.lay);
        report.is_some_and(|report| report.along_grain == Some(false))
    }
}

/// Tries every lay of a strip on its paper; `marked` are the faces of it that
/// should be upright, `chosen` is the maker's lay.
///
/// Best is what makes most marked faces upright, comes nearest to it for most of
/// those that no lay makes so, fits the sheet, has the face of the paper
/// outside, gives most strips from a sheet, and folds along the grain; between
/// equals, the least turn.
pub fn advise(
    marked: &[Face],
    chosen: Option<Lay>,
    stock: &Stock,
    strip: Size,
    readings: &[Reading],
) -> PrintAdvice {
    let reading = |face: &Face| readings.iter().find(|reading| reading.face == *face);
    let reads = |lay: Lay, face: &Face| {
        let reading = reading(face);
        reading.is_some_and(|it| lay.is_upright(stock, face.side, &it.place))
    };
    let slants = marked
        .iter()
        .filter(|face| !Lay::all().any(|lay| reads(lay, face)));
    let slants: Vec<Face> = slants.copied().collect();
    // The cosine of its turn, in steps far finer than anyone sees.
    let nearness = |lay: Lay, face: &Face| {
        let turned = lay.turned(stock, face.side, &reading(face)?.place)?;
        #[expect(clippy::cast_possible_truncation, reason = "a cosine is small")]
        let steps = (turned.cos_sin().0 * 1e6).round() as i64;
        Some(steps)
    };
    let is_nearest = |lay: Lay, face: &Face| {
        let most = Lay::all().filter_map(|lay| nearness(lay, face)).max();
        most.is_some() && nearness(lay, face) == most
    };
    let mut lays: Vec<LayReport> = Lay::all()
        .map(|lay| LayReport {
            lay,
            upright: marked
                .iter()
                .copied()
                .filter(|face| reads(lay, face))
                .collect(),
            nearest: slants
                .iter()
                .copied()
                .filter(|face| is_nearest(lay, face))
                .collect(),
            per_sheet: {
                let strip = if lay.runs_across() {
                    strip
                } else {
                    strip.turned()
                };
                stock.per_sheet(strip.width, strip.height)
            },
            along_grain: folds_along_grain(stock.grain, lay),
        })
        .collect();
    lays.sort_by_key(|report| {
        std::cmp::Reverse((
            report.upright.len(),
            report.nearest.len(),
            report.per_sheet > 0,
            report.lay.outside == StockSide::Face,
            report.per_sheet,
            report.along_grain == Some(true),
        ))
    });
    let mut conflicts = Vec::new();
    let straight = || marked.iter().filter(|face| !slants.contains(face));
    for (at, a) in straight().enumerate() {
        for b in straight().skip(at + 1) {
            if !Lay::all().any(|lay| reads(lay, a) && reads(lay, b)) {
                conflicts.push((*a, *b));
            }
        }
    }
    let best = lays.first().map_or(
        Lay {
            outside: StockSide::Face,
            turn: Turn::None,
        },
        |report| report.lay,
    );
    PrintAdvice {
        lay: chosen.unwrap_or(best),
        lays,
        conflicts,
        slants,
    }
}

/// The folds run across the strip: up the sheet when the strip runs across it.
fn folds_along_grain(grain: Grain, lay: Lay) -> Option<bool> {
    match grain {
        Grain::Unknown => None,
        Grain::AlongHeight => Some(lay.runs_across()),
        Grain::AlongWidth => Some(!lay.runs_across()),
    }
}
