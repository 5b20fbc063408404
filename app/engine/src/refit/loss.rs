//! What a refit costs besides lengths: cards from a sheet, the grain, the print.

use super::ask::Asked;
use super::scrap::lost;
use super::{Clash, Keep, Outcome, Refit, Sheet, Wish, refit};
use crate::card::{Card, Tools, closed_size, work_out};
use crate::lay::LayReport;
use crate::length::Length;
use crate::part::Part;
use crate::recipe::{Face, Lay, Recipe, StripId};

/// Something a card loses by a refit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
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

/// How the base is laid on its sheet.
fn laid(card: &Card) -> Option<&LayReport> {
    card.lies(Part::Strip(StripId::Base))?.used()
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

/// The card that keeps as many strips from a sheet as before, where one refit
/// loses some: the same wish, and the count of the sheet it names or, where it
/// names none, of the paper as it is.
///
/// `None` where there is no such card.
pub fn keeping_count(recipe: &Recipe, wish: &Wish) -> Option<(Wish, Refit)> {
    let stock = recipe.stock(recipe.base.stock)?;
    let now = Sheet {
        stock: stock.id,
        size: stock.size(),
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
    let lay = card.lies(Part::Strip(StripId::Base))?.lay;
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

/// A card whose print makes its base run the short way of the sheet, and what
/// comes of turning it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Turned {
    /// The short way of the sheet.
    pub short: Length,
    /// How the base lies on the sheet when it is turned.
    pub lay: Lay,
    /// The card then.
    pub refit: Refit,
}

impl Turned {
    /// What there is to know of it.
    pub const fn outcome(&self) -> Outcome {
        Outcome::ShortWay {
            short: self.short,
            turned: self.refit.finished,
        }
    }
}

/// What turning the base on its sheet would give, where print that is to be
/// upright makes it run the short way and the card is nearer to the wish the
/// other way. `found` is what comes of the wish as it is.
pub fn turning(recipe: &Recipe, wish: &Wish, found: &Result<Refit, Clash>) -> Option<Turned> {
    let asked = Asked::of(recipe, wish);
    let ways = asked.ways();
    let stock = recipe.stock(recipe.base.stock)?;
    let sheet = wish.sheet.filter(|sheet| sheet.stock == stock.id);
    let sheet = sheet.map_or(stock.size(), |sheet| sheet.size);
    let [across] = ways[..] else { return None };
    let sheet = if across { sheet } else { sheet.turned() };
    let (way, other) = (sheet.width, sheet.height);
    if recipe.lay.is_some() || way >= other {
        return None;
    }
    let card = work_out(recipe, &Tools::default());
    let lies = card.lies(Part::Strip(StripId::Base))?;
    let mut lays = lies.lays.iter().map(|report| report.lay);
    let lay = lays.find(|lay| lay.runs_across() != across && lay.outside == lies.lay.outside)?;
    let turned = Recipe {
        lay: Some(lay),
        ..recipe.clone()
    };
    let refit = refit(&turned, wish).ok()?;
    let design = closed_size(&asked.start);
    let cost = |refit: &Refit| (refit.given_up.len(), lost(design, refit.finished));
    let is_nearer = found
        .as_ref()
        .map_or(true, |found| cost(&refit) < cost(found));
    is_nearer.then_some(Turned {
        short: way,
        lay,
        refit,
    })
}
