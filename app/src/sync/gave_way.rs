//! What somebody decided about a recipe and gave way, in words, and back in
//! its place.

use foldwright_document::address::{at, put};
use foldwright_document::{Document, Said};
use foldwright_engine::part::parts;
use foldwright_engine::pattern::LineId;
use foldwright_engine::recipe::{
    CutoutId, EditError, LayerId, PanelId, PieceId, Recipe, Relation, shortened,
};
use serde::Deserialize as _;
use serde_json::Value;

use super::joining::device;
use super::merged::{self, number};

/// How much of a text is shown. Our own bound.
const MOST_SHOWN: usize = 60;

/// How many parts of one change are named. Our own bound.
const MOST_NAMED: usize = 4;

/// What was decided, as the end of a sentence: "mat border 1/4 in".
pub(crate) fn words(recipe: &Recipe, said: &Said) -> String {
    if let Some((id, value)) = number(said) {
        let measure = recipe.measure(id);
        let name = measure.map_or("a measurement", |measure| measure.name.as_str());
        return format!("{name} {}", recipe.notation.with_unit(value));
    }
    if said.address == "relations/" {
        let relation = Relation::deserialize(&said.value).ok();
        let rule = relation.map(|relation| relation.words(recipe));
        let rule = rule.map_or_else(|| "a rule".to_owned(), |rule| format!("the rule {rule}"));
        return taken(&rule, said.there);
    }
    let object = merged::object(recipe);
    let (path, field) = match said.address.rsplit_once('.') {
        // A name has no dot in it: those are written otherwise.
        Some((path, field)) => (path, field),
        None => ("", said.address.as_str()),
    };
    if field.contains('/') {
        let what = thing(&said.address);
        let name = said.value.get("name").and_then(Value::as_str);
        let what = name.map_or_else(
            || what.to_owned(),
            |name| format!("{what} “{}”", short(name)),
        );
        return taken(&what, said.there);
    }
    let of = if path.contains('/') {
        let name = at(&object, path).and_then(|it| it.get("name"));
        let name = name.and_then(Value::as_str).unwrap_or_default();
        format!(" of the {} “{}”", thing(path), short(name))
    } else {
        String::new()
    };
    match (field_words(field), &said.value) {
        (Some(field), Value::String(text)) => format!("the {field}{of}: “{}”", short(text)),
        (Some(field), Value::Number(number)) => format!("the {field}{of}: {number}"),
        (Some(field), Value::Bool(yes)) => {
            format!("the {field}{of}: {}", if *yes { "on" } else { "off" })
        }
        (Some(field), _) => format!("the {field}{of}"),
        (None, _) if of.is_empty() => "one of the recipe's choices".to_owned(),
        (None, _) => format!("a choice{of}"),
    }
}

/// What one change decided: where measures are tied, several that come to the
/// same.
pub(super) fn together(recipe: &Recipe, change: &[&Said]) -> String {
    let named = change.iter().take(MOST_NAMED);
    let named: Vec<_> = named.map(|said| words(recipe, said)).collect();
    named.join(", ")
}

/// One line of a notice: whose change gave way, and to what.
pub(super) fn line(recipe: &Recipe, change: &[&Said]) -> Option<String> {
    let said = change.first()?;
    let object = merged::object(recipe);
    let number = number(said).and_then(|(id, _)| recipe.measure(id));
    let now = number.map(|measure| {
        let value = recipe.notation.with_unit(measure.value);
        format!("{} is {value} now", measure.name)
    });
    let now = now.or_else(|| {
        let now = at(&object, &said.address)?.as_str()?;
        Some(format!("it is “{}” now", short(now)))
    });
    let now = now.unwrap_or_else(|| "the other decision stays".to_owned());
    let by = device(&said.by);
    Some(format!("{by} decided {}; {now}.", together(recipe, change)))
}

/// The recipe with what was decided back in its place; or why not, in words.
pub(crate) fn restored(recipe: &Recipe, said: &Said) -> Result<Recipe, String> {
    let mut restored = recipe.clone();
    if let Some((id, value)) = number(said) {
        return match restored.set(id, value) {
            Ok(_) => Ok(restored),
            Err(why) => Err(why.words(recipe)),
        };
    }
    if let Some(without) = without(recipe, said) {
        return without.map_err(|why| why.words(recipe));
    }
    let mut object = merged::object(recipe);
    let value = said.there.then(|| said.value.clone());
    let done = if said.address.ends_with('/') && !said.there {
        let list = said.address.trim_end_matches('/');
        let mut items = at(&object, list).and_then(Value::as_array).cloned();
        if let Some(items) = &mut items {
            let place = items.iter().position(|item| *item == said.value);
            place.map(|place| items.remove(place));
        }
        items.is_some_and(|items| put(&mut object, list, Some(Value::Array(items))))
    } else {
        put(&mut object, &said.address, value)
    };
    let restored = Recipe::deserialize(&object).ok().filter(|_| done);
    let restored = restored.filter(|restored| restored.check_kept().is_empty());
    let Some(mut restored) = restored else {
        return Err("That needs what is not in the recipe any more. Change it there.".to_owned());
    };
    restored.ids = recipe.ids;
    Ok(restored)
}

