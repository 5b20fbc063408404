//! Recipes as documents that merge.

use std::collections::BTreeSet;

use foldwright_document::{Document, Hand, Oddity, Said, mend};
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{MeasureId, Recipe, Rejoined, VERSION, shortened};
use serde::Deserialize as _;
use serde_json::Value;

/// The field that says in which version of files a recipe is written.
const FORMAT: &str = "format";

/// What a document says a recipe is.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Merged {
    /// The recipe.
    pub(crate) recipe: Recipe,
    /// What merging made of it that nobody meant.
    pub(crate) oddities: Vec<Oddity>,
    /// How its numbers were brought together, where those of several devices
    /// did not go together.
    pub(crate) rejoined: Option<Rejoined>,
    /// What was decided about it and by whom, the last first.
    pub(crate) said: Vec<Said>,
    /// What tells the numbers as they came from all others.
    pub(crate) mark: String,
    /// The steps whose notes came together longer than a note can be.
    pub(crate) long_notes: Vec<String>,
}

/// Why a document holds no recipe that can be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum NoRecipe {
    /// Nothing was written in it yet.
    Empty,
    /// A later Foldwright wrote it. It is passed on untouched.
    Newer,
    /// What came together makes no sense, whatever is left out.
    Unsound,
}

/// A recipe as an object that merges. What later versions add to an object is
/// not part of this one, so that writing what differs leaves it alone.
pub(crate) fn object(recipe: &Recipe) -> Value {
    // Serialising to a value fails for maps whose keys are no text; a recipe
    // has none.
    let mut object = serde_json::to_value(recipe).unwrap_or_default();
    if let Some(fields) = object.as_object_mut() {
        fields.insert(FORMAT.to_owned(), VERSION.into());
    }
    object
}

/// The recipe in a document.
pub(crate) fn recipe(document: &Document) -> Result<Merged, NoRecipe> {
    let mended = mend(document, &|object| read(object).is_some()).ok_or(NoRecipe::Empty)?;
    let format = mended.object.get(FORMAT).and_then(Value::as_u64);
    if format.is_some_and(|format| format > VERSION) {
        return Err(NoRecipe::Newer);
    }
    let (mut recipe, long_notes) = read(&mended.object).ok_or(NoRecipe::Unsound)?;
    let said = document.said();
    let mark = recipe.numbers();
    let rejoined = apart(document, &recipe, &said, &mark).then(|| rejoin(&mut recipe, &said));
    Ok(Merged {
        recipe,
        oddities: mended.oddities,
        rejoined,
        said,
        mark,
        long_notes,
    })
}

/// Whether the numbers are to be solved again: they came together of several
/// changes and do not go together, or without what somebody decided. What one
/// maker left as it is stays so.
fn apart(document: &Document, recipe: &Recipe, said: &[Said], mark: &str) -> bool {
    let made = document.made();
    let known = made.contains(mark);
    if known && made.len() == 1 {
        return false;
    }
    let gone = |change: &Vec<(MeasureId, Length)>| {
        let mut numbers = change.iter();
        numbers.all(|(id, value)| recipe.measure(*id).is_some_and(|it| it.value != *value))
    };
    if numbers(said).iter().any(gone) {
        return true;
    }
    if made.is_empty() {
        // Written before marks were: its makers left nothing broken.
        return !recipe.broken().is_empty();
    }
    !known && !recipe.holds_together()
}

/// Solves the relations again, from what was decided.
fn rejoin(recipe: &mut Recipe, said: &[Said]) -> Rejoined {
    let mut decided = numbers(said);
    // Of two decisions about one number the document has taken one.
    let held = |(id, value): &(MeasureId, Length)| recipe.value(*id) == *value;
    let taken: BTreeSet<_> = decided.iter().flatten().filter(|it| held(it)).collect();
    let taken: BTreeSet<_> = taken.into_iter().map(|(id, _)| *id).collect();
    for change in &mut decided {
        change.retain(|one| held(one) || !taken.contains(&one.0));
    }
    let before = recipe.clone();
    let rejoined = recipe.rejoin(&decided);
    if recipe.check_kept().is_empty() {
        return rejoined;
    }
    *recipe = before;
    Rejoined {
        unsolved: true,
        ..Rejoined::default()
    }
}

/// The numbers that were decided, those of each change together, the last
/// change first.
fn numbers(said: &[Said]) -> Vec<Vec<(MeasureId, Length)>> {
    let said: Vec<&Said> = said.iter().filter(|said| number(said).is_some()).collect();
    let changes = said.chunk_by(|one, next| same_change(one, next));
    changes
        .map(|change| {
            let mut numbers: Vec<_> = change.iter().filter_map(|said| number(said)).collect();
            numbers.sort_unstable();
            numbers
        })
        .collect()
}

