//! What is told of a recipe that was changed in several places at once.

use std::collections::{BTreeMap, BTreeSet};

use foldwright_document::{Oddity, Said};
use foldwright_engine::recipe::{MOST_TEXT, Recipe, from_value};
use foldwright_words::LeftOut;
use serde_json::Value;

use super::gave_way::Decided;
use super::ledger::Came;
use super::merged::{Merged, number, same_change};
use crate::spoken::{speaker, texts};
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
    let known = known_shown(shelf, id)?;
    let recipe = &merged.recipe;
    let losing: Vec<&Said> = losing.iter().collect();
    let changes = losing.chunk_by(|one, next| same_change(one, next));
    let changes = changes.filter(|change| !holds_in_part(merged, change));
    let gave_way: Vec<_> = changes.map(|it| Decided::of(recipe, it)).collect();
    let mut became: Vec<_> = gave_way.iter().filter_map(|it| it.line(recipe)).collect();
    became.extend(self::became(merged));
    if became.is_empty() && !has_moved(merged) {
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
    let before = before.and_then(from_value);
    // What was there before the first thing nobody has looked at.
    let first = unseen.as_ref().and_then(Joined::before);
    let before = first.or(before);
    let kept = kept(merged);
    let followed = followed(merged, &kept, &gave_way, before.as_ref());
    // What nobody has looked at stays to be looked at.
    let (unseen, moved) = unseen
        .map(|unseen| (unseen.became, unseen.followed))
        .unwrap_or_default();
    let unseen = unseen.into_iter().filter(|line| !became.contains(line));
    became = unseen.chain(became.clone()).collect();
    let joined = Joined::new(
        merged.mark.clone(),
        kept.iter().map(|decided| holds(recipe, decided)).collect(),
        became,
        moved.into_iter().chain(followed).collect(),
        before.as_ref(),
    );
    shelf.port().write(&key, &joined.text())?;
    Ok(Some(Came::Joined(id.to_owned())))
}

/// Keeps that what came of a recipe can't be shown, until somebody has looked
/// at that, or it can. Says so where it is news.
pub(super) fn tell_apart(shelf: &Shelf, id: &str) -> Result<Option<Came>, Refused> {
    let mut known = known(shelf, id);
    if known.as_ref().is_some_and(|known| known.apart) {
        return Ok(None);
    }
    known = known.filter(|known| !known.looked);
    let mut joined = known.unwrap_or_default();
    joined.apart = true;
    shelf.port().write(&joined_key(id), &joined.text())?;
    Ok(Some(Came::Joined(id.to_owned())))
}

/// What is kept to be looked at.
fn known(shelf: &Shelf, id: &str) -> Option<Joined> {
    let text = shelf.port().read(&joined_key(id))?;
    Joined::parse(&text)
}

/// What is kept to be looked at, now that the recipe can be shown.
fn known_shown(shelf: &Shelf, id: &str) -> Result<Option<Joined>, Refused> {
    let Some(mut joined) = known(shelf, id).filter(|known| known.apart) else {
        return Ok(known(shelf, id));
    };
    joined.apart = false;
    if joined.became.is_empty() {
        shelf.port().remove(&joined_key(id));
        return Ok(None);
    }
    shelf.port().write(&joined_key(id), &joined.text())?;
    Ok(Some(joined))
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

/// What was decided and holds, as far as it mattered: the last decisions of each
/// device.
fn kept(merged: &Merged) -> Vec<Decided<'_>> {
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
    let changes = kept.chunk_by(|one, next| same_change(one, next));
    let mut changes: Vec<_> = changes.collect();
    changes.retain(|change| {
        let by = change.first().map_or("", |said| &said.by);
        let count = named.entry(by).or_default();
        *count += 1;
        *count <= MOST_NAMED
    });
    let changes = changes.into_iter();
    changes.map(|change| Decided::of(recipe, change)).collect()
}

/// One line about what holds: whose it is, and what.
fn holds(recipe: &Recipe, decided: &Decided<'_>) -> String {
    let by = decided.first.first().map_or("", |said| &said.by);
    format!("{}: {}", device(by), decided.words(recipe))
}

/// Whether numbers moved that nobody decided.
fn has_moved(merged: &Merged) -> bool {
    let rejoined = merged.rejoined.as_ref();
    rejoined.is_some_and(|rejoined| !rejoined.moved.is_empty())
}

/// What became of what was decided, besides what gave way.
fn became(merged: &Merged) -> Vec<String> {
    let (texts, recipe) = (&texts().merging, &merged.recipe);
    let mut lines = Vec::new();
    if let Some(rejoined) = &merged.rejoined {
        lines.extend(
            rejoined
                .left_out
                .iter()
                .map(|relation| texts.rule_left_out(&speaker(recipe).rule(relation))),
        );
        if rejoined.unsolved {
            lines.push(texts.unsolved.to_owned());
        }
    }
    lines.extend(merged.oddities.iter().filter_map(odd));
    if !merged.long_notes.is_empty() {
        lines.push(texts.notes_too_long(MOST_TEXT));
    }
    lines
}

/// The numbers that merely followed, one line each: from what holds, from what gave
/// way, and from bringing both together, with what they were `before` on this
/// device. Those that are told by themselves are not told again.
fn followed(
    merged: &Merged,
    kept: &[Decided<'_>],
    gave_way: &[Decided<'_>],
    before: Option<&Recipe>,
) -> BTreeMap<u32, String> {
    let (texts, recipe) = (&texts().merging, &merged.recipe);
    let decided = || kept.iter().chain(gave_way);
    let mut followed: BTreeSet<_> = decided().flat_map(|it| &it.followed).copied().collect();
    if let Some(rejoined) = &merged.rejoined {
        followed.extend(rejoined.moved.iter().map(|moved| moved.measure));
    }
    for said in decided().flat_map(|it| &it.first) {
        if let Some((id, _)) = number(said) {
            followed.remove(&id);
        }
    }
    let lines = followed.into_iter().filter_map(|id| {
        let measure = recipe.measure(id)?;
        let length = |value| recipe.notation.with_unit(value);
        let (name, now) = (&measure.name, length(measure.value));
        let was = before.and_then(|before| before.measure(id));
        let was = was.filter(|was| was.value != measure.value);
        let line = was.map_or_else(
            || texts.is_so_now(name, &now),
            |was| texts.moved(name, &length(was.value), &now),
        );
        Some((id.0, line))
    });
    lines.collect()
}

/// What merging made of the parts of a recipe, where it was nobody's doing.
fn odd(oddity: &Oddity) -> Option<String> {
    match oddity {
        Oddity::LeftOut { list, .. } => Some(texts().merging.needs_what_is_gone(LeftOut::of(list))),
        Oddity::Fitted { .. } => Some(texts().merging.look_folds_over.to_owned()),
        Oddity::Renumbered { .. } | Oddity::Revived { .. } | Oddity::Unsound => None,
    }
}

/// What people call a device, as a sentence begins.
pub(super) fn device(name: &str) -> &str {
    if name.is_empty() {
        texts().merging.nameless_device
    } else {
        name
    }
}
