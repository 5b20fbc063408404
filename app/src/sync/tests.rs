//! Devices with a store each, and what passes between them.

mod apart;
mod erasing;
mod histories;
mod keeping;
mod known;
mod large;
mod limits;
mod logs;
mod noting;
mod photographs;
mod replay;
mod together;

use std::cell::Cell;
use std::num::NonZeroU32;

use foldwright_document::Document;
use foldwright_document::frame::{self, Message};
use foldwright_engine::paper::{Money, Pack};
use foldwright_engine::recipe::{Recipe, starters};
use foldwright_words::Language;
use serde_json::{Value, json};

use super::ledger::{
    Came, Change, EVERYTHING, Failed, Ledger, around_documents, document_in, names,
};
use super::name::SHELF;
use super::syncing::Sound;
use super::talk::Talk;
use super::{merged, name};
use crate::import::split::{Part, Splitter};
use crate::store::{Memory, Port as _, Progress, Refused, Shelf, progress_key, recipe_key};

thread_local! {
    static WRITERS: Cell<u64> = const { Cell::new(1) };
}

fn writer() -> u64 {
    WRITERS.with(|writers| {
        writers.set(writers.get() + 1);
        writers.get()
    })
}

const MINUTE: u64 = 60 * 1000;
const DAY: u64 = 24 * 60 * MINUTE;

struct Device {
    shelf: Shelf,
    ledger: Ledger,
    clock: u64,
    name: String,
}

impl Device {
    fn new(tab: u32) -> Self {
        Self::with(Memory::default(), tab)
    }

    fn with(memory: Memory, tab: u32) -> Self {
        Self {
            shelf: Shelf::new(Box::new(memory), tab),
            ledger: Ledger::new(writer),
            clock: 1_000 * DAY,
            name: "here".to_owned(),
        }
    }

    fn called(tab: u32, name: &str) -> Self {
        let name = name.to_owned();
        Self {
            name,
            ..Self::new(tab)
        }
    }

    /// Forgets what is at hand, as a page does that is closed.
    fn reopen(&mut self) {
        self.ledger = Ledger::new(writer);
    }

    fn note(&mut self, name: &str) -> Vec<Change> {
        self.clock += 20 * MINUTE;
        let noted = self.ledger.note(&self.shelf, name, self.clock, &self.name);
        noted.expect("there is room")
    }

    fn note_all(&mut self) -> Vec<Change> {
        let names = names(&self.shelf);
        names.iter().flat_map(|name| self.note(name)).collect()
    }

    fn take(&mut self, changes: &[Change]) -> Vec<Came> {
        let take = |(name, update): &Change| {
            let came = self.ledger.take(&self.shelf, name, update, self.clock);
            came.expect("a change that can be taken in")
        };
        changes.iter().flat_map(take).collect()
    }

    fn change(&mut self, id: &str, change: impl FnOnce(&mut Recipe)) -> Vec<Change> {
        self.keep(id, change);
        self.note(&name::of_recipe(id))
    }

    /// Changes a recipe without noting it.
    fn keep(&mut self, id: &str, change: impl FnOnce(&mut Recipe)) {
        let mut held = self.shelf.open(id).expect("a recipe");
        let mut recipe = held.saved().clone();
        change(&mut recipe);
        let never = || panic!("nobody else writes");
        let saved = self.shelf.save(&mut held, &recipe, never, self.clock);
        saved.expect("there is room");
    }

    /// A file of everything this device has.
    fn everything(&mut self) -> String {
        let [before, between, after] = around_documents();
        let names = names(&self.shelf).into_iter();
        let documents = names.map(|name| self.ledger.document_part(&self.shelf, &name));
        let documents: Vec<_> = documents.collect();
        format!("{before}{}{after}", documents.join(&between))
    }

    fn recipe(&self, id: &str) -> Option<Recipe> {
        Some(self.shelf.load(id).ok()?.recipe)
    }
}

