//! Devices with a store each, and what passes between them.

mod erasing;
mod histories;
mod replay;

use std::cell::Cell;

use foldwright_document::Document;
use foldwright_document::frame::{self, Message};
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{
    Holds, Is, MOST_TEXT, Measure, MeasureId, Recipe, Relation, Term, starters,
};
use serde::Deserialize as _;
use serde_json::{Value, json};

use super::ledger::{Came, Change, Failed, Ledger, documents_in, names};
use super::name::SHELF;
use super::talk::Talk;
use super::{gave_way, merged, name};
use crate::store::{Joined, Memory, Progress, Refused, Shelf, joined_key, progress_key};

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
        let mut held = self.shelf.open(id).expect("a recipe");
        let mut recipe = held.saved().clone();
        change(&mut recipe);
        let never = || panic!("nobody else writes");
        let saved = self.shelf.save(&mut held, &recipe, never, self.clock);
        saved.expect("there is room");
        self.note(&name::of_recipe(id))
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

#[test]
fn a_full_store_loses_nothing_and_goes_on_later() {
    let (mut laptop, _) = two();
    let name = name::of_recipe("a1");
    let mut full = Device::with(Memory::with_room(9_000), 3);
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

#[test]
fn a_file_of_everything_brings_everything_back() {
    let (mut laptop, _) = two();
    laptop.change("a1", |recipe| recipe.copies = 3);
    let added = laptop.ledger.add_paper(&laptop.shelf, "7 9 Blue", 4);
    assert!(added.is_ok());
    let file = laptop.ledger.everything(&laptop.shelf);
    let documents = documents_in(&file).expect("such a file");
    let mut fresh = Device::new(5);
    fresh.take(&documents);
    assert_eq!(fresh.recipe("a1"), laptop.recipe("a1"));
    assert_eq!(fresh.ledger.paper(&fresh.shelf)["7 9 Blue"], 4);
    assert_eq!(fresh.ledger.past(&fresh.shelf, "a1").len(), 1);
    assert_eq!(documents_in("{}"), None);
    assert_eq!(documents_in("[1"), None);
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
    let server = Document::new(0);
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
        assert!(!said.answers.is_empty(), "everything is compared");
        let answers = talk.hear(ledger, shelf, &state, *clock).answers;
        assert_eq!(!answers.is_empty(), is_told, "{last}");
        for answer in answers {
            let Some((_, Message::Rest(rest))) = frame::read(&answer) else {
                panic!("it is an answer");
            };
            let copy = Document::open(1, &server.bytes()).expect("a document");
            copy.apply(rest).expect("a change");
            assert!(copy.graves().is_empty());
        }
    }
}

/// Takes in on each of two devices what the other has done meanwhile.
fn cross(laptop: &mut Device, phone: &mut Device, one: &[Change], other: &[Change]) {
    phone.take(one);
    laptop.take(other);
    assert_eq!(phone.recipe("a1"), laptop.recipe("a1"));
    assert_eq!(laptop.note_all(), [], "merging is nobody's own change");
    assert_eq!(phone.note_all(), []);
}

fn measure(recipe: &Recipe, name: &str) -> MeasureId {
    let found = recipe.measures.iter().find(|it| it.name == name);
    found.expect("a measure of that name").id
}

fn set(device: &mut Device, name: &str, value: Length) -> Vec<Change> {
    device.change("a1", |recipe| {
        let id = measure(recipe, name);
        recipe.set(id, value).expect("the change can be made");
    })
}

fn inches(text: &str) -> Length {
    let value = Value::from(format!("{text} in"));
    Length::deserialize(value).expect("a length")
}

/// By hand: of the card with one fold, the mat is as wide as the front, which
/// is half the strip, less two borders: 4 1/2 − 2 × 1/4 = 4.
#[test]
fn numbers_changed_apart_are_solved_together() {
    let (mut laptop, mut phone) = two();
    let one = set(&mut laptop, "mat border", inches("1/4"));
    let other = set(&mut phone, "strip length", inches("9"));
    cross(&mut laptop, &mut phone, &one, &other);
    let merged = phone.recipe("a1").expect("a recipe");
    assert_eq!(merged.broken(), []);
    for (name, value) in [
        ("mat border", "1/4"),
        ("strip length", "9"),
        ("mat width", "4"),
    ] {
        assert_eq!(
            merged.value(measure(&merged, name)),
            inches(value),
            "{name}"
        );
    }
    for device in [&laptop, &phone] {
        let joined = device.shelf.port().read(&joined_key("a1"));
        let joined = joined
            .and_then(|text| Joined::parse(&text))
            .expect("something to look at");
        assert_eq!(joined.decided.len(), 2, "{joined:?}");
        assert!(
            joined
                .became
                .iter()
                .any(|line| line.starts_with("mat width is 4 in now")),
            "{joined:?}"
        );
        assert!(joined.before().is_some() && !joined.looked);
    }

    // Who goes on from it writes what they saw, and that stays.
    let next = set(&mut laptop, "card height", inches("6"));
    phone.take(&next);
    assert_eq!(phone.recipe("a1"), laptop.recipe("a1"));
    let now = phone.recipe("a1").expect("a recipe");
    assert_eq!(now.value(measure(&now, "mat width")), inches("4"));
    let mut fresh = Device::new(9);
    let documents = documents_in(&laptop.ledger.everything(&laptop.shelf));
    let came = fresh.take(&documents.expect("a file"));
    assert_eq!(came, [Came::Recipe("a1".to_owned())]);
    assert_eq!(fresh.recipe("a1"), Some(now));
}

