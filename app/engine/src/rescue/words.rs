//! A rescue in the maker's words.

use super::offer::{Fate, Offer, Way};
use super::paper::Paper;
use super::solve::Why;
use super::work::Part;
use super::{Miscut, Plan};
use crate::plane::Size;
use crate::problem::sentence;
use crate::recipe::Recipe;
use crate::refit::{Cause, Clash};

/// What an offer is, in a few words.
pub fn offer_title(plan: &Plan<'_>, miscut: &Miscut, offer: &Offer) -> String {
    let part = miscut.about.part();
    let name = part.name(plan.recipe);
    let one = offer.cards == 1;
    let (it, pieces) = if one {
        ("it", name.clone())
    } else {
        ("them", format!("these {} pieces", offer.cards))
    };
    match offer.way {
        Way::Keep if offer.changes.is_empty() => format!("Keep {it} as {}", is_are(one)),
        Way::Keep => format!("Keep {pieces}, change the rest"),
        Way::KeepAll => format!("Make all {} cards like this", offer.cards),
        Way::Trim => {
            let fate = offer.fates.iter().find(|(other, _)| *other == part);
            let to = match fate {
                Some((_, Fate::Trimmed(to))) => *to,
                _ => Size::default(),
            };
            let to = plan.recipe.notation.size(to.width, to.height);
            format!("Cut {it} down to {to}")
        }
        Way::ScoreAgain => format!("Score {it} again in the right place"),
        Way::Recut => format!("Cut {pieces} again"),
    }
}

const fn is_are(one: bool) -> &'static str {
    if one { "it is" } else { "they are" }
}

/// What an offer means for the work, sentence by sentence, besides what it
/// changes and what paper it takes.
pub fn offer_notes(plan: &Plan<'_>, miscut: &Miscut, offer: &Offer) -> Vec<String> {
    let recipe = plan.recipe;
    let mut notes = Vec::new();
    let stays = offer.changes.is_empty() && offer.recipe.measures == recipe.measures;
    if stays {
        notes.push("The card stays as planned.".to_owned());
    } else if offer.changes.is_empty() {
        notes.push("Nothing else has to change.".to_owned());
    }
    let in_hand = miscut.about.part();
    for (part, fate) in &offer.fates {
        if *part == in_hand {
            continue;
        }
        let name = part.name(recipe);
        notes.push(sentence(match (offer.way, fate) {
            (Way::Recut, _) => format!("{name} is glued to it and has to be cut again too."),
            (_, Fate::Trimmed(to)) => {
                let to = recipe.notation.size(to.width, to.height);
                format!("{name} is cut already: cut it down to {to}.")
            }
            (_, Fate::Recut) => format!("{name} is cut already and has to be cut again."),
        }));
    }
    if offer.second_line {
        notes.push("The wrong line stays visible on the paper.".to_owned());
    }
    if offer.way == Way::Trim
        && let Part::Strip(of) = in_hand
    {
        notes.extend(where_to_trim(recipe, offer, of, miscut));
    }
    notes.extend(offer.envelope.map(|(envelope, takes)| {
        let still = if takes {
            "still goes"
        } else {
            "no longer goes"
        };
        format!("The card {still} into {}.", envelope.name)
    }));
    notes.extend(offer.given_up.iter().cloned());
    let names: Vec<_> = offer
        .off_marks
        .iter()
        .filter_map(|id| offer.recipe.measure(*id))
        .map(|measure| measure.name.clone())
        .collect();
    if !names.is_empty() {
        let step = recipe.notation.step.words(recipe.notation.decimal);
        notes.push(format!(
            "Between your marks of {step}: {}.",
            names.join(", ")
        ));
    }
    if let Some(rest) = &offer.rest {
        notes.push(match rest.recipe.copies {
            1 => {
                "The other card stays as planned; these go on as a recipe of their own.".to_owned()
            }
            copies => format!(
                "The other {copies} cards stay as planned; {} of its own.",
                match offer.cards {
                    1 => "this one goes on as a recipe",
                    _ => "these go on as a recipe",
                }
            ),
        });
    }
    notes
}

/// From which edges of a strip to cut, where both are.
fn where_to_trim(
    recipe: &Recipe,
    offer: &Offer,
    of: Option<crate::recipe::PieceId>,
    miscut: &Miscut,
) -> Option<String> {
    let super::About::Scores(..) = miscut.about else {
        return None;
    };
    let strip = recipe.strip(of)?;
    let (first, last) = (strip.panels.first()?, strip.panels.last()?);
    let width = |id| recipe.notation.with_unit(offer.recipe.value(id));
    Some(format!(
        "Measure from the scores: {} stays {} wide, {} {}.",
        first.name,
        width(first.width),
        last.name,
        width(last.width)
    ))
}

/// What an offer takes of paper, in a sentence for each kind.
pub fn paper_words(recipe: &Recipe, offer: &Offer) -> Vec<String> {
    if offer.paper.is_empty() {
        return vec!["No new paper.".to_owned()];
    }
    offer.paper.iter().map(|paper| one(recipe, paper)).collect()
}

fn one(recipe: &Recipe, paper: &Paper) -> String {
    let stock = recipe.stock(paper.stock);
    let stock = stock.map_or("its paper", |stock| stock.name.as_str());
    let part = paper.part.name(recipe);
    let (pieces, these) = match paper.pieces {
        1 => (part, "it"),
        pieces => (format!("{pieces} × {part}"), "them"),
    };
    match paper.more {
        None => format!("Paper for {pieces}: a sheet of {stock} is too small."),
        Some(more) if more <= 0 => {
            let spare = match paper.spare {
                0 => String::new(),
                spare => format!(", and {spare} to spare"),
            };
            format!("Paper for {pieces}: enough. The sheets of {stock} give {these}{spare}.")
        }
        Some(1) => format!("Paper for {pieces}: 1 more sheet of {stock}."),
        Some(more) => format!("Paper for {pieces}: {more} more sheets of {stock}."),
    }
}

/// Why the part can't stay as it is.
pub(super) fn not_kept(recipe: &Recipe, why: &Why) -> String {
    match why {
        Why::Problem(problem) => problem.what.clone(),
        Why::Shape => "What is cut to the shape of another piece has to fit it.".to_owned(),
        Why::Clash(Clash::Between { causes, .. }, wish) => {
            let from_recipe = |cause: &&Cause| !matches!(cause, Cause::Asked(_) | Cause::Made(_));
            let words: Vec<_> = causes
                .iter()
                .filter(from_recipe)
                .map(|cause| cause.words(recipe, wish))
                .collect();
            if words.is_empty() {
                "What was measured does not go together.".to_owned()
            } else {
                format!("With it, this can't be: {}.", words.join("; "))
            }
        }
        Why::Clash(clash, wish) => clash.words(recipe, wish),
    }
}
