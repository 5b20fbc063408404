//! A rescue in the maker's words.

use super::made::Made;
use super::offer::{Fate, Offer, Way};
use super::paper::Paper;
use super::solve::{Why, owners};
use super::{Miscut, Plan};
use crate::card::work_out;
use crate::part::Part;
use crate::plane::Size;
use crate::problem::sentence;
use crate::recipe::{Place, Recipe};
use crate::refit::{Cause, Clash, Wish};
use crate::steps::trim_words;

/// What an offer is, in a few words.
pub fn offer_title(plan: &Plan<'_>, miscut: &Miscut, offer: &Offer) -> String {
    let part = miscut.about.part();
    let name = part.named(plan.recipe);
    let one = offer.cards == 1;
    let (it, pieces) = if one {
        ("it", name.clone())
    } else {
        ("them", format!("these {} pieces", offer.cards))
    };
    let others = |is: fn(&Fate) -> bool| {
        let others = offer.fates.iter();
        let others = others.filter(|(other, fate)| *other != part && is(fate));
        let names: Vec<_> = others.map(|(other, _)| other.named(plan.recipe)).collect();
        list(&names)
    };
    let trimmed = others(|fate| matches!(fate, Fate::Trimmed(_)));
    let recut = others(|fate| *fate == Fate::Recut);
    let then = match (&trimmed, &recut) {
        (None, None) => None,
        (Some(trimmed), None) => Some(format!("trim {trimmed}")),
        (None, Some(recut)) => Some(format!("cut {recut} again")),
        (Some(trimmed), Some(recut)) => Some(format!("trim {trimmed}, cut {recut} again")),
    };
    match (offer.way, then) {
        (Way::Keep, None) if offer.changes.is_empty() => format!("Keep {it} as {}", is_are(one)),
        (Way::Keep, None) => format!("Keep {pieces}, change the rest"),
        (Way::Keep, Some(then)) => format!("Keep {pieces}, {then}"),
        (Way::KeepAll, None) => format!("Make all {} cards like this", offer.cards),
        (Way::KeepAll, Some(then)) => {
            format!("Make all {} cards like this, {then}", offer.cards)
        }
        (Way::Trim, then) => {
            let fate = offer.fates.iter().find(|(other, _)| *other == part);
            let to = match fate {
                Some((_, Fate::Trimmed(to))) => *to,
                _ => Size::default(),
            };
            let to = plan.recipe.notation.size(to.width, to.height);
            let then = then.map_or_else(String::new, |then| format!(", {then}"));
            format!("Trim {it} to {to}{then}")
        }
        (Way::ScoreAgain, _) => format!("Score {it} again in the right place"),
        (Way::Recut, _) => format!("Cut {pieces} again"),
    }
}

/// Names in a row: "the mat, the band and the insert".
fn list(names: &[String]) -> Option<String> {
    let (last, names) = names.split_last()?;
    Some(match names {
        [] => last.clone(),
        names => format!("{} and {last}", names.join(", ")),
    })
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
    notes.extend(offer.forced.iter().cloned());
    let in_hand = miscut.about.part();
    // What to cut off where is worked out with the card as it becomes.
    let trims = offer.fates.iter();
    let trims = trims.filter(|(_, fate)| matches!(fate, Fate::Trimmed(_)));
    let then = trims
        .clone()
        .next()
        .map(|_| work_out(&offer.recipe, plan.tools));
    for (part, fate) in &offer.fates {
        let name = part.named(recipe);
        match (offer.way, fate) {
            (Way::Recut, _) if *part == in_hand => {}
            (Way::Recut, _) => notes.push(sentence(format!(
                "{name} is glued to it and has to be cut again too."
            ))),
            (_, Fate::Trimmed(to)) => {
                if *part != in_hand {
                    let to = recipe.notation.size(to.width, to.height);
                    notes.push(sentence(format!(
                        "{name} is cut already: trim it to {to}. It is not cut anew."
                    )));
                }
                let trim = offer.trims.get(&part.cut_key());
                if let (Some(trim), Some(then)) = (trim, &then) {
                    notes.extend(trim_words(&offer.recipe, then, *part, trim));
                }
            }
            (_, Fate::Recut) => notes.push(sentence(format!(
                "{name} is cut already and has to be cut again."
            ))),
        }
    }
    if offer.second_line {
        notes.push("The wrong line stays visible on the paper.".to_owned());
    }
    notes.extend(offer.finished.map(|size| {
        let size = offer.recipe.notation.size(size.width, size.height);
        format!("The closed card becomes {size}.")
    }));
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

/// What stands against something, as a sentence: what is made already, and what
/// must hold, each by what the maker calls it.
pub(super) fn against(recipe: &Recipe, why: &Why) -> String {
    match why {
        Why::Problem(problem) => problem.what.clone(),
        Why::Shape => "What is cut to the shape of another piece has to fit it.".to_owned(),
        Why::Clash(Clash::Between { causes, .. }, wish, made) => {
            let mut words: Vec<String> = Vec::new();
            for cause in causes {
                for told in cause_words(recipe, wish, made, *cause) {
                    if !words.contains(&told) {
                        words.push(told);
                    }
                }
            }
            if words.is_empty() {
                "What was measured does not go together.".to_owned()
            } else {
                format!("This stands against it: {}.", words.join("; "))
            }
        }
        Why::Clash(clash, wish, _) => clash.words(recipe, wish),
    }
}

/// One thing that stands against it, and whose making it is; nothing for the part
/// in hand itself.
fn cause_words(recipe: &Recipe, wish: &Wish, made: &[Made], cause: Cause) -> Vec<String> {
    match cause {
        Cause::Asked(_) | Cause::Made(_) => {
            let owners = owners(made, cause);
            let others = made.iter().skip(1);
            let others = others.filter(|made| owners.contains(&made.part));
            others.map(|made| made_words(recipe, made)).collect()
        }
        Cause::Layer(id) => {
            let name = Part::Layer(id).named(recipe);
            let layer = recipe.layer(id);
            vec![match layer.map(|layer| layer.place) {
                Some(Place::Border(_)) => format!("{name} has an even border"),
                _ => format!("{name} keeps its place"),
            }]
        }
        _ => vec![cause.words(recipe, wish)],
    }
}

/// What is made of a part: "the mat is cut already, 4 3/4 × 6 3/4 in".
pub(super) fn made_words(recipe: &Recipe, made: &Made) -> String {
    let name = made.part.named(recipe);
    let size = recipe.notation.size(made.size.width, made.size.height);
    let scored = if made.scores.is_empty() {
        ""
    } else {
        " and scored"
    };
    format!("{name} is cut{scored} already, {size}")
}
