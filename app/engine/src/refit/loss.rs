//! What a refit costs besides lengths: cards from a sheet, the grain, the print.

use super::{Keep, Refit, Sheet, Wish, refit};
use crate::card::Card;
use crate::plane::Size;
use crate::recipe::{Face, Recipe};
use crate::words::face_name;

/// Something a card loses by a refit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Loss {
    /// A sheet gives fewer strips for the base.
    Yield {
        /// How many it gave.
        from: i64,
        /// How many it gives.
        to: i64,
    },
    /// The folds run across the grain, and did not.
    Grain,
    /// The print of a face that should be upright no longer is.
    Print(Face),
}

/// How many strips a sheet gives as the card is laid, and whether the folds run
/// along the grain.
fn laid(card: &Card) -> Option<(i64, Option<bool>)> {
    let print = card.print.as_ref()?;
    let report = print.lays.iter().find(|report| report.lay == print.lay)?;
    Some((report.per_sheet, report.along_grain))
}

/// What the card that came out of a refit lost against the one before it.
pub fn losses(before: &Card, after: &Card) -> Vec<Loss> {
    let (Some((from, along)), Some((to, still))) = (laid(before), laid(after)) else {
        return Vec::new();
    };
    let upright = |card: &Card| {
        let print = card.print.as_ref();
        let report = print.and_then(|it| it.lays.iter().find(|report| report.lay == it.lay));
        report.map_or_else(Vec::new, |report| report.upright.clone())
    };
    let kept = upright(after);
    let fewer = (to < from).then_some(Loss::Yield { from, to });
    let across = (still == Some(false) && along != Some(false)).then_some(Loss::Grain);
    let lost = upright(before).into_iter();
    let lost = lost.filter(|face| !kept.contains(face)).map(Loss::Print);
    fewer.into_iter().chain(across).chain(lost).collect()
}

impl Loss {
    /// In the maker's words.
    pub fn words(&self, recipe: &Recipe) -> String {
        match self {
            Self::Yield { from, to: 0 } => {
                format!("A sheet gave {}, and now gives none.", cards(*from))
            }
            Self::Yield { from, to } => {
                format!(
                    "A sheet gives {} where it gave {}.",
                    cards(*to),
                    cards(*from)
                )
            }
            Self::Grain => "The folds now run across the grain; score them well.".to_owned(),
            Self::Print(face) => {
                format!(
                    "The print on {} is no longer upright.",
                    face_name(recipe, *face)
                )
            }
        }
    }
}

fn cards(count: i64) -> String {
    match count {
        1 => "1 card".to_owned(),
        count => format!("{count} cards"),
    }
}

/// The card that keeps as many strips from a sheet as before, where one refit
/// loses some: the same wish, and the count of the sheet it names or, where it
/// names none, of the paper as it is.
///
/// `None` where there is no such card.
pub fn keeping_count(recipe: &Recipe, wish: &Wish) -> Option<(Wish, Refit)> {
    let stock = recipe.stock(recipe.base.stock)?;
    let now = Sheet {
        stock: stock.id,
        size: Size {
            width: stock.width,
            height: stock.height,
        },
        keep: Keep::Count,
    };
    let mut sheet = wish.sheet.unwrap_or(now);
    sheet.keep = Keep::Count;
    let wish = Wish {
        sheet: Some(sheet),
        ..wish.clone()
    };
    let kept = refit(recipe, &wish).ok()?;
    let gave_up = kept.given_up.contains(&super::Cause::Kept);
    (!gave_up).then_some((wish, kept))
}