/// Every two numbers of a card that two devices change at once.
#[test]
fn any_two_numbers_go_together_or_it_is_said() {
    let start = some_recipe();
    let mut told = 0;
    for one in &start.measures {
        for other in &start.measures {
            let (mut laptop, mut phone) = two();
            let longer = |of: &Measure| of.value + inches("1/8");
            let change = |device: &mut Device, of: &Measure| {
                device.change("a1", |recipe| {
                    // Some numbers can't be moved by themselves.
                    let _ = recipe.set(of.id, longer(of));
                })
            };
            let here = change(&mut laptop, one);
            let there = change(&mut phone, other);
            let before = [laptop.recipe("a1"), phone.recipe("a1")];
            cross(&mut laptop, &mut phone, &here, &there);
            let merged = phone.recipe("a1").expect("a recipe");
            assert_eq!(merged.broken(), [], "{} and {}", one.name, other.name);
            let joined = phone.shelf.port().read(&joined_key("a1")).is_some();
            told += usize::from(joined);
            let lost = |of: &Measure, at: usize| {
                let before = before[at].as_ref().map(|it| it.value(of.id));
                before == Some(longer(of)) && merged.value(of.id) != longer(of)
            };
            if one.id != other.id && (lost(one, 0) || lost(other, 1)) {
                assert!(joined, "{} and {}", one.name, other.name);
            }
        }
    }
    assert!(told > 0, "some pairs have to be solved again");
}

/// What one maker left as it is stays so, even if it could be solved.
#[test]
fn nobody_solves_what_one_maker_made() {
    let (mut laptop, mut phone) = two();
    let odd = laptop.change("a1", |recipe| {
        let id = measure(recipe, "mat width");
        let mut measures = recipe.measures.iter_mut();
        let mat = measures.find(|it| it.id == id).expect("the mat");
        mat.value = inches("3");
    });
    let named = phone.change("a1", |recipe| recipe.name = "Harbour".to_owned());
    cross(&mut laptop, &mut phone, &odd, &named);
    let merged = phone.recipe("a1").expect("a recipe");
    assert_eq!(merged.value(measure(&merged, "mat width")), inches("3"));
}

/// Two rules that contradict each other: one of them goes, and that is said.
#[test]
fn rules_that_contradict_each_other_are_told() {
    let (mut laptop, mut phone) = two();
    let fix = |device: &mut Device, value: &str| {
        device.change("a1", |recipe| {
            let id = measure(recipe, "card height");
            recipe.set(id, inches(value)).expect("a height");
            recipe.relations.push(Relation {
                left: vec![Term { times: 1, of: id }],
                is: Is::Equal,
                right: Vec::new(),
                plus: inches(value),
                holds: Holds::Must,
            });
        })
    };
    let one = fix(&mut laptop, "6");
    let other = fix(&mut phone, "7");
    cross(&mut laptop, &mut phone, &one, &other);
    let merged = phone.recipe("a1").expect("a recipe");
    assert_eq!(merged.broken(), []);
    let joined = laptop.shelf.port().read(&joined_key("a1"));
    let joined = joined
        .and_then(|text| Joined::parse(&text))
        .expect("something to look at");
    assert!(
        joined
            .became
            .iter()
            .any(|line| line.contains("contradicts")),
        "{joined:?}"
    );
}

