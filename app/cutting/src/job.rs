//! What is to be cut, from what, and with what.

use std::num::NonZeroU32;

use serde::{Deserialize, Serialize};

use crate::length::{Length, Rect, Size};

/// Costs of a sheet are at most this, so that those of a plan can be added up.
const MOST_COST: u32 = 1_000_000;

/// Pieces of a job are at most so many altogether, and so many kinds.
const MOST_PIECES: u64 = 100_000;

/// A kind of sheet: what is bought, or a scrap from the shelf.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stock {
    /// As it lies, before anything is cut from it.
    pub size: Size,
    /// How many there are; `None` where as many as needed can be had.
    pub supply: Option<u32>,
    /// What one costs, in any money; 1 for every new sheet asks for the fewest
    /// sheets. What lies on the shelf costs nothing.
    pub cost: u32,
    /// What is cut off each edge first, as it may be worn or not straight; 0
    /// where the edges are good. What the blade takes is part of it.
    pub margin: u32,
}

/// Which way a piece may lie on a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Lie {
    /// Its width along that of the sheet.
    Upright,
    /// Its width along the height of the sheet.
    Turned,
    /// Either way: neither print nor grain decides.
    Either,
}

/// Where a piece may come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Source {
    /// Which stock, by its place in the job.
    pub stock: usize,
    /// How it may lie there.
    pub lie: Lie,
    /// The part of the sheet that it must come from, where not from anywhere.
    pub area: Option<Rect>,
}

/// A kind of piece.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Piece {
    /// As it is read, with its top up.
    pub size: Size,
    /// How many are wanted.
    pub count: NonZeroU32,
    /// The stocks that it may be cut from, each at most once.
    pub sources: Vec<Source>,
}

/// What cuts, and what it can hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Trimmer {
    /// What the blade takes away with each cut.
    pub kerf: u32,
    /// The narrowest strip that can lie between fence and blade.
    pub narrowest: Option<Length>,
    /// The widest strip that can lie between fence and blade.
    pub widest: Option<Length>,
    /// How many sheets it cuts at once.
    pub stack: NonZeroU32,
}

impl Trimmer {
    /// A blade that takes nothing, holds strips of any width, and cuts sheets one
    /// by one.
    pub const PLAIN: Self = Self {
        kerf: 0,
        narrowest: None,
        widest: None,
        stack: NonZeroU32::MIN,
    };

    /// Whether a strip so wide can lie against the fence.
    pub fn holds(&self, strip: u32) -> bool {
        strip > 0
            && self.narrowest.is_none_or(|least| least.get() <= strip)
            && self.widest.is_none_or(|most| strip <= most.get())
    }
}

/// What makes no job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Nonsense {
    /// A sheet of the shelf is no sheet: a side is nothing or longer than 14 m, or
    /// its margin is less than nothing.
    NoSuchSheet {
        /// The stock.
        stock: usize,
    },
    /// A piece names a stock that is not there.
    NoSuchStock {
        /// The piece.
        piece: usize,
    },
    /// A piece names a stock twice.
    StockTwice {
        /// The piece.
        piece: usize,
    },
    /// The part of the sheet that a piece must come from lies beyond the sheet.
    AreaOutside {
        /// The piece.
        piece: usize,
    },
    /// A stock costs more than a plan can add up, 1 000 000.
    CostTooHigh {
        /// The stock.
        stock: usize,
    },
    /// More than 100 000 pieces are wanted.
    TooManyPieces,
    /// The narrowest strip is wider than the widest.
    NoStripFits,
    /// The blade takes more than a length can be.
    KerfTooWide,
}

/// A job that holds together.
///
/// ```
/// use std::num::NonZeroU32;
/// use foldwright_cutting::{Job, Lie, Nonsense, Piece, Size, Source, Stock, Trimmer};
///
/// let a4 = Stock { size: Size::new(210, 297).unwrap(), supply: None, cost: 1, margin: 0 };
/// let source = |stock| Source { stock, lie: Lie::Either, area: None };
/// let base = |stock| Piece {
///     size: Size::new(148, 210).unwrap(),
///     count: NonZeroU32::new(24).unwrap(),
///     sources: vec![source(stock)],
/// };
/// assert!(Job::new(vec![a4], vec![base(0)], Trimmer::PLAIN).is_ok());
/// let wrong = Job::new(vec![a4], vec![base(1)], Trimmer::PLAIN);
/// assert_eq!(wrong, Err(Nonsense::NoSuchStock { piece: 0 }));
/// ```
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Given")]
pub struct Job {
    stocks: Vec<Stock>,
    pieces: Vec<Piece>,
    trimmer: Trimmer,
}

/// A job as it is read, which may not hold together.
#[derive(Deserialize)]
struct Given {
    stocks: Vec<Stock>,
    pieces: Vec<Piece>,
    trimmer: Trimmer,
}

impl TryFrom<Given> for Job {
    type Error = &'static str;

    fn try_from(given: Given) -> Result<Self, Self::Error> {
        let job = Self::new(given.stocks, given.pieces, given.trimmer);
        job.map_err(|_| "a job that does not hold together")
    }
}

impl Job {
    /// Refuses what makes no sense; a piece that fits none of its stocks makes
    /// sense, and is missing in the plan.
    pub fn new(stocks: Vec<Stock>, pieces: Vec<Piece>, trimmer: Trimmer) -> Result<Self, Nonsense> {
        let costly = stocks.iter().position(|stock| stock.cost > MOST_COST);
        if let Some(stock) = costly {
            return Err(Nonsense::CostTooHigh { stock });
        }
        for (piece, kind) in pieces.iter().enumerate() {
            for (at, source) in kind.sources.iter().enumerate() {
                let stock = stocks.get(source.stock);
                let stock = stock.ok_or(Nonsense::NoSuchStock { piece })?;
                let others = kind.sources.iter().take(at);
                if others.into_iter().any(|other| other.stock == source.stock) {
                    return Err(Nonsense::StockTwice { piece });
                }
                let sheet = Rect {
                    x: 0,
                    y: 0,
                    size: stock.size,
                };
                if source.area.is_some_and(|area| !sheet.holds(area)) {
                    return Err(Nonsense::AreaOutside { piece });
                }
            }
        }
        let wanted = pieces.iter().map(|piece| u64::from(piece.count.get()));
        if wanted.sum::<u64>() > MOST_PIECES {
            return Err(Nonsense::TooManyPieces);
        }
        if let (Some(least), Some(most)) = (trimmer.narrowest, trimmer.widest)
            && least > most
        {
            return Err(Nonsense::NoStripFits);
        }
        if trimmer.kerf > 0 && Length::new(trimmer.kerf).is_none() {
            return Err(Nonsense::KerfTooWide);
        }
        Ok(Self {
            stocks,
            pieces,
            trimmer,
        })
    }

    /// The kinds of sheets.
    pub fn stocks(&self) -> &[Stock] {
        &self.stocks
    }

    /// The kinds of pieces.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// What cuts.
    pub fn trimmer(&self) -> &Trimmer {
        &self.trimmer
    }
}