/// Whether two were decided by one change.
pub(super) fn same_change(one: &Said, other: &Said) -> bool {
    (one.at, &one.by) == (other.at, &other.by)
}

/// The number that was decided, where it was one.
pub(super) fn number(said: &Said) -> Option<(MeasureId, Length)> {
    let id = said.address.strip_prefix("measures/")?;
    let id = id.strip_suffix(".value")?.parse().ok()?;
    let value = Length::deserialize(&said.value).ok()?;
    said.there.then_some((MeasureId(id), value))
}

/// Writes what a maker has made of a recipe. `old` is what they saw, which may
/// be what was solved for rather than what the document holds: what they saw
/// and left is written too, so that the document says no less.
pub(super) fn write(
    document: &mut Document,
    old: &Value,
    new: &Value,
    at: u64,
    by: &str,
) -> Option<Vec<u8>> {
    let recipe = Recipe::deserialize(new).ok();
    let before = Recipe::deserialize(old).ok();
    let (mut decided, pinned) = match (&before, &recipe) {
        (Some(before), Some(recipe)) => (recipe.decided_since(before), pinned(before, recipe)),
        _ => Default::default(),
    };
    decided.extend(&pinned);
    let meant = |address: &str, value: &Value| {
        if address == "relations/" {
            // One that was left out of what they saw was not taken away.
            let of = |object: &Value| {
                let all = object.get("relations").and_then(Value::as_array);
                all.is_some_and(|all| all.contains(value))
            };
            return of(old) || of(new);
        }
        let number = address.strip_prefix("measures/");
        match number.and_then(|rest| rest.split_once('.')) {
            Some((id, "value")) => {
                let id = id.parse().map(MeasureId);
                id.is_ok_and(|id| decided.contains(&id))
            }
            Some((_, "designed")) => false,
            _ => !matches!(address, FORMAT | "designed_on"),
        }
    };
    let mark = recipe.as_ref().map(Recipe::numbers).unwrap_or_default();
    let hand = Hand {
        at,
        by,
        mark: &mark,
        meant: &meant,
    };
    let mut old = before.map_or_else(|| old.clone(), |before| beneath(document, old, &before));
    for measure in measures(&mut old) {
        let id = measure.get("id").and_then(Value::as_u64);
        if pinned.iter().any(|it| Some(u64::from(it.0)) == id)
            && let Some(fields) = measure.as_object_mut()
        {
            fields.remove("value");
        }
    }
    document.write_by(&old, new, Some(&hand))
}

/// The measures that were pinned since: a pin decides the number it holds, so that
/// it is written with the pin.
fn pinned(before: &Recipe, recipe: &Recipe) -> Vec<MeasureId> {
    let was_loose = |id| before.measure(id).is_some_and(|measure| !measure.pinned);
    let pinned = recipe.measures.iter().filter(|measure| measure.pinned);
    pinned.map(|it| it.id).filter(|id| was_loose(*id)).collect()
}

/// The measures of a recipe's object.
fn measures(object: &mut Value) -> impl Iterator<Item = &mut Value> {
    let measures = object.get_mut("measures").and_then(Value::as_array_mut);
    measures.into_iter().flatten()
}

/// What a maker saw, with the numbers and relations that the document holds
/// instead of those it was solved for.
fn beneath(document: &Document, seen: &Value, recipe: &Recipe) -> Value {
    let mut old = seen.clone();
    if document.made().contains(&recipe.numbers()) {
        return old;
    }
    let Some(held) = mend(document, &|object| read(object).is_some()) else {
        return old;
    };
    if let Some(relations) = held.object.get("relations") {
        old["relations"].clone_from(relations);
    }
    let list = |object: &Value| object.get("measures").and_then(Value::as_array).cloned();
    let held = list(&held.object).unwrap_or_default();
    for measure in measures(&mut old) {
        let same = held.iter().find(|held| held.get("id") == measure.get("id"));
        if let Some(value) = same.and_then(|held| held.get("value")) {
            measure["value"].clone_from(value);
        }
    }
    old
}

/// A recipe that holds together, and the steps whose notes came together
/// longer than a note can be. Of those it has the beginning; the rest stays in
/// the document and shows as the note is made shorter.
fn read(object: &Value) -> Option<(Recipe, Vec<String>)> {
    let mut recipe = Recipe::deserialize(object).ok()?;
    let mut long = Vec::new();
    for (step, note) in &mut recipe.notes {
        let begins = shortened(note).len();
        if begins < note.len() {
            note.truncate(begins);
            long.push(step.clone());
        }
    }
    recipe.check_kept().is_empty().then_some((recipe, long))
}
