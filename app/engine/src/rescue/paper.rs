//! What a way out takes of new paper.

use super::Done;
use crate::card::Card;
use crate::paper::{Print, StockId};
use crate::part::{Part, parts};
use crate::print::PrintAdvice;
use crate::recipe::Recipe;

/// Pieces cut from a paper, and how many sheets more than planned they take.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Paper {
    /// The paper.
    pub stock: StockId,
    /// What is cut.
    pub part: Part,
    /// How many of it.
    pub pieces: u32,
    /// How many sheets besides those of the plan; `None` where a piece does not
    /// fit one.
    pub more: Option<i64>,
    /// How many of the same piece the sheets of the plan still give afterwards.
    pub spare: i64,
}

/// So many pieces of a part besides those of the plan.
pub(super) fn for_pieces(recipe: &Recipe, card: &Card, part: Part, pieces: u32) -> Option<Paper> {
    let (stock, per) = per_sheet(recipe, card, part)?;
    let copies = i64::from(recipe.copies);
    let planned = sheets(copies, per);
    let all = sheets(copies + i64::from(pieces), per);
    let more = all.zip(planned).map(|(all, planned)| all - planned);
    let spare = all.map_or(0, |all| all * per - copies - i64::from(pieces));
    Some(Paper {
        stock,
        part,
        pieces,
        more,
        spare,
    })
}

/// The parts not yet cut whose sheets no longer give as many.
pub(super) fn for_changes(
    before: &Recipe,
    card: &Card,
    after: &Recipe,
    then: &Card,
    done: &Done,
) -> Vec<Paper> {
    let uncut = parts(after).filter(|part| done.get(&part.cut_key()).is_none_or(|done| *done == 0));
    uncut
        .filter_map(|part| {
            let (_, was) = per_sheet(before, card, part)?;
            let (stock, is) = per_sheet(after, then, part)?;
            let copies = i64::from(after.copies);
            let (was, all) = (sheets(copies, was), sheets(copies, is));
            let more = all.zip(was).map(|(all, was)| all - was);
            (more != Some(0)).then_some(Paper {
                stock,
                part,
                pieces: after.copies,
                more,
                spare: all.map_or(0, |all| all * is - copies),
            })
        })
        .filter(|paper| paper.more.is_none_or(|more| more > 0))
        .collect()
}

fn sheets(pieces: i64, per: i64) -> Option<i64> {
    (per > 0).then(|| (pieces + per - 1) / per)
}

/// A part's paper, and how many of it a sheet gives.
fn per_sheet(recipe: &Recipe, card: &Card, part: Part) -> Option<(StockId, i64)> {
    match part {
        Part::Strip(of) => {
            let stock = recipe.strip(of)?.stock;
            let per = card.print_of(of).and_then(PrintAdvice::per_sheet);
            Some((stock, per.unwrap_or(0)))
        }
        Part::Layer(id) => {
            let laid = card.laid.layer(id)?;
            let stock = recipe.stock(laid.stock)?;
            let size = laid.at.size();
            let upright = stock.per_sheet(size.width, size.height);
            let per = match stock.side(laid.shows).print {
                Print::OneWay | Print::TwoWay => upright,
                Print::Plain | Print::AllOver => {
                    upright.max(stock.per_sheet(size.height, size.width))
                }
            };
            Some((laid.stock, per))
        }
    }
}
