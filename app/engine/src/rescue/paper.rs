//! What a way out takes of new paper.

use super::Done;
use crate::card::Card;
use crate::paper::StockId;
use crate::part::Part;
use crate::recipe::Recipe;
use crate::steps::StepKey;

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
    let blank = card.cut_list.of(part)?;
    let planned = blank.pieces(recipe.copies);
    let wanted = planned + i64::from(pieces);
    let all = blank.sheets(wanted);
    let more = all.zip(blank.sheets(planned));
    Some(Paper {
        stock: blank.stock,
        part,
        pieces,
        more: more.map(|(all, planned)| all - planned),
        spare: all.map_or(0, |all| all * blank.per_sheet() - wanted),
    })
}

/// The parts not yet cut whose sheets no longer give as many.
pub(super) fn for_changes(card: &Card, after: &Recipe, then: &Card, done: &Done) -> Vec<Paper> {
    let uncut = then.cut_list.blanks.iter();
    let uncut = uncut.filter(|blank| {
        let done = done.get(&StepKey::Cut(blank.part));
        done.is_none_or(|done| *done == 0)
    });
    uncut
        .filter_map(|blank| {
            let was = card.cut_list.of(blank.part)?;
            let pieces = blank.pieces(after.copies);
            let all = blank.sheets(pieces);
            let more = all.zip(was.sheets(pieces)).map(|(all, was)| all - was);
            more.is_none_or(|more| more > 0).then_some(Paper {
                stock: blank.stock,
                part: blank.part,
                pieces: after.copies,
                more,
                spare: all.map_or(0, |all| all * blank.per_sheet() - pieces),
            })
        })
        .collect()
}