fn some_recipe() -> Recipe {
    starters()
        .first()
        .expect("there are starters")
        .recipe
        .clone()
}

/// Two devices that have the recipe "a1".
fn two() -> (Device, Device) {
    let (mut laptop, mut phone) = (Device::new(1), Device::new(2));
    laptop.shelf.put("a1", &some_recipe(), 5).expect("room");
    let changes = laptop.note_all();
    let came = phone.take(&changes);
    assert_eq!(came, [Came::Recipe("a1".to_owned())]);
    assert_eq!(phone.recipe("a1"), laptop.recipe("a1"));
    (laptop, phone)
}

/// The same shelf in a browser with no room left.
fn filled(shelf: &Shelf) -> Shelf {
    let memory = Memory::with_room(shelf.taken());
    for key in shelf.port().keys() {
        let text = shelf.port().read(&key).expect("it is there");
        memory.write(&key, &text).expect("there is room");
    }
    Shelf::new(Box::new(memory), 1)
}

#[test]
fn what_was_kept_before_there_were_documents_comes_along() {
    let (mut laptop, mut phone) = two();
    assert_eq!(laptop.note_all(), []);
    assert_eq!(phone.note_all(), []);
    laptop.reopen();
    assert_eq!(laptop.note_all(), [], "nothing is noted twice");
}

#[test]
fn changes_made_apart_come_together() {
    let (mut laptop, mut phone) = two();
    let one = laptop.change("a1", |recipe| recipe.name = "Harbour".to_owned());
    let other = phone.change("a1", |recipe| {
        recipe.copies = 30;
        recipe
            .notes
            .insert("gather".to_owned(), "the blue one".to_owned());
    });
    phone.reopen();
    phone.take(&one);
    laptop.take(&other);
    let merged = laptop.recipe("a1").expect("a recipe");
    assert_eq!(phone.recipe("a1").as_ref(), Some(&merged));
    assert_eq!((&*merged.name, merged.copies), ("Harbour", 30));
    assert_eq!(merged.notes["gather"], "the blue one");
    // What merging wrote is nobody's own change.
    assert_eq!(laptop.note_all(), []);
    assert_eq!(phone.note_all(), []);
    // Twice, and late: nothing more happens.
    assert_eq!(laptop.take(&other), []);
}

#[test]
fn what_is_deleted_can_be_brought_back_for_thirty_days() {
    let (mut laptop, mut phone) = two();
    laptop.shelf.delete("a1");
    let gone = laptop.note_all();
    let came = phone.take(&gone);
    assert!(came.contains(&Came::Deleted("a1".to_owned())), "{came:?}");
    assert_eq!(phone.recipe("a1"), None);
    assert_eq!(phone.note_all(), []);
    let deleted = phone.ledger.deleted(&phone.shelf, phone.clock);
    assert_eq!(deleted.len(), 1);
    assert_eq!(deleted[0].title, some_recipe().name);
    let late = phone.ledger.deleted(&phone.shelf, phone.clock + 31 * DAY);
    assert_eq!(late, []);

    let back = phone.ledger.bring_back(&phone.shelf, "a1", phone.clock);
    laptop.take(&back.expect("room"));
    assert_eq!(phone.recipe("a1"), Some(some_recipe()));
    assert_eq!(laptop.recipe("a1"), Some(some_recipe()));
    assert_eq!(laptop.ledger.deleted(&laptop.shelf, laptop.clock), []);
}

