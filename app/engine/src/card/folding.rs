//! What is wrong with how the card folds.

use crate::fold::{Folded, Overhang, Stuck, Unfoldable, closes_with, fold, fold_with};
use crate::laid::LaidOut;
use crate::pattern::LineId;
use crate::problem::{Finding, FoldingFinding, Place, Problem, Unclosed};
use crate::recipe::{LayerId, PieceId, Recipe};

/// Why the card does not fold flat, where that is not said already.
pub(crate) fn unfoldable(recipe: &Recipe, why: &Unfoldable) -> Option<Problem> {
    let (place, found) = match why {
        // What is wrong with its lines is said where it lies.
        Unfoldable::Misfits => return None,
        Unfoldable::NoPanel => (Place::Recipe, FoldingFinding::NoPanel),
        Unfoldable::Stuck(stuck) => (
            Place::Score(LineId::of_score(stuck.trapped.0)),
            trapped(recipe, stuck)?,
        ),
        Unfoldable::Conflict(panels) => (
            panels.first().map_or(Place::Recipe, |id| Place::Panel(*id)),
            FoldingFinding::NoOrder(panels.clone()),
        ),
        Unfoldable::Undecided => (Place::Recipe, FoldingFinding::Undecided),
    };
    Some(Problem::stop(place, Finding::Folding(found)))
}

/// A card folded without pieces that keep it from closing.
pub(super) struct Without {
    /// What is laid out, but for the glue of these pieces.
    pub(super) laid: LaidOut,
    pub(super) folded: Folded,
    pub(super) left_out: Vec<PieceId>,
}

/// Leaves out the last piece without which the card closes, with what is glued
/// to it, or else all pieces; `None` where that does not help.
pub(super) fn without_pieces(recipe: &Recipe, laid: &LaidOut) -> Option<Without> {
    let last_first = recipe.pieces.iter().rev();
    let each = last_first.map(|piece| vec![piece.id]);
    let all = recipe.pieces.iter().map(|piece| piece.id).collect();
    let tried = each.chain([all]).map(|left_out| laid.without(&left_out));
    let mut tried = tried.filter(|(_, left_out)| !left_out.is_empty());
    tried.find_map(|(laid, left_out)| {
        let folded = fold(recipe, &laid).ok()?;
        Some(Without {
            laid,
            folded,
            left_out,
        })
    })
}

impl Without {
    /// What keeps the pieces left out from being part of the card.
    pub(super) fn problem(&self, why: &Unfoldable) -> Option<Problem> {
        let why = match why {
            Unfoldable::Conflict(panels) => Unclosed::NoOrder(panels.clone()),
            Unfoldable::Undecided => Unclosed::Undecided,
            Unfoldable::Misfits => Unclosed::Misfits,
            Unfoldable::NoPanel | Unfoldable::Stuck(_) => return None,
        };
        let place = Place::Piece(*self.left_out.first()?);
        let pieces = self.left_out.clone();
        let found = FoldingFinding::LeftOut { pieces, why };
        Some(Problem::stop(place, Finding::Folding(found)))
    }
}

/// The card closed with layers that reach past their panels, or else the first
/// of them that keeps it from closing as it does without.
pub(crate) fn closing(
    recipe: &Recipe,
    laid: &LaidOut,
    bare: &Folded,
    overhangs: Vec<Overhang>,
) -> Result<Folded, Option<LayerId>> {
    let keeps = |answers_kept: bool| answers_kept || !bare.answers_kept;
    let folded = fold_with(recipe, laid, overhangs.clone()).ok();
    if let Some(folded) = folded.filter(|folded| keeps(folded.answers_kept)) {
        return Ok(folded);
    }
    let last = overhangs.last().map(|it| it.layer);
    let alone = overhangs.into_iter();
    let mut alone = alone.map(|it| {
        let closes = closes_with(recipe, laid, std::slice::from_ref(&it));
        (it.layer, closes.is_some_and(keeps))
    });
    let culprit = alone.find(|(_, closes)| !closes);
    Err(culprit.map(|(layer, _)| layer).or(last))
}

/// What traps panels of the strip; `None` where it has no such panels.
fn trapped(recipe: &Recipe, stuck: &Stuck) -> Option<FoldingFinding> {
    let panel = |index: usize| Some(recipe.base.panels.get(index)?.id);
    Some(FoldingFinding::Trapped {
        panels: [panel(stuck.trapped.0)?, panel(stuck.trapped.1)?],
        between: [panel(stuck.before)?, panel(stuck.after)?],
        fold: stuck.fold,
    })
}

/// Answers that cannot be kept.
pub(crate) fn problems(folded: &Folded) -> Option<Problem> {
    (!folded.answers_kept)
        .then(|| Problem::warning(Place::Recipe, Finding::Folding(FoldingFinding::OtherOrder)))
}
