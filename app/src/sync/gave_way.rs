//! What somebody decided about a recipe and gave way, in words, and back in
//! its place.

use std::collections::BTreeSet;

use foldwright_document::address::{at, put};
use foldwright_document::{Document, Said};
use foldwright_engine::length::Length;
use foldwright_engine::paper::PhotoId;
use foldwright_engine::part::parts;
use foldwright_engine::recipe::{
    CutoutId, DrawnLineId, EditError, LayerId, MeasureId, PanelId, PieceId, Recipe, Relation,
    from_value, shortened,
};
use serde::Deserialize as _;
use serde_json::Value;

use super::joining::device;
use super::merged::{self, number};
use crate::spoken::{language, speaker, texts};

/// How much of a text is shown. Our own bound.
const MOST_SHOWN: usize = 60;

/// How many parts of one change are named. Our own bound.
const MOST_NAMED: usize = 4;

/// How the addresses begin of what stands beside steps: notes, and photographs.
const BESIDE_STEPS: [&str; 2] = ["notes.", "photos."];

/// What was decided, as the end of a sentence: "mat border 1/4 in".
pub(crate) fn words(recipe: &Recipe, said: &Said) -> String {
    let texts = &texts().merging;
    if let Some((id, value)) = number(said) {
        let measure = recipe.measure(id);
        let name = measure.map_or(texts.a_measurement, |measure| measure.name.as_str());
        return format!("{name} {}", recipe.notation.with_unit(value));
    }
    if said.address == "relations/" {
        let relation = Relation::deserialize(&said.value).ok();
        let rule = relation.map(|relation| speaker(recipe).rule(&relation));
        let rule = rule.map_or_else(|| texts.a_rule.to_owned(), |rule| texts.the_rule(&rule));
        return taken(&rule, said.there);
    }
    if said.address.starts_with(BESIDE_STEPS[1]) {
        return taken(language().album().of_a_step, said.there);
    }
    if said.address.starts_with("runs/") {
        return taken(language().album().in_the_log, said.there);
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
        let what = name.map_or_else(|| what.to_owned(), |name| texts.named(what, &short(name)));
        return taken(&what, said.there);
    }
    let of = path.contains('/').then(|| {
        let name = at(&object, path).and_then(|it| it.get("name"));
        let name = name.and_then(Value::as_str).unwrap_or_default();
        (thing(path), short(name))
    });
    let what = match (field_words(field), of) {
        (Some(field), Some((thing, name))) => texts.field_of(field, thing, &name),
        (Some(field), None) => texts.the_field(field),
        (None, Some((thing, name))) => return texts.choice_of(thing, &name),
        (None, None) => return texts.a_choice.to_owned(),
    };
    match &said.value {
        Value::String(text) => texts.is_text(&what, &short(text)),
        Value::Number(number) => format!("{what}: {number}"),
        Value::Bool(yes) => texts.is_on(&what, *yes),
        _ => what,
    }
}

/// What one change decided. Where measures are tied, so that setting any one of them
/// comes to the same, a document has all of these.
pub(super) struct Decided<'a> {
    /// What is told of it: of numbers that move together the firmest, which
    /// stands first in the recipe.
    pub(super) first: Vec<&'a Said>,
    /// The measures that follow from that.
    pub(super) followed: Vec<MeasureId>,
}

