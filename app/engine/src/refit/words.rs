//! What a refit did, in the maker's words.

use super::cause::sheet_name;
use super::{Cause, Moved, Refit, Wish};
use crate::card::{Card, closed_size};
use crate::paper::Envelope;
use crate::recipe::Recipe;

/// How a measure moved and why: "back width 108 → 105 mm: to go into C6",
/// "front width 4 1/4 in → 108 mm". `before` is the recipe that was refitted.
pub fn change_words(before: &Recipe, wish: &Wish, refit: &Refit, moved: &Moved) -> String {
    let change = &moved.change;
    let name = before
        .measure(change.measure)
        .map_or("a missing measure", |measure| measure.name.as_str());
    let (was, is) = (before.notation, refit.recipe.notation);
    let from = if was.unit() == is.unit() {
        was.plain(change.from)
    } else {
        was.with_unit(change.from)
    };
    let why = match moved_words(before, wish, refit, moved) {
        why if why.is_empty() => why,
        why => format!(": {why}"),
    };
    format!("{name} {from} → {}{why}", is.with_unit(change.to))
}

/// What moved a measure, in such words; "as designed" where it only went back to
/// what it was, and nothing where it only went to its nearest mark.
pub fn moved_words(before: &Recipe, wish: &Wish, refit: &Refit, moved: &Moved) -> String {
    let measure = before.measure(moved.change.measure);
    let designed = measure.and_then(|measure| measure.designed);
    match moved.why {
        Some(why) => why_words(before, wish, refit, why),
        None if designed == Some(moved.change.to) => "as designed".to_owned(),
        None => String::new(),
    }
}

/// What a refit starts from, where that is not the card as it is.
pub fn design_words(recipe: &Recipe) -> Option<String> {
    recipe.is_fitted().then(|| {
        let size = closed_size(&recipe.as_designed());
        let size = recipe.notation.size(size.width, size.height);
        format!("Worked out from the card as designed, {size} closed, not from its last size.")
    })
}

/// What becomes of the envelope and of the room at the folds, a sentence for each
/// that changes. `was` and `is` are the card before and after.
pub fn follows_words(before: &Recipe, was: &Card, refit: &Refit, is: &Card) -> Vec<String> {
    let after = &refit.recipe;
    let mut words = Vec::new();
    let takes = |card: &Card, id: &str| card.envelopes.iter().any(|fit| fit.envelope.id == id);
    let chosen = after.posting.envelope.as_deref().and_then(Envelope::by_id);
    let closest = is.envelopes.first().map(|fit| fit.envelope);
    let other = match closest {
        Some(closest) => format!("the closest that takes it is {}", closest.name),
        None => "no standard envelope takes it".to_owned(),
    };
    match (chosen, was.envelopes.first().map(|fit| fit.envelope)) {
        (Some(chosen), _) if takes(is, chosen.id) => {
            words.push(format!(
                "It goes into {}, the envelope chosen.",
                chosen.name
            ));
        }
        (Some(chosen), _) => words.push(format!(
            "It does not go into {}, the envelope chosen; {other}.",
            chosen.name
        )),
        (None, Some(first)) if closest != Some(first) => {
            words.push(format!("It went into {}; now {other}.", first.name));
        }
        (None, _) => {}
    }
    let allowance = after.folding_in.allowance;
    let (from, to) = (before.value(allowance), after.value(allowance));
    if from != to {
        let step = after.notation.step;
        let off = from.units() % step.length().units() != 0;
        let why = if off {
            format!(
                ", the nearest on marks of {}",
                step.words(after.notation.decimal)
            )
        } else {
            String::new()
        };
        words.push(format!(
            "The room at the folds is {} where it was {}{why}.",
            after.notation.with_unit(to),
            before.notation.with_unit(from),
        ));
    }
    words
}

/// What moved a measure, as the end of a sentence: "to go into C6".
pub fn why_words(before: &Recipe, wish: &Wish, refit: &Refit, why: Cause) -> String {
    let notation = refit.recipe.notation;
    match (why, &wish.envelope, &wish.sheet) {
        (Cause::Envelope, Some((envelope, _)), _) => format!("to go into {}", envelope.name),
        (Cause::Finished, ..) => {
            let size = wish.finished.unwrap_or_default();
            let size = notation.size(size.width, size.height);
            format!("for a closed card of {size}")
        }
        (Cause::Sheet, _, Some(sheet)) => format!("to fit {}", sheet_name(sheet.size, notation)),
        (Cause::Kept, _, Some(sheet)) => {
            format!("to be as much of {}", sheet_name(sheet.size, notation))
        }
        (Cause::Asked(id), ..) if refit.recipe.value(id) != before.value(id) => {
            let measure = before.measure(id);
            let name = measure.map_or("a missing measure", |measure| measure.name.as_str());
            format!("with {name} {}", notation.with_unit(refit.recipe.value(id)))
        }
        _ => format!("so that {}", why.words(before, wish)),
    }
}

/// What was given up, a sentence for each.
pub fn given_up_words(before: &Recipe, wish: &Wish, refit: &Refit) -> Vec<String> {
    let given_up = refit.given_up.iter();
    given_up
        .map(|cause| format!("Given up: {}.", cause.words(before, wish)))
        .collect()
}

/// The measures that fall between marks; nothing where there are none.
pub fn off_marks_words(refit: &Refit) -> Option<String> {
    let recipe = &refit.recipe;
    let names = refit.off_marks.iter().filter_map(|id| recipe.measure(*id));
    let names: Vec<_> = names
        .map(|measure| {
            format!(
                "{} {}",
                measure.name,
                recipe.notation.with_unit(measure.value)
            )
        })
        .collect();
    let step = recipe.notation.step.words(recipe.notation.decimal);
    (!names.is_empty()).then(|| format!("Between marks of {step}: {}.", names.join(", ")))
}
