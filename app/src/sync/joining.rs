//! What is told of a recipe that was changed in several places at once.

use std::collections::BTreeMap;

use foldwright_document::{Oddity, Said};
use foldwright_engine::recipe::{MOST_TEXT, Recipe};
use serde::Deserialize as _;
use serde_json::Value;

use super::gave_way;
use super::ledger::Came;
use super::merged::{Merged, number, same_change};
use crate::store::{Joined, Refused, Shelf, joined_key};

/// How many changes of one device are named. Our own bound: a notice is read
/// at a glance.
const MOST_NAMED: usize = 3;

/// Keeps what is to be looked at of a recipe, until it was; `before` is what
/// this device had. Says so where it is news.
pub(super) fn tell(
    shelf: &Shelf,
    id: &str,
    merged: &Merged,
    losing: &[Said],
    before: Option<&Value>,
) -> Result<Option<Came>, Refused> {
    let key = joined_key(id);
    let known = shelf.port().read(&key);
    let known = known.as_deref().and_then(Joined::parse);
    let mut became = became(merged);
    let losing: Vec<&Said> = losing.iter().collect();
    let changes = losing.chunk_by(|one, next| same_change(one, next));
    let changes = changes.filter(|change| !holds_in_part(merged, change));
    became.extend(changes.filter_map(|change| gave_way::line(&merged.recipe, change)));
    if became.is_empty() {
        // Somebody has gone on from what they looked at.
        if known.is_some_and(|known| known.looked) {
            shelf.port().remove(&key);
        }
        return Ok(None);
    }
    if known
        .as_ref()
        .is_some_and(|known| known.mark == merged.mark)
    {
        return Ok(None);
    }
    let unseen = known.filter(|known| !known.looked);
    let before = before.and_then(|before| Recipe::deserialize(before).ok());
    // What was there before the first thing nobody has looked at.
    let first = unseen.as_ref().and_then(Joined::before);
    let before = first.or(before);
    // What nobody has looked at stays to be looked at.
    let unseen = unseen.map(|unseen| unseen.became).unwrap_or_default();
    let unseen = unseen.into_iter().filter(|line| !became.contains(line));
    became = unseen.chain(became.clone()).collect();
    let joined = Joined::new(
        merged.mark.clone(),
        decided(merged),
        became,
        before.as_ref(),
    );
    shelf.port().write(&key, &joined.text())?;
    Ok(Some(Came::Joined(id.to_owned())))
}

/// Whether a number of that change holds. What followed from it then has moved,
/// which is told.
fn holds_in_part(merged: &Merged, change: &[&Said]) -> bool {
    let holds =
        |said: &Said| number(said).is_some_and(|(id, value)| merged.recipe.value(id) == value);
    let first = change.first();
    let is_number = first.is_some_and(|first| number(first).is_some());
    let mut said = merged.said.iter();
    is_number && said.any(|said| first.is_some_and(|first| same_change(first, said)) && holds(said))
}

/// What was decided where, as far as it mattered: the last decisions of each
/// device.
fn decided(merged: &Merged) -> Vec<String> {
    let Some(rejoined) = &merged.rejoined else {
        return Vec::new();
    };
    let recipe = &merged.recipe;
    let holds = |said: &&Said| {
        number(said)
            .is_some_and(|(id, value)| rejoined.kept.contains(&id) && recipe.value(id) == value)
    };
    let kept: Vec<&Said> = merged.said.iter().filter(holds).collect();
    let mut named: BTreeMap<&str, usize> = BTreeMap::new();
    let mut lines = Vec::new();
    for change in kept.chunk_by(|one, next| same_change(one, next)) {
        let Some(said) = change.first() else { continue };
        let count = named.entry(&said.by).or_default();
        if *count < MOST_NAMED {
            *count += 1;
            let words = gave_way::together(recipe, change);
            lines.push(format!("{}: {words}", device(&said.by)));
        }
    }
    lines
}

/// What became of what was decided.
fn became(merged: &Merged) -> Vec<String> {
    let recipe = &merged.recipe;
    let name = |id| {
        let measure = recipe.measure(id);
        measure.map_or("a missing measurement", |measure| measure.name.as_str())
    };
    let length = |value| recipe.notation.with_unit(value);
    let mut lines = Vec::new();
    if let Some(rejoined) = &merged.rejoined {
        lines.extend(rejoined.moved.iter().map(|moved| {
            let (from, to) = (length(moved.from), length(moved.to));
            format!("{} is {to} now, and was {from}.", name(moved.measure))
        }));
        lines.extend(rejoined.left_out.iter().map(|relation| {
            format!(
                "The rule that {} contradicts the others and is left out.",
                relation.words(recipe)
            )
        }));
        if rejoined.unsolved {
            lines.push("Its numbers don't go together. See which rules are broken.".to_owned());
        }
    }
    lines.extend(merged.oddities.iter().filter_map(odd));
    if !merged.long_notes.is_empty() {
        lines.push(format!(
            "Notes for one step came together and have more than {MOST_TEXT} characters. The \
             beginning is shown; the rest shows as you make the note shorter."
        ));
    }
    lines
}

/// What merging made of the parts of a recipe, where it was nobody's doing.
fn odd(oddity: &Oddity) -> Option<String> {
    match oddity {
        Oddity::LeftOut { list, .. } => {
            let what = match list.as_str() {
                "on_top" => "An answer which panel lies on top",
                "upright" => "A side that was to read upright",
                "relations" => "A rule",
                "joins" => "A glue place",
                "cutouts" => "A window or an edge",
                "lines" => "A crease or a cut",
                "layers" => "A layer",
                _ => "Something",
            };
            Some(format!("{what} needs what is gone, and is left out."))
        }
        Oddity::Fitted { .. } => Some(
            "There were too many or too few folds for the panels; look each fold over.".to_owned(),
        ),
        Oddity::Renumbered { .. } | Oddity::Revived { .. } | Oddity::Unsound => None,
    }
}

/// What people call a device, as a sentence begins.
pub(super) fn device(name: &str) -> &str {
    if name.is_empty() {
        "A device without a name"
    } else {
        name
    }
}