/// The pieces and layers that are not there any more, by name.
pub(crate) fn gone(before: &Recipe, after: &Recipe) -> Vec<String> {
    let gone = parts(before).filter(|part| parts(after).all(|it| it != *part));
    gone.map(|part| part.name(before)).collect()
}

/// The recipe without a part that somebody took out, and without what depends on
/// it; `None` for what is no such part.
fn without(recipe: &Recipe, said: &Said) -> Option<Result<Recipe, EditError>> {
    let (list, id) = said.address.rsplit('.').next()?.split_once('/')?;
    let id: u32 = id.parse().ok().filter(|_| !said.there)?;
    let mut without = recipe.clone();
    let removed = match list {
        "panels" => without.remove_panel(PanelId(id)),
        "layers" => without.remove_layer(LayerId(id)),
        "lines" => without.remove_line(LineId(id)),
        "cutouts" => without.remove_cutout(CutoutId(id)),
        "pieces" => without.remove_piece(PieceId(id)),
        _ => return None,
    };
    Some(removed.map(|_| without))
}

/// What of an earlier state can be taken back by itself: numbers, names and
/// notes that are others now.
pub(crate) fn differences(earlier: &Recipe, present: &Recipe) -> Vec<Said> {
    let [before, now] = [earlier, present].map(merged::object);
    let mut addresses: Vec<String> = ["name", "about", "copies"].map(str::to_owned).into();
    for measure in &earlier.measures {
        addresses.push(format!("measures/{}.value", measure.id.0));
        addresses.push(format!("measures/{}.name", measure.id.0));
    }
    for panel in &earlier.base.panels {
        addresses.push(format!("base.panels/{}.name", panel.id.0));
    }
    for layer in &earlier.layers {
        addresses.push(format!("layers/{}.name", layer.id.0));
    }
    let notes = earlier.notes.keys();
    addresses.extend(notes.map(|step| {
        format!(
            "notes.{}",
            step.replace('%', "%25")
                .replace('.', "%2e")
                .replace('/', "%2f")
                .replace('~', "%7e")
        )
    }));
    let differs = |address: String| {
        let value = at(&before, &address)?;
        let is_there = address.starts_with("notes.") || at(&now, &address).is_some();
        (is_there && at(&now, &address) != Some(value)).then(|| Said {
            key: address.clone(),
            at: 0,
            by: String::new(),
            there: true,
            value: value.clone(),
            address,
        })
    };
    addresses.into_iter().filter_map(differs).collect()
}

/// What another has made of a recipe, on top of `mine`, which goes back to a
/// state before: `theirs` is what `before` has become.
pub(crate) fn carried(before: &Recipe, theirs: &Recipe, mine: &Recipe) -> Option<Recipe> {
    let [base, theirs, own] = [before, theirs, mine].map(merged::object);
    let mut document = Document::new(1);
    document.write(&Value::Null, &base);
    // Of two who write the same, the one with the higher number stays.
    let mut other = Document::open(2, &document.bytes()).ok()?;
    document.write(&base, &own);
    if let Some(update) = other.write(&base, &theirs) {
        document.apply(&update).ok()?;
    }
    let mut carried = merged::recipe(&document).ok()?.recipe;
    carried.ids = mine.ids;
    Some(carried)
}

fn taken(what: &str, there: bool) -> String {
    if there {
        what.to_owned()
    } else {
        format!("to take out {what}")
    }
}

fn short(text: &str) -> String {
    let mut begun: String = text.chars().take(MOST_SHOWN).collect();
    if begun.len() < shortened(text).len() {
        begun.push('…');
    }
    begun
}

/// What the item at an address is.
fn thing(address: &str) -> &'static str {
    let list = address.rsplit('.').find_map(|part| part.split_once('/'));
    match list.map(|(list, _)| list) {
        Some("measures") => "measurement",
        Some("panels") => "panel",
        Some("layers") => "layer",
        Some("lines") => "crease or cut",
        Some("cutouts") => "window or edge",
        Some("pieces") => "pop-up or pocket",
        Some("stocks") => "paper",
        Some("folds") => "fold",
        Some("joins" | "flat") => "glue place",
        _ => "choice",
    }
}

/// What a field is, in a maker's words.
fn field_words(field: &str) -> Option<&'static str> {
    Some(match field {
        "name" => "name",
        "about" => "description",
        "copies" => "number of cards",
        "pinned" => "pin",
        "least" => "least length",
        "most" => "greatest length",
        "width" => "width",
        "height" => "height",
        "stock" => "paper",
        "runs" => "way the card opens",
        "rests" => "panel that lies on the table",
        "scoring" => "way to score",
        "glue_margin" => "glue margin",
        "lay" => "way to lay the paper",
        "rule" => "clearance",
        "envelope" => "envelope",
        "caliper" => "thickness (caliper)",
        "weight" => "weight",
        "outline" => "outline",
        "place" => "place",
        "on" => "panel it is on",
        "bond" => "way it is glued",
        "step" => "smallest division on the ruler",
        "decimal" => "decimal mark",
        _ => return None,
    })
}
