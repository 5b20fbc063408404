//! What a refit costs besides lengths: cards from a sheet, the grain, the print.

use super::{Keep, Refit, Sheet, Wish, refit};
use crate::card::{Card, Tools, work_out};
use crate::plane::Size;
use crate::print::LayReport;
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
    /// The other side of the paper is outside.
    Side,
}

/// How the card is laid on its sheet.
fn laid(card: &Card) -> Option<&LayReport> {
    let print = card.print.as_ref()?;
    print.lays.iter().find(|report| report.lay == print.lay)
}

/// What the card that came out of a refit lost against the one before it.
pub fn losses(before: &Card, after: &Card) -> Vec<Loss> {
    let (Some(was), Some(is)) = (laid(before), laid(after)) else {
        return Vec::new();
    };
    let (from, to) = (was.per_sheet, is.per_sheet);
    let fewer = (to < from).then_some(Loss::Yield { from, to });
    let across = is.along_grain == Some(false) && was.along_grain != Some(false);
    let across = across.then_some(Loss::Grain);
    let turned = (is.lay.outside != was.lay.outside).then_some(Loss::Side);
    let upright = was.upright.iter();
    let lost = upright.filter(|face| !is.upright.contains(face));
    let lost = lost.map(|face| Loss::Print(*face));
    fewer
        .into_iter()
        .chain(across)
        .chain(turned)
        .chain(lost)
        .collect()
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
            Self::Side => "The paper is turned over: its other side is now outside.".to_owned(),
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

/// The card that keeps its folds along the grain, its print upright and the same
/// side outside, where one refit loses any of these: the strip lies on the sheet as it does now. `card`
/// is the recipe as it stands, worked out.
///
/// Returned with the recipe it was refitted from, which lays the strip so.
/// `None` where there is no such card, or it loses them as well.
pub fn keeping_lay(card: &Card, recipe: &Recipe, wish: &Wish) -> Option<(Recipe, Refit)> {
    let lay = card.print.as_ref()?.lay;
    let laid = Recipe {
        lay: Some(lay),
        ..recipe.clone()
    };
    let kept = refit(&laid, wish).ok()?;
    let after = work_out(&kept.recipe, &Tools::default());
    let lost = losses(card, &after);
    let keeps = lost.iter().all(|loss| matches!(loss, Loss::Yield { .. }));
    keeps.then_some((laid, kept))
}