/// What a browser takes away, be it all or only recipes, must not count as the
/// maker's doing, and have it deleted everywhere.
#[test]
fn what_the_browser_clears_is_not_deleted() {
    let recipe = name::of_recipe("a1");
    for all in [true, false] {
        let (mut laptop, mut phone) = two();
        for key in phone.shelf.port().keys() {
            if all || name::of_key(&key).as_ref() == Some(&recipe) {
                phone.shelf.port().remove(&key);
            }
        }
        let found = phone.ledger.find_again(&phone.shelf, &recipe, DAY);
        let again = (!all).then(|| Came::Recipe("a1".to_owned()));
        assert_eq!(found, Ok(again.into_iter().collect()));
        assert_eq!(phone.recipe("a1"), (!all).then(some_recipe));
        let noted = phone.note(&recipe);
        assert_eq!(noted, []);
        laptop.take(&noted);
        assert_eq!(laptop.recipe("a1"), Some(some_recipe()));
    }
}

#[test]
fn what_is_deleted_by_hand_stays_deleted_however_full_it_is() {
    let recipe = name::of_recipe("a1");
    let (mut laptop, mut phone) = two();
    let other = "something else";
    let port = laptop.shelf.port();
    port.write(other, &"x".repeat(5000)).expect("there is room");
    laptop.shelf = filled(&laptop.shelf);
    laptop.reopen();
    laptop.shelf.delete("a1");
    assert!(laptop.shelf.was_deleted("a1"), "there is room for the mark");
    // For telling it there may be none until something else goes.
    laptop.shelf.port().remove(other);
    let found = laptop.ledger.find_again(&laptop.shelf, &recipe, DAY);
    assert_eq!(found, Ok(Vec::new()));
    let gone = laptop.note_all();
    phone.take(&gone);
    assert_eq!((laptop.recipe("a1"), phone.recipe("a1")), (None, None));
    let marks = |device: &Device| device.shelf.was_deleted("a1");
    assert!(!marks(&laptop) && !marks(&phone), "it is noted");
    let found = laptop.ledger.find_again(&laptop.shelf, &recipe, DAY);
    assert_eq!(found, Ok(Vec::new()));
}

#[test]
fn undoing_a_deletion_is_told_too() {
    let (mut laptop, mut phone) = two();
    let text = laptop.shelf.delete("a1").expect("it was there");
    let gone = laptop.note_all();
    phone.take(&gone);
    laptop.shelf.put_back("a1", &text).expect("room");
    let back = laptop.note_all();
    phone.take(&back);
    assert_eq!(phone.recipe("a1"), laptop.recipe("a1"));
    assert!(phone.recipe("a1").is_some());
}

#[test]
fn a_change_nobody_had_seen_outlives_a_deletion() {
    let (mut laptop, mut phone) = two();
    laptop.shelf.delete("a1");
    let gone = laptop.note_all();
    let changed = phone.change("a1", |recipe| recipe.copies = 7);
    phone.take(&gone);
    laptop.take(&changed);
    for device in [&phone, &laptop] {
        assert_eq!(device.recipe("a1").map(|recipe| recipe.copies), Some(7));
    }
}

#[test]
fn progress_at_the_bench_crosses_over_and_adds_up() {
    let (mut laptop, mut phone) = two();
    let done = |device: &mut Device, step: &str, count: u32| {
        let key = progress_key("a1");
        let kept = device.shelf.port().read(&key);
        let mut progress = kept
            .and_then(|text| Progress::parse(&text))
            .unwrap_or_default();
        progress.done.insert(step.to_owned(), count);
        let kept = device.shelf.port().write(&key, &progress.text());
        kept.expect("room");
        device.note("bench/a1")
    };
    let first = done(&mut laptop, "cut", 4);
    assert_eq!(phone.take(&first), [Came::Bench("a1".to_owned())]);
    let one = done(&mut laptop, "score", 2);
    let other = done(&mut phone, "glue", 3);
    laptop.take(&other);
    phone.take(&one);
    let at = |device: &Device| device.shelf.port().read(&progress_key("a1"));
    assert_eq!(at(&laptop), at(&phone));
    let progress = Progress::parse(&at(&phone).expect("progress")).expect("progress");
    let expected = [("cut", 4), ("glue", 3), ("score", 2)];
    assert_eq!(
        progress.done,
        expected
            .map(|(step, count)| (step.to_owned(), count))
            .into()
    );
}

