//! What is wrong with how the card folds.

use crate::fold::{Folded, Overhang, Stuck, Unfoldable, closes_with, fold, fold_with};
use crate::laid::LaidOut;
use crate::pattern::LineId;
use crate::problem::{Place, Problem, Weight};
use crate::recipe::{LayerId, PieceId, Recipe};

fn panel_name(recipe: &Recipe, place: usize) -> &str {
    recipe
        .base
        .panels
        .get(place)
        .map_or("a panel", |panel| panel.name.as_str())
}

/// Why the card does not fold flat, where that is not said already.
pub(crate) fn unfoldable(recipe: &Recipe, why: &Unfoldable) -> Option<Problem> {
    let stop = |what: &str, why: String, remedy: &str| Problem {
        place: Place::Recipe,
        weight: Weight::Stop,
        what: what.to_owned(),
        why,
        remedy: remedy.to_owned(),
    };
    match why {
        // What is wrong with its lines is said where it lies.
        Unfoldable::Misfits => None,
        Unfoldable::NoPanel => Some(stop(
            "There is nothing to fold.",
            "The strip has no panel that could rest on the table.".to_owned(),
            "Give its length and its height, or take away lines that cut it to pieces.",
        )),
        Unfoldable::Stuck(trapped) => Some(stuck(recipe, trapped)),
        Unfoldable::Conflict(panels) => {
            let names: Vec<_> = panels.iter().map(|id| recipe.panel_name(*id)).collect();
            let problem = stop(
                "The card does not fold flat.",
                format!(
                    "{} cannot lie on each other in any order: paper would pass through paper.",
                    listed(&names)
                ),
                "Flip or move a crease between them, or cut away what is in the way.",
            );
            Some(Problem {
                place: panels.first().map_or(Place::Recipe, |id| Place::Panel(*id)),
                ..problem
            })
        }
        Unfoldable::Undecided => Some(stop(
            "Whether the card folds flat could not be found out.",
            "So many panels lie over each other that the search was given up.".to_owned(),
            "Fold fewer panels over one place.",
        )),
    }
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
    pub(super) fn problem(&self, recipe: &Recipe, why: &Unfoldable) -> Option<Problem> {
        let names = self.left_out.iter().filter_map(|id| recipe.piece(*id));
        let names: Vec<_> = names.map(|piece| piece.name.clone()).collect();
        let why = match why {
            Unfoldable::Conflict(panels) => {
                let panels: Vec<_> = panels.iter().map(|id| recipe.panel_name(*id)).collect();
                format!(
                    "{} cannot lie on each other in any order: paper would pass through paper.",
                    listed(&panels)
                )
            }
            Unfoldable::Undecided => {
                "So many panels lie over each other that the search was given up.".to_owned()
            }
            Unfoldable::Misfits => "Its creases do not come together.".to_owned(),
            Unfoldable::NoPanel | Unfoldable::Stuck(_) => return None,
        };
        Some(Problem {
            place: Place::Piece(*self.left_out.first()?),
            weight: Weight::Stop,
            what: format!("The card does not close with {}.", listed(&names)),
            why,
            remedy: "Move it within its panel, make it smaller, or glue it to another one. Until \
                     then the closed card is shown without it."
                .to_owned(),
        })
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

/// Some names in a sentence.
pub(super) fn listed(names: &[String]) -> String {
    match names {
        [] => "Some panels".to_owned(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// Why the strip does not fold flat.
fn stuck(recipe: &Recipe, stuck: &Stuck) -> Problem {
    let name = |place| panel_name(recipe, place);
    let (first, last) = stuck.trapped;
    let trapped = if first == last {
        format!("{} is", name(first))
    } else {
        format!("{} to {} are", name(first), name(last))
    };
    let (before, after) = (name(stuck.before), name(stuck.after));
    Problem {
        place: Place::Score(LineId::of_score(first)),
        weight: Weight::Stop,
        what: "The strip does not fold flat.".to_owned(),
        why: format!(
            "{trapped} shorter than {before} and {after}, and the scores there are all {} folds: \
             {before} and {after} would have to pass through each other.",
            stuck.fold.word()
        ),
        remedy: format!(
            "Flip one of the scores round {}, or make {before} or {after} shorter.",
            name(first)
        ),
    }
}

/// Answers that cannot be kept.
pub(crate) fn problems(folded: &Folded) -> Option<Problem> {
    (!folded.answers_kept).then(|| Problem {
        place: Place::Recipe,
        weight: Weight::Warning,
        what: "The panels cannot lie on each other as you chose.".to_owned(),
        why: "The creases leave no such order.".to_owned(),
        remedy: "Choose again which panel lies on top.".to_owned(),
    })
}
