//! What can be made from a scrap.

use std::cmp::Reverse;

use super::{Keep, Refit, Sheet, Wish, refit};
use crate::card::closed_size;
use crate::length::{Length, Notation};
use crate::paper::{ClearanceRule, Envelope, envelopes_taking};
use crate::plane::Size;
use crate::recipe::Recipe;
use crate::sorted::InOrder as _;

/// A recipe whose strip can be cut from a scrap.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScrapFit {
    /// Which of the recipes, by its index among them.
    pub recipe: usize,
    /// The wish that makes it fit.
    pub wish: Wish,
    /// The card.
    pub refit: Refit,
    /// The closest standard envelope by the recipe's rule, where there is one.
    pub envelope: Option<&'static Envelope>,
    /// What is gone of the side of the closed card that shrank more, in
    /// thousandths; nothing where the card keeps its size.
    pub lost: i64,
}

impl ScrapFit {
    /// How much the scrap costs the card: less is better. What gives up fewer
    /// relations comes first, then what keeps more of its size, then what changes
    /// fewer measures, then the earlier recipe.
    pub fn compromise(&self) -> (usize, i64, Reverse<bool>, usize, usize) {
        (
            self.refit.given_up.len(),
            self.lost,
            Reverse(self.refit.nearest),
            self.refit.changes.len(),
            self.recipe,
        )
    }
}

/// Whether a recipe, at that index among others, can be made from a scrap of
/// some size, and how. `None` where it can't.
///
/// The card is not made larger than it is. Marks are those of `notation`, or of
/// the recipe.
pub fn scrap_fit(
    recipe: &Recipe,
    index: usize,
    scrap: Size,
    notation: Option<Notation>,
) -> Option<ScrapFit> {
    let wish = Wish {
        sheet: Some(Sheet {
            stock: recipe.base.stock,
            size: scrap,
            keep: Keep::Card,
        }),
        notation,
        ..Wish::default()
    };
    let refit = refit(recipe, &wish).ok()?;
    let lost = lost(closed_size(recipe), refit.finished);
    let card = (refit.finished.width, refit.finished.height);
    let rule = ClearanceRule::by_id(&recipe.posting.rule);
    let envelopes = rule.map(|rule| envelopes_taking(card, rule));
    let envelope = envelopes.and_then(|fits| Some(fits.first()?.envelope));
    Some(ScrapFit {
        recipe: index,
        wish,
        refit,
        envelope,
        lost,
    })
}

/// Which recipes can be made from a scrap, the least compromise first.
pub fn from_scrap(recipes: &[Recipe], scrap: Size, notation: Option<Notation>) -> Vec<ScrapFit> {
    let fits = recipes.iter().enumerate();
    let fits = fits.filter_map(|(index, recipe)| scrap_fit(recipe, index, scrap, notation));
    let mut fits: Vec<_> = fits.collect();
    fits.put_in_order_by_key(ScrapFit::compromise);
    fits
}

/// How much of the side that shrank more is gone, in thousandths.
pub(super) fn lost(before: Size, after: Size) -> i64 {
    let gone = |before: Length, after: Length| {
        let gone = i128::from((before - after).units().max(0)) * 1000;
        let part = gone.checked_div(before.units().into()).unwrap_or(0);
        i64::try_from(part).unwrap_or(i64::MAX)
    };
    gone(before.width, after.width).max(gone(before.height, after.height))
}