#[test]
fn paper_that_two_take_at_once_adds_up() {
    let (mut laptop, mut phone) = two();
    let add = |device: &mut Device, by| {
        let added = device.ledger.add_paper(&device.shelf, "7 9 Blue card", by);
        added.expect("room")
    };
    let brought = add(&mut laptop, 20);
    phone.take(&brought);
    phone.reopen();
    let one = add(&mut laptop, -3);
    let other = add(&mut phone, -5);
    laptop.take(&other);
    phone.take(&one);
    for device in [&mut laptop, &mut phone] {
        let paper = device.ledger.paper(&device.shelf);
        assert_eq!(paper["7 9 Blue card"], 12);
    }
}

#[test]
fn what_a_pack_costs_is_known_everywhere() {
    let (mut laptop, mut phone) = two();
    let pack = |hundredths| Pack {
        price: Money::hundredths(hundredths),
        sheets: NonZeroU32::new(25).expect("some"),
    };
    let set = |device: &mut Device, paper: &str, pack| {
        let set = device.ledger.set_pack(&device.shelf, paper, pack);
        set.expect("room")
    };
    let priced = set(&mut laptop, "7 9 Blue card", Some(pack(1150)));
    phone.take(&priced);
    phone.reopen();
    // Prices of two papers, given at once, both stay; counts are no prices.
    let one = set(&mut laptop, "7 9 Red card", Some(pack(900)));
    let other = set(&mut phone, "7 9 Blue card", Some(pack(1250)));
    let counted = phone.ledger.add_paper(&phone.shelf, "7 9 Blue card", 3);
    laptop.take(&other);
    laptop.take(&counted.expect("room"));
    phone.take(&one);
    let blue = ("7 9 Blue card".to_owned(), pack(1250));
    let red = ("7 9 Red card".to_owned(), pack(900));
    for device in [&mut laptop, &mut phone] {
        let packs = device.ledger.packs(&device.shelf);
        assert_eq!(packs, [blue.clone(), red.clone()].into());
        assert_eq!(device.ledger.paper(&device.shelf).len(), 1);
    }
    let forgotten = set(&mut phone, "7 9 Red card", None);
    laptop.take(&forgotten);
    assert_eq!(laptop.ledger.packs(&laptop.shelf), [blue].into());
}

#[test]
fn a_recipe_has_a_past() {
    let (mut laptop, mut phone) = two();
    let mut changes = laptop.change("a1", |recipe| recipe.name = "one".to_owned());
    changes.extend(laptop.change("a1", |recipe| recipe.name = "two".to_owned()));
    phone.take(&changes);
    let past = phone.ledger.past(&phone.shelf, "a1");
    let names: Vec<_> = past.iter().map(|(_, recipe)| &*recipe.name).collect();
    assert_eq!(names, ["one", &*some_recipe().name]);
    assert_eq!(past[0].0.by, "here");
    assert!(past[0].0.at > past[1].0.at);
}

/// What a later version adds is passed on by an older one that does not know
/// of it, and a later form is not shown at all.
#[test]
fn what_later_versions_write_is_not_damaged() {
    let (mut laptop, mut phone) = two();
    let mut later = Document::new(99);
    let name = name::of_recipe("a1");
    let bytes = laptop
        .ledger
        .since(&laptop.shelf, &name, &Document::new(1).state());
    later
        .apply(&bytes.expect("a state").expect("something"))
        .expect("a document");
    let old = later.read().0.expect("a recipe");
    let mut new = old.clone();
    new["ribbon"] = json!({ "width": "1 in" });
    new["base"]["sheen"] = json!("silk");
    let update = later.write(&old, &new).expect("a change");
    let change = [(name.clone(), update)];
    laptop.take(&change);
    let renamed = laptop.change("a1", |recipe| recipe.name = "renamed".to_owned());
    later.apply(&renamed[0].1).expect("a change");
    let object = later.read().0.expect("a recipe");
    assert_eq!(object["name"], "renamed");
    assert_eq!(object["ribbon"], json!({ "width": "1 in" }));
    assert_eq!(object["base"]["sheen"], "silk");

    let mut newer = object.clone();
    newer["format"] = json!(99);
    newer["name"] = json!("of the future");
    let update = later.write(&object, &newer).expect("a change");
    let before = phone.recipe("a1");
    phone.take(&change);
    phone.take(&[(name, update)]);
    assert_eq!(phone.recipe("a1"), before);
    assert_eq!(phone.note_all(), []);
}