/// Five presses here, five there, whatever was counted before.
#[test]
fn what_is_done_for_some_cards_adds_up() {
    let (mut laptop, mut phone) = two();
    let change = |device: &mut Device, change: &dyn Fn(&mut Progress)| {
        let key = progress_key("a1");
        let kept = device.shelf.port().read(&key);
        let mut progress = kept
            .and_then(|text| Progress::parse(&text))
            .unwrap_or_default();
        change(&mut progress);
        device
            .shelf
            .port()
            .write(&key, &progress.text())
            .expect("room");
        device.note("bench/a1")
    };
    let press = |step: &'static str, by: i64| {
        move |progress: &mut Progress| {
            let count = progress.done.entry(step.to_owned()).or_insert(0);
            *count = u32::try_from(i64::from(*count) + by).expect("not below nothing");
        }
    };
    let done = |device: &Device| {
        let text = device.shelf.port().read(&progress_key("a1"));
        Progress::parse(&text.expect("progress"))
            .expect("progress")
            .done
    };
    // Written by a device that knew of no counts.
    let mut old = Document::new(77);
    let update = old.write(
        &Value::Null,
        &json!({ "step": "cut", "done": { "cut": 3 } }),
    );
    let update = [("bench/a1".to_owned(), update.expect("a change"))];
    laptop.take(&update);
    phone.take(&update);
    assert_eq!(done(&phone)["cut"], 3);

    let mut one = Vec::new();
    let mut other = Vec::new();
    for _ in 0..5 {
        one.extend(change(&mut laptop, &press("cut", 1)));
        other.extend(change(&mut phone, &press("cut", 1)));
        other.extend(change(&mut phone, &press("score", 1)));
    }
    one.extend(change(&mut laptop, &press("score", 2)));
    phone.reopen();
    one.extend(change(&mut laptop, &press("score", -1)));
    phone.take(&one);
    laptop.take(&other);
    for device in [&laptop, &phone] {
        assert_eq!(done(device)["cut"], 13);
        assert_eq!(done(device)["score"], 6);
    }
    assert_eq!(laptop.note_all(), []);

    // Both begin anew at once, and then one press is one.
    let anew = |progress: &mut Progress| *progress = Progress::default();
    let one = change(&mut laptop, &anew);
    let other = change(&mut phone, &anew);
    phone.take(&one);
    laptop.take(&other);
    let one = change(&mut laptop, &press("cut", 1));
    let other = change(&mut phone, &press("cut", 1));
    phone.take(&one);
    laptop.take(&other);
    for device in [&laptop, &phone] {
        assert_eq!(done(device), [("cut".to_owned(), 2)].into());
    }

    // More taken back than there are shows nothing, and the next press counts.
    let one = change(&mut laptop, &press("cut", -2));
    let other = change(&mut phone, &press("cut", -2));
    phone.take(&one);
    laptop.take(&other);
    assert_eq!(done(&phone)["cut"], 0);
    let one = change(&mut laptop, &press("cut", 1));
    phone.take(&one);
    for device in [&laptop, &phone] {
        assert_eq!(done(device)["cut"], 1);
    }
}

/// Two notes that are as long as a note can be come together: nothing is lost,
/// and the recipe can be read.
#[test]
fn notes_that_come_together_too_long_keep_the_recipe_readable() {
    let (mut laptop, mut phone) = two();
    let write = |device: &mut Device, letter: &str| {
        device.change("a1", |recipe| {
            let note = letter.repeat(MOST_TEXT);
            recipe.notes.insert("gather".to_owned(), note);
        })
    };
    let one = write(&mut laptop, "ä");
    let other = write(&mut phone, "o");
    cross(&mut laptop, &mut phone, &one, &other);
    let shown = laptop.recipe("a1").expect("a recipe").notes["gather"].clone();
    assert_eq!(shown.chars().count(), MOST_TEXT);
    let joined = laptop.shelf.port().read(&joined_key("a1"));
    assert!(joined.is_some_and(|joined| joined.contains("4000 characters")));
    // As it is made shorter, the rest shows.
    let less = laptop.change("a1", |recipe| {
        let note = recipe.notes.get_mut("gather").expect("a note");
        *note = note.chars().skip(MOST_TEXT - 10).collect();
    });
    phone.take(&less);
    let rest = phone.recipe("a1").expect("a recipe").notes["gather"].clone();
    assert_eq!(rest.chars().count(), MOST_TEXT);
    assert_eq!(rest.chars().filter(|it| shown.starts_with(*it)).count(), 10);
}