impl<'a> Decided<'a> {
    pub(super) fn of(recipe: &Recipe, change: &[&'a Said]) -> Self {
        let place = |said: &&Said| {
            let (id, _) = number(said)?;
            let mut measures = recipe.measures.iter();
            Some(measures.position(|it| it.id == id).unwrap_or(usize::MAX))
        };
        let (mut numbers, others): (Vec<&Said>, Vec<&Said>) =
            change.iter().partition(|said| number(said).is_some());
        numbers.sort_by_key(place);
        let (mut first, mut followed) = (Vec::new(), Vec::new());
        let mut moved = BTreeSet::new();
        for said in numbers {
            let Some((id, value)) = number(said) else {
                continue;
            };
            if moved.contains(&id) {
                followed.push(id);
            } else {
                moved.extend(moved_with(recipe, id, value));
                first.push(said);
            }
        }
        first.extend(others);
        Self { first, followed }
    }

    /// It as the end of a sentence.
    pub(super) fn words(&self, recipe: &Recipe) -> String {
        let named = self.first.iter().take(MOST_NAMED);
        let named: Vec<_> = named.map(|said| words(recipe, said)).collect();
        named.join(", ")
    }

    /// One line of a notice, where it gave way: whose it was, and to what.
    pub(super) fn line(&self, recipe: &Recipe) -> Option<String> {
        let texts = &texts().merging;
        let said = self.first.first()?;
        let object = merged::object(recipe);
        let number = number(said).and_then(|(id, _)| recipe.measure(id));
        let now = number.map(|measure| {
            let value = recipe.notation.with_unit(measure.value);
            texts.is_now(&measure.name, &value)
        });
        let now = now.or_else(|| {
            let now = at(&object, &said.address)?.as_str()?;
            // The name of a photograph tells nobody anything.
            if now.parse::<PhotoId>().is_ok() {
                return None;
            }
            Some(texts.it_is_now(&short(now)))
        });
        let now = now.unwrap_or_else(|| texts.other_stays.to_owned());
        Some(texts.decided(device(&said.by), &self.words(recipe), &now))
    }
}

/// The measures that move as one is set to what it was decided to be; where it is
/// that, by one division of the ruler more or less.
fn moved_with(recipe: &Recipe, id: MeasureId, value: Length) -> Vec<MeasureId> {
    let (now, step) = (recipe.value(id), recipe.notation.step.length());
    let tried = [value, now + step, now - step].into_iter();
    let mut moves = tried.filter(|it| *it != now);
    let moved = moves.find_map(|value| recipe.clone().set(id, value).ok());
    let moved = moved.unwrap_or_default().into_iter();
    moved.map(|change| change.measure).collect()
}

/// The recipe with what was decided back in its place; or why not, in words.
pub(crate) fn restored(recipe: &Recipe, said: &Said) -> Result<Recipe, String> {
    let mut restored = recipe.clone();
    if let Some((id, value)) = number(said) {
        return match restored.set(id, value) {
            Ok(_) => Ok(restored),
            Err(why) => Err(speaker(recipe).refused(&why)),
        };
    }
    if let Some(without) = without(recipe, said) {
        return without.map_err(|why| speaker(recipe).refused(&why));
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
    let restored = from_value(&object).filter(|_| done);
    let restored = restored.filter(|restored| restored.check_kept().is_empty());
    let Some(mut restored) = restored else {
        return Err(texts().merging.what_is_gone.to_owned());
    };
    restored.ids = recipe.ids;
    Ok(restored)
}

/// The pieces and layers that are not there any more, as sentences call them.
pub(crate) fn gone(before: &Recipe, after: &Recipe) -> Vec<String> {
    let gone = parts(before).filter(|part| parts(after).all(|it| it != *part));
    let say = speaker(before);
    gone.map(|part| say.part(part)).collect()
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
        "lines" => without.remove_line(DrawnLineId(id)),
        "cutouts" => without.remove_cutout(CutoutId(id)),
        "pieces" => without.remove_piece(PieceId(id)),
        _ => return None,
    };
    Some(removed.map(|_| without))
}

/// What of an earlier state can be taken back by itself: numbers, names, notes and
/// photographs of steps that are others now.
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
    let [notes, photos] = BESIDE_STEPS;
    let notes = earlier.notes.keys().map(|step| (notes, step));
    let photos = earlier.photos.keys().map(|step| (photos, step));
    addresses.extend(notes.chain(photos).map(|(beside, step)| {
        let step = step
            .replace('%', "%25")
            .replace('.', "%2e")
            .replace('/', "%2f")
            .replace('~', "%7e");
        format!("{beside}{step}")
    }));
    let differs = |address: String| {
        let value = at(&before, &address)?;
        let is_beside = BESIDE_STEPS.iter().any(|it| address.starts_with(it));
        let is_there = is_beside || at(&now, &address).is_some();
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
        texts().merging.take_out(what)
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
    let texts = &texts().merging;
    match list.map(|(list, _)| list) {
        Some("measures") => texts.measurement,
        Some("panels") => texts.panel,
        Some("layers") => texts.layer,
        Some("lines") => texts.line,
        Some("cutouts") => texts.cutout,
        Some("pieces") => texts.piece,
        Some("stocks") => texts.paper,
        Some("folds") => texts.fold,
        Some("joins" | "flat") => texts.glue_place,
        _ => texts.choice,
    }
}

/// What a field is, in a maker's words.
fn field_words(field: &str) -> Option<&'static str> {
    let texts = &texts().merging;
    Some(match field {
        "name" => texts.name,
        "about" => texts.description,
        "copies" => texts.number_of_cards,
        "pinned" => texts.pin,
        "least" => texts.least_length,
        "most" => texts.greatest_length,
        "width" => texts.width,
        "height" => texts.height,
        "stock" => texts.paper,
        "runs" => texts.way_it_opens,
        "rests" => texts.panel_on_table,
        "scoring" => texts.way_to_score,
        "glue_margin" => texts.glue_margin,
        "lay" => texts.print_direction,
        "rule" => texts.clearance,
        "envelope" => texts.envelope,
        "caliper" => texts.caliper,
        "weight" => texts.weight,
        "outline" => texts.outline,
        "place" => texts.place,
        "on" => texts.panel_it_is_on,
        "bond" => texts.way_it_is_glued,
        "step" => texts.smallest_division,
        "decimal" => texts.decimal_mark,
        _ => return None,
    })
}