/// A document from before measures knew their part says it by names. The first
/// edit writes what was known by them, and a rename in another language finds the
/// measures ever after.
#[test]
fn measures_of_an_older_document_know_their_part() {
    let recipe = some_recipe();
    let mut older = merged::object(&recipe);
    older["format"] = json!(3);
    let measures = older["measures"].as_array_mut().expect("it has measures");
    for measure in measures.iter_mut().filter_map(Value::as_object_mut) {
        measure.remove("of");
    }
    let mut document = Document::new(99);
    document.write(&Value::Null, &older).expect("a recipe");
    let read = merged::recipe(&document).expect("it is whole").recipe;
    assert_eq!(read, recipe);
    // So does what an older page kept of earlier changes.
    assert_eq!(merged::whole(&older).as_ref(), Some(&recipe));
    let layer = read.layers[0].id;
    let mut renamed = read.clone();
    let naming = Language::German.tongue();
    renamed
        .rename_layer(layer, "Meer", naming)
        .expect("it is there");
    let [old, new] = [&read, &renamed].map(merged::object);
    merged::write(&mut document, [&old, &new], [None, None], 1, "here").expect("a change");
    assert_eq!(
        merged::recipe(&document).expect("it is whole").recipe,
        renamed
    );
    let held = document.read().0.expect("a recipe");
    for (measure, is) in renamed
        .measures
        .iter()
        .zip(held["measures"].as_array().expect("a list"))
    {
        let of = serde_json::to_value(measure.of).expect("plain data");
        assert_eq!(
            is.get("of").unwrap_or(&Value::Null),
            &of,
            "{}",
            measure.name
        );
    }
    assert!(renamed.measures.iter().any(|it| it.name == "Rand Meer"));
}

#[test]
fn a_full_store_loses_nothing_and_goes_on_later() {
    let (mut laptop, _) = two();
    let name = name::of_recipe("a1");
    let key = recipe_key("a1");
    let recipe = laptop.shelf.port().read(&key).expect("it is there");
    let units = [&key, &recipe].map(|text| text.encode_utf16().count() as u64);
    let room = units.iter().sum::<u64>() + 100;
    let mut full = Device::with(Memory::with_room(room), 3);
    let everything = laptop
        .ledger
        .since(&laptop.shelf, &name, &Document::new(1).state());
    let everything = everything.expect("a state").expect("something");
    let came = full.ledger.take(&full.shelf, &name, &everything, 5);
    assert_eq!(came, Err(Failed::Refused));
    // The recipe came first and is there; what is noted then adds nothing.
    full.reopen();
    let noted = full.ledger.note(&full.shelf, &name, 5, "");
    assert_eq!(noted, Err(Refused::Full));
}

/// The documents in a file of everything.
fn documents_in(file: &str) -> Option<Vec<Change>> {
    let mut splitter = Splitter::new(&[EVERYTHING]);
    splitter.feed(file.as_bytes()).ok()?;
    let file = splitter.end().ok()?;
    let sound = |part: &Part| Sound::read(&part.text).is_some();
    assert!(file.parts.iter().all(sound), "all can be merged");
    file.parts
        .iter()
        .map(|part| document_in(&part.text))
        .collect()
}