/// What gave way is in the history of both, by whom and when, and can be used
/// after all.
#[test]
fn what_gives_way_is_kept_and_told() {
    let (mut laptop, mut phone) = (Device::called(1, "Laptop"), Device::called(2, "Phone"));
    laptop.shelf.put("a1", &some_recipe(), 5).expect("room");
    let changes = laptop.note_all();
    phone.take(&changes);
    let named = |device: &mut Device, name: &str| {
        device.change("a1", |recipe| recipe.name = name.to_owned())
    };
    let one = named(&mut laptop, "Harbour");
    let other = named(&mut phone, "Quay");
    cross(&mut laptop, &mut phone, &one, &other);
    let now = laptop.recipe("a1").expect("a recipe");
    let (lost, by) = match &*now.name {
        "Quay" => ("Harbour", "Laptop"),
        _ => ("Quay", "Phone"),
    };
    for device in [&mut laptop, &mut phone] {
        let kept = device.ledger.lost(&device.shelf, "a1");
        assert_eq!(kept.len(), 1, "{kept:?}");
        assert_eq!((&kept[0].value, &*kept[0].by), (&json!(lost), by));
        assert!(kept[0].at > 0);
        let line = format!("{by} decided the name: “{lost}”; it is “{}” now.", now.name);
        let joined = device.shelf.port().read(&joined_key("a1"));
        let joined = joined
            .and_then(|text| Joined::parse(&text))
            .expect("something to look at");
        assert_eq!(joined.became, [line]);
        let back = gave_way::restored(&now, &kept[0]).expect("a name can be given");
        assert_eq!(back.name, lost);
    }
    // It is told once.
    let more = laptop.change("a1", |recipe| recipe.copies = 5);
    let came = phone.take(&more);
    assert_eq!(came, [Came::Recipe("a1".to_owned())]);
    // Who changes it knowing of both leaves nothing behind but the history.
    let last = named(&mut laptop, "Pier");
    phone.take(&last);
    let past = laptop.ledger.take_own();
    phone.take(&past);
    assert_eq!(phone.ledger.lost(&phone.shelf, "a1").len(), 1);
}

#[test]
fn a_panel_renamed_here_and_removed_there_comes_back() {
    let (mut laptop, mut phone) = two();
    let panel = some_recipe().base.panels[0].id;
    let gone = laptop.change("a1", |recipe| {
        recipe.remove_panel(panel).expect("a panel less");
    });
    let named = phone.change("a1", |recipe| {
        recipe.rename_panel(panel, "cover").expect("another name");
    });
    cross(&mut laptop, &mut phone, &gone, &named);
    let merged = laptop.recipe("a1").expect("a recipe");
    let back = merged.base.panels.iter().find(|it| it.id == panel);
    assert_eq!(back.map(|it| &*it.name), Some("cover"));
    assert_eq!(merged.broken(), []);
    for device in [&mut laptop, &mut phone] {
        let kept = device.ledger.lost(&device.shelf, "a1");
        let removal = kept
            .iter()
            .find(|it| !it.there && it.address.starts_with("base.panels/"));
        let removal = removal.expect("the removal gave way");
        assert_eq!(
            gave_way::words(&merged, removal),
            "to take out panel “front”"
        );
    }
    // Taken out once more by one who has seen it, it stays out.
    let gone = laptop.change("a1", |recipe| {
        recipe.remove_panel(panel).expect("a panel less");
    });
    phone.take(&gone);
    let merged = phone.recipe("a1").expect("a recipe");
    assert!(merged.base.panels.iter().all(|it| it.id != panel));
    assert_eq!(laptop.recipe("a1"), Some(merged));
}

#[test]
fn a_deleted_recipe_that_returns_says_why() {
    let (mut laptop, mut phone) = two();
    laptop.shelf.delete("a1");
    let gone = laptop.note_all();
    let changed = phone.change("a1", |recipe| recipe.copies = 7);
    let outlived = Came::Outlived("a1".to_owned());
    assert!(phone.take(&gone).contains(&outlived));
    assert!(laptop.take(&changed).contains(&outlived));
    // Brought back by somebody, it needs no words.
    laptop.shelf.delete("a1");
    let gone = laptop.note_all();
    assert!(!phone.take(&gone).contains(&outlived));
    let back = phone
        .ledger
        .bring_back(&phone.shelf, "a1", phone.clock)
        .expect("room");
    assert!(!laptop.take(&back).contains(&outlived));
    assert!(laptop.recipe("a1").is_some());
}

/// One's own change is undone on top of what others have done since.
#[test]
fn undoing_leaves_what_came_from_elsewhere() {
    let before = some_recipe();
    let mut mine = before.clone();
    mine.set(measure(&mine, "mat border"), inches("1/4"))
        .expect("a border");
    let mut theirs = mine.clone();
    theirs.name = "Harbour".to_owned();
    theirs
        .set(measure(&theirs, "card height"), inches("6"))
        .expect("a height");
    let undone = gave_way::carried(&mine, &theirs, &before).expect("a recipe");
    assert_eq!(undone.broken(), []);
    assert_eq!(undone.name, "Harbour");
    for (name, value) in [
        ("mat border", "1/8"),
        ("card height", "6"),
        ("mat height", "5 3/4"),
    ] {
        assert_eq!(
            undone.value(measure(&undone, name)),
            inches(value),
            "{name}"
        );
    }
    // What they have made of the very same stays as they made it.
    theirs
        .set(measure(&theirs, "mat border"), inches("3/8"))
        .expect("a border");
    let undone = gave_way::carried(&mine, &theirs, &before).expect("a recipe");
    assert_eq!(undone.value(measure(&undone, "mat border")), inches("3/8"));
}
