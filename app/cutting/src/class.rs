//! What a class needs, as a job: so many cards of one kind, from their cut list;
//! and its plan as the steps of its cards say it.
//!
//! This alone knows the engine. Lengths are the engine's own, 1/72 µm.

mod told;

use std::num::NonZeroU32;

use foldwright_engine::cut_list::{Blank, CutList};
use foldwright_engine::cut_plan::Scraps;
use foldwright_engine::length::Length as Measure;
use foldwright_engine::paper::{Stock as Paper, StockId};
use foldwright_engine::part::Part;
use foldwright_engine::plane::Size as Measures;
use foldwright_engine::recipe::Lay;
use serde::{Deserialize, Serialize};

use crate::job::{Job, Lie, Nonsense, Piece, Source, Stock, Trimmer};
use crate::length::{Length, Rect, Size};

/// Sheets or scraps of a paper, all of one size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sheets {
    /// The paper.
    pub paper: StockId,
    /// As they lie with the print upright; a scrap with its grain as its sheet
    /// had it.
    pub size: Measures,
    /// How many there are; `None` where as many as needed can be had.
    pub supply: Option<u32>,
    /// What one costs; nothing for what lies on the shelf.
    pub cost: u32,
    /// What is cut off each edge first.
    pub margin: Measure,
}

impl Sheets {
    /// New sheets, as many as needed, each of which counts 1.
    pub fn new(paper: &Paper) -> Self {
        Self {
            paper: paper.id,
            size: Measures {
                width: paper.width,
                height: paper.height,
            },
            supply: None,
            cost: 1,
            margin: Measure::ZERO,
        }
    }

    /// Scraps from the shelf.
    pub const fn of_scraps(scraps: Scraps) -> Self {
        Self {
            paper: scraps.stock,
            size: scraps.size,
            supply: Some(scraps.count),
            cost: 0,
            margin: Measure::ZERO,
        }
    }

    /// Whether they lie on the shelf, and are no new sheets.
    const fn are_scraps(&self) -> bool {
        self.cost == 0
    }
}

/// A job for a class, and what its pieces become.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Class {
    /// What is planned. Its stocks are the sheets given, in their order.
    pub job: Job,
    /// The parts that each piece of the job becomes. Parts cut alike are one
    /// piece.
    pub parts: Vec<Vec<Part>>,
    /// The sheets and scraps that are the stocks of the job, in their order.
    pub sheets: Vec<Sheets>,
    /// What can't be planned, since it has no paper or nothing of it is left.
    pub left_out: Vec<Part>,
}

impl Class {
    /// So many cards from those sheets. Refuses what makes no [`Job`].
    pub fn new(
        cuts: &CutList,
        cards: NonZeroU32,
        sheets: &[Sheets],
        trimmer: Trimmer,
    ) -> Result<Self, Nonsense> {
        let mut stocks = Vec::new();
        for (stock, sheet) in sheets.iter().enumerate() {
            let (size, margin) = (size(sheet.size), u32::try_from(sheet.margin.units()));
            let (Some(size), Ok(margin)) = (size, margin) else {
                return Err(Nonsense::NoSuchSheet { stock });
            };
            stocks.push(Stock {
                size,
                supply: sheet.supply,
                cost: sheet.cost,
                margin,
            });
        }
        let (mut pieces, mut parts) = (Vec::<Piece>::new(), Vec::<Vec<Part>>::new());
        let mut left_out = Vec::new();
        for blank in &cuts.blanks {
            let count = blank.per_card.checked_mul(cards.get());
            let count = NonZeroU32::new(count.ok_or(Nonsense::TooManyPieces)?);
            let (Some(size), Some(count), Some(lie)) = (size(blank.size), count, lie(blank)) else {
                left_out.push(blank.part);
                continue;
            };
            let from = sheets.iter().enumerate();
            let from = from.filter(|(_, sheets)| sheets.paper == blank.stock);
            // A scrap may be any part of its sheet.
            let from = from.filter(|(_, sheets)| blank.at.is_none() || !sheets.are_scraps());
            let sources: Vec<Source> = from
                .map(|(stock, sheets)| Source {
                    stock,
                    lie,
                    area: area(blank, sheets),
                })
                .collect();
            let alike = |piece: &Piece| piece.size == size && piece.sources == sources;
            let known = pieces.iter().position(alike);
            if let Some(at) = known
                && let Some((piece, parts)) = pieces.get_mut(at).zip(parts.get_mut(at))
            {
                let both = piece.count.checked_add(count.get());
                piece.count = both.ok_or(Nonsense::TooManyPieces)?;
                parts.push(blank.part);
                continue;
            }
            pieces.push(Piece {
                size,
                count,
                sources,
            });
            parts.push(vec![blank.part]);
        }
        Ok(Self {
            job: Job::new(stocks, pieces, trimmer)?,
            parts,
            sheets: sheets.to_vec(),
            left_out,
        })
    }
}

/// A length of the engine as one of a job; `None` where it is nothing, less than
/// that, or longer than 14 m.
pub fn length(measure: Measure) -> Option<Length> {
    Length::new(u32::try_from(measure.units()).ok()?)
}

/// A length of a job as one of the engine.
pub fn measure(length: Length) -> Measure {
    Measure::from_units(length.get().into())
}

/// How a part lies on its sheet where a plan has it upright or turned: the best
/// of the lays that give the same part. `None` where none does.
pub fn lay(blank: &Blank, turned: bool) -> Option<Lay> {
    let mut allowed = blank.lies.as_ref()?.allowed.iter();
    allowed.find(|lay| lay.runs_across() != turned).copied()
}

fn size(measures: Measures) -> Option<Size> {
    let (width, height) = (length(measures.width)?, length(measures.height)?);
    Some(Size { width, height })
}

/// The part of whole sheets that a part must come from, where not from anywhere.
fn area(blank: &Blank, sheets: &Sheets) -> Option<Rect> {
    let at = blank.at?;
    let lies = blank.size_on_sheet();
    let fits = at.x + lies.width <= sheets.size.width && at.y + lies.height <= sheets.size.height;
    let from = |edge: Measure| u32::try_from(edge.units()).ok().filter(|_| fits);
    Some(Rect {
        x: from(at.x)?,
        y: from(at.y)?,
        size: size(lies)?,
    })
}

/// The ways a part may lie; `None` where it has no paper.
fn lie(blank: &Blank) -> Option<Lie> {
    match (lay(blank, false), lay(blank, true)) {
        (Some(_), Some(_)) => Some(Lie::Either),
        (Some(_), None) => Some(Lie::Upright),
        (None, Some(_)) => Some(Lie::Turned),
        (None, None) => None,
    }
}
