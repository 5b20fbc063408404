//! What a refit did, in the maker's words.

use super::cause::sheet_name;
use super::{Cause, Moved, Refit, Wish};
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
    let why = match moved.why {
        None => String::new(),
        Some(why) => format!(": {}", why_words(before, wish, refit, why)),
    };
    format!("{name} {from} → {}{why}", is.with_unit(change.to))
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