#[test]
fn a_file_of_everything_brings_everything_back() {
    let (mut laptop, _) = two();
    laptop.change("a1", |recipe| recipe.copies = 3);
    let added = laptop.ledger.add_paper(&laptop.shelf, "7 9 Blue", 4);
    assert!(added.is_ok());
    let file = laptop.everything();
    let documents = documents_in(&file).expect("such a file");
    let mut fresh = Device::new(5);
    fresh.take(&documents);
    assert_eq!(fresh.recipe("a1"), laptop.recipe("a1"));
    assert_eq!(fresh.ledger.paper(&fresh.shelf)["7 9 Blue"], 4);
    assert_eq!(fresh.ledger.past(&fresh.shelf, "a1").len(), 1);
    // One that is damaged anywhere is refused before any of it is taken.
    for damage in ["", "?", "AP8=", "/////w=="] {
        let damaged = format!("\"recipe/a1\":\"{damage}\"");
        assert_eq!(Sound::read(&damaged), None, "{damage}");
    }
    assert_eq!(Sound::read("\"recipe/a1\":7"), None);
}

#[test]
fn nonsense_is_refused() {
    let mut laptop = Device::new(1);
    for bytes in [&b""[..], b"\xff\xff\xff\xff", &[1; 40]] {
        let came = laptop.ledger.take(&laptop.shelf, "recipe/a1", bytes, 5);
        assert_eq!(came, Err(Failed::Malformed), "{bytes:?}");
    }
    let mut other = Document::new(3);
    let update = other
        .write(&Value::Null, &json!({ "name": 5 }))
        .expect("a change");
    assert_eq!(laptop.take(&[("recipe/a1".to_owned(), update)]), []);
    assert_eq!(laptop.recipe("a1"), None);
    assert_eq!(merged::recipe(&other), Err(merged::NoRecipe::Unsound));
}

/// What was taken away is told to a server that was put back to before.
#[test]
fn a_server_from_a_backup_hears_again_what_was_taken_away() {
    let mut laptop = Device::new(1);
    laptop.shelf.put("a1", &some_recipe(), 5).expect("room");
    laptop.note_all();
    let text = laptop.shelf.delete("a1").expect("it was there");
    let mut server = Document::new(0);
    for (_, update) in laptop.note_all().iter().filter(|(of, _)| of == SHELF) {
        server.apply(update).expect("a change");
    }
    assert_eq!(server.graves().len(), 1);
    laptop.shelf.put_back("a1", &text).expect("room");
    laptop.note_all();
    let turn = laptop.ledger.turn(SHELF);
    let sent = laptop.ledger.sent(&laptop.shelf, SHELF, turn);
    sent.expect("there is room");

    let state = frame::write(SHELF, Message::State(&server.state()));
    let restored = 7 + (1_i64 << 32);
    for (last, is_told) in [(8, false), (restored, true), (3, true)] {
        let Device {
            shelf,
            ledger,
            clock,
            ..
        } = &mut laptop;
        let (mut talk, _) = Talk::begin("key", 7);
        let said = talk.said(ledger, shelf, &json!({ "last": last }).to_string());
        assert_eq!(said.compare, Some(is_told), "everything is compared");
        if is_told {
            ledger.doubt(shelf, SHELF).expect("there is room");
        }
        let asked = talk.compare(ledger, shelf, SHELF);
        assert!(matches!(
            frame::read(&asked[0]),
            Some((SHELF, Message::State(_)))
        ));
        let answers = talk.hear(ledger, shelf, &state, *clock).answers;
        assert_eq!(!answers.is_empty(), is_told, "{last}");
        for answer in answers {
            let Some((_, Message::Rest(rest))) = frame::read(&answer) else {
                panic!("it is an answer");
            };
            let mut copy = Document::open(1, &server.bytes()).expect("a document");
            copy.apply(rest).expect("a change");
            assert!(copy.graves().is_empty());
        }
    }
}
