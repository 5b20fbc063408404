//! Recipes as documents that merge.

use std::borrow::Cow;
use std::collections::{BTreeSet, HashMap};

use foldwright_document::address::at;
use foldwright_document::{Document, Hand, Mended, Oddity, Said, mend};
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{
    MeasureId, Recipe, Rejoined, VERSION, from_value, shortened, to_value,
};
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
    let mut object = to_value(recipe);
    if let Some(fields) = object.as_object_mut() {
        fields.insert(FORMAT.to_owned(), VERSION.into());
    }
    object
}

/// The recipe in a document.
pub(crate) fn recipe(document: &Document) -> Result<Merged, NoRecipe> {
    recipe_and_object(document).map(|(merged, _)| merged)
}

/// The same, with the object that the document holds.
fn recipe_and_object(document: &Document) -> Result<(Merged, Value), NoRecipe> {
    let said = document.said();
    let mended = mended(document, &said).ok_or(NoRecipe::Empty)?;
    if format(&mended.object).is_some_and(|format| format > VERSION) {
        return Err(NoRecipe::Newer);
    }
    let (mut recipe, long_notes) = read(&mended.object, &said).ok_or(NoRecipe::Unsound)?;
    if format(&mended.object) != Some(VERSION) {
        recipe.know_measures();
    }
    let mark = recipe.numbers();
    let rejoined = apart(document, &recipe, &said, &mark).then(|| rejoin(&mut recipe, &said));
    let merged = Merged {
        recipe,
        oddities: mended.oddities,
        rejoined,
        said,
        mark,
        long_notes,
    };
    Ok((merged, mended.object))
}

/// The recipe in an object that was written whole, by this version of files or one
/// before.
pub(super) fn whole(object: &Value) -> Option<Recipe> {
    let mut recipe = from_value(object)?;
    if format(object) != Some(VERSION) {
        recipe.know_measures();
    }
    recipe.check_kept().is_empty().then_some(recipe)
}

/// In which version of files an object is written.
fn format(object: &Value) -> Option<u64> {
    object.get(FORMAT).and_then(Value::as_u64)
}

/// The object in a document, made to hold together where that can be.
fn mended(document: &Document, said: &[Said]) -> Option<Mended> {
    mend(document, &|object| read(object, said).is_some())
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
/// and left is written too, so that the document says no less. `recipes` are those in
/// both, as far as they are at hand.
pub(super) fn write(
    document: &mut Document,
    [old, new]: [&Value; 2],
    recipes: [Option<&Recipe>; 2],
    when: u64,
    by: &str,
) -> Option<Vec<u8>> {
    let [before, recipe] = recipes.map(|recipe| recipe.map(Cow::Borrowed));
    let recipe = recipe.or_else(|| from_value(new).map(Cow::Owned));
    let before = before.or_else(|| from_value(old).map(Cow::Owned));
    let decided = match (&before, &recipe) {
        (Some(before), Some(recipe)) => {
            let mut decided = recipe.decided_since(before);
            decided.extend(pinned(before, recipe));
            decided
        }
        _ => Vec::new(),
    };
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
            // One that gave way to another limit was not taken away.
            Some((_, "least" | "most")) => at(old, address) != at(new, address),
            Some((_, "designed" | "of")) => false,
            _ => !matches!(address, FORMAT | "designed_on"),
        }
    };
    let mark = recipe.as_deref().map(Recipe::numbers).unwrap_or_default();
    let hand = Hand {
        at: when,
        by,
        mark: &mark,
        meant: &meant,
    };
    let held = document.read().0;
    let mut old = match before {
        // Nothing is held beneath what they saw.
        Some(before) if held.as_ref() != Some(old) => beneath(document, old, &before),
        _ => old.clone(),
    };
    unsay(held.as_ref(), &mut old);
    // What is decided is written, also where the document holds it beneath what
    // was seen.
    for measure in measures(&mut old) {
        let id = measure.get("id").and_then(Value::as_u64);
        if decided.iter().any(|it| Some(u64::from(it.0)) == id)
            && let Some(fields) = measure.as_object_mut()
        {
            fields.remove("value");
        }
    }
    document.write_by(&old, new, Some(&hand))
}

/// The measures that were pinned since: a pin decides the number it holds.
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

/// What a maker saw, with the limits that the document holds instead of those
/// that were left, and with the numbers and relations that it holds instead of
/// those it was solved for. Where what it holds could not be shown yet, they saw
/// nothing of that.
fn beneath(document: &Document, seen: &Value, before: &Recipe) -> Value {
    let mut old = seen.clone();
    let Ok((merged, held)) = recipe_and_object(document) else {
        return old;
    };
    if object(&merged.recipe) != *seen {
        return old;
    }
    let is_made = document.made().contains(&before.numbers());
    if let Some(relations) = held.get("relations").filter(|_| !is_made) {
        old["relations"].clone_from(relations);
    }
    let held = held.get("measures").and_then(Value::as_array);
    let id = |measure: &Value| measure.get("id").and_then(Value::as_u64);
    let held: HashMap<_, _> = held.into_iter().flatten().map(|it| (id(it), it)).collect();
    for measure in measures(&mut old) {
        let Some(same) = held.get(&id(measure)) else {
            continue;
        };
        if let Some(value) = same.get("value").filter(|_| !is_made) {
            measure["value"].clone_from(value);
        }
        for limit in ["least", "most"] {
            if let (None, Some(held)) = (measure.get(limit), same.get(limit)) {
                measure[limit].clone_from(held);
            }
        }
    }
    old
}

/// Leaves out of what parts the measures are where a document from before does
/// not say so, and it is written with what else is.
fn unsay(held: Option<&Value>, old: &mut Value) {
    if held.and_then(format) == Some(VERSION) {
        return;
    }
    for measure in measures(old).filter_map(Value::as_object_mut) {
        measure.remove("of");
    }
}

/// A recipe that holds together, and the steps whose notes came together
/// longer than a note can be. Of those it has the beginning; the rest stays in
/// the document and shows as the note is made shorter. Of two limits that cross
/// it has the one that was decided last.
fn read(object: &Value, said: &[Said]) -> Option<(Recipe, Vec<String>)> {
    let mut recipe = from_value(object)?;
    for measure in &mut recipe.measures {
        if measure
            .least
            .zip(measure.most)
            .is_some_and(|(least, most)| least > most)
        {
            let of = |limit| format!("measures/{}.{limit}", measure.id.0);
            let limits = [of("least"), of("most")];
            let last = said.iter().find(|said| limits.contains(&said.address));
            if last.is_some_and(|last| last.address == limits[0]) {
                measure.most = None;
            } else {
                measure.least = None;
            }
        }
    }
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
