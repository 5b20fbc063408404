//! Generated histories of several devices: whatever is lost, doubled and out
//! of order on the way, every device ends with the same, and with every change
//! that was kept anywhere. `HISTORIES` sets how many, `SEED` the first.

#![expect(
    clippy::expect_used,
    clippy::unwrap_used,
    reason = "a test may stop where its own pieces do not fit"
)]

mod dice;

use std::collections::{BTreeMap, BTreeSet};

use dice::Dice;
use foldwright_document::{Document, Oddity, mend};
use foldwright_engine::recipe::{Recipe, starters};
use serde::Deserialize as _;
use serde_json::{Value, json};

impl Dice {
    fn once_in(&mut self, bound: usize) -> bool {
        self.below(bound) == 0
    }
}

/// One open page on a device.
struct Tab {
    document: Document,
    view: Value,
}

#[derive(Default)]
struct Device {
    /// What the device keeps; an update in here is an acknowledged one.
    kept: Vec<Vec<u8>>,
    tabs: Vec<Tab>,
    inbox: Vec<Vec<u8>>,
    outbox: Vec<Vec<u8>>,
    offline: bool,
}

impl Device {
    fn open(&mut self, dice: &mut Dice) {
        let mut document = Document::new(dice.next());
        for update in &self.kept {
            document.apply(update).expect("what was kept can be read");
        }
        let view = shown(&document);
        self.tabs.push(Tab { document, view });
    }

    /// Takes in what came from elsewhere: in all tabs, and to be kept.
    fn take(&mut self, update: &[u8]) {
        for tab in &mut self.tabs {
            tab.document.apply(update).expect("a peer sends updates");
        }
        self.kept.push(update.to_vec());
    }

    /// A change made in one tab: kept, told to the other tabs, to be sent.
    fn made(&mut self, tab: usize, update: Vec<u8>) {
        for (at, other) in self.tabs.iter_mut().enumerate() {
            if at != tab {
                other.document.apply(&update).expect("a tab sends updates");
            }
        }
        self.kept.push(update.clone());
        self.outbox.push(update);
    }

    fn whole(&self) -> Document {
        let mut document = Document::new(1);
        for update in &self.kept {
            document.apply(update).expect("what was kept can be read");
        }
        document
    }
}

/// What must be there in the end.
#[derive(Clone, Default)]
struct Promised {
    /// The only writer's last note under each name.
    notes: BTreeMap<String, String>,
    /// Measures added by anyone and deleted by none.
    measures: BTreeMap<u32, String>,
    /// Every name the recipe was given.
    names: BTreeSet<String>,
    relations: BTreeMap<String, Value>,
    paper: i64,
}

/// What a page shows of a document.
fn shown(document: &Document) -> Value {
    mend(document, &sound).expect("there is a recipe").object
}

fn sound(value: &Value) -> bool {
    Recipe::deserialize(value).is_ok_and(|recipe| recipe.check().is_empty())
}

fn history(seed: u64) {
    let mut dice = Dice(seed);
    let all = starters();
    let start = serde_json::to_value(&all[dice.below(all.len())].recipe).unwrap();
    let mut first = Document::new(dice.next());
    let origin = first
        .write(&Value::Null, &start)
        .expect("a recipe is something");
    assert_eq!(first.read().0.as_ref(), Some(&start), "seed {seed}");

    let count = 2 + dice.below(4);
    let mut server: Vec<Vec<u8>> = vec![origin.clone()];
    let mut devices: Vec<Device> = (0..count)
        .map(|_| {
            let mut device = Device::default();
            device.kept.push(origin.clone());
            device.open(&mut dice);
            device
        })
        .collect();
    let mut promised = Promised::default();
    promised
        .names
        .insert(start["name"].as_str().unwrap().to_owned());

    for step in 0..20 + dice.below(60) {
        let at = dice.below(count);
        match dice.below(12) {
            0..=4 => edit(&mut dice, &mut devices[at], at, step, &mut promised),
            5 => {
                let device = &mut devices[at];
                device.tabs.clear();
                device.open(&mut dice);
            }
            6 => {
                let device = &mut devices[at];
                if device.tabs.len() < 2 {
                    device.open(&mut dice);
                }
            }
            7 => {
                let device = &mut devices[at];
                device.offline = !device.offline;
                if device.offline {
                    // What was on its way is lost.
                    device.inbox.clear();
                    device.outbox.clear();
                } else {
                    exchange(device, &mut server);
                }
            }
            8 | 9 => send(&mut dice, &mut devices, at, &mut server),
            10 => {
                let device = &mut devices[at];
                if !device.inbox.is_empty() {
                    let which = dice.below(device.inbox.len());
                    let update = if dice.once_in(4) {
                        device.inbox[which].clone()
                    } else {
                        device.inbox.swap_remove(which)
                    };
                    device.take(&update);
                }
            }
            _ => {
                for tab in &mut devices[at].tabs {
                    tab.view = shown(&tab.document);
                }
                // Now and then everything kept becomes one.
                if dice.once_in(3) {
                    let bytes = devices[at].whole().bytes();
                    devices[at].kept = vec![bytes];
                }
            }
        }
    }
    for _ in 0..2 {
        for device in &mut devices {
            exchange(device, &mut server);
        }
    }
    settle(seed, &devices, &promised);
}

fn edit(dice: &mut Dice, device: &mut Device, at: usize, step: usize, promised: &mut Promised) {
    if device.tabs.is_empty() {
        return;
    }
    let which = dice.below(device.tabs.len());
    let tab = &mut device.tabs[which];
    if dice.once_in(6) {
        let by = i64::try_from(dice.below(9)).unwrap() - 4;
        promised.paper += by;
        let update = tab.document.add("sheet/ÄÖ", by);
        device.made(which, update.expect("a count changes"));
        return;
    }
    // A page works on what it shows, which may be older than the document.
    let mut new = tab.view.clone();
    let mut made = promised.clone();
    match dice.below(9) {
        0 => {
            let name = format!("name {at} {step}");
            made.names.insert(name.clone());
            new["name"] = json!(name);
        }
        1 => {
            let note = format!("note {step}");
            // One tab after the other of one device writes it.
            if device.tabs.len() == 1 {
                let step = format!("step.{at}/~%");
                made.notes.insert(step.clone(), note.clone());
                new["notes"][&step] = json!(note);
            }
        }
        2 | 3 => {
            let id = u32::try_from(dice.next() >> 32).unwrap();
            let name = format!("measure {at} {step}");
            made.measures.insert(id, name.clone());
            let measures = new["measures"].as_array_mut().unwrap();
            let place = dice.below(measures.len() + 1);
            measures.insert(
                place,
                json!({ "id": id, "name": name, "value": "1 in", "pinned": false }),
            );
            if dice.once_in(2) {
                let left = json!([{ "times": 1, "of": id }]);
                let relation = json!({ "left": left, "is": "equal", "right": [], "plus": "1 in" });
                made.relations
                    .insert(relation.to_string(), relation.clone());
                new["relations"].as_array_mut().unwrap().push(relation);
            }
        }
        4 => {
            let measures = new["measures"].as_array_mut().unwrap();
            let place = dice.below(measures.len());
            measures[place]["value"] = json!(format!("{} in", 1 + dice.below(9)));
        }
        5 => {
            let measures = new["measures"].as_array_mut().unwrap();
            let (from, to) = (dice.below(measures.len()), dice.below(measures.len()));
            let moved = measures.remove(from);
            measures.insert(to, moved);
        }
        6 => {
            // A measure goes, though something may speak of it elsewhere.
            let measures = new["measures"].as_array_mut().unwrap();
            let place = dice.below(measures.len());
            let id = measures[place]["id"].as_u64().unwrap();
            if !named(&new, id) {
                new["measures"].as_array_mut().unwrap().remove(place);
                made.measures.remove(&u32::try_from(id).unwrap());
            }
        }
        7 => panel_more(dice, &mut new),
        _ => {
            let folds = new["base"]["folds"].as_array_mut().unwrap();
            if !folds.is_empty() {
                let place = dice.below(folds.len());
                let other = if folds[place] == "valley" {
                    "mountain"
                } else {
                    "valley"
                };
                folds[place] = json!(other);
            }
        }
    }
    // An editor makes nothing that does not hold together.
    if !sound(&new) {
        return;
    }
    *promised = made;
    let tab = &mut device.tabs[which];
    let update = tab.document.write(&tab.view, &new);
    tab.view = if dice.once_in(2) {
        shown(&tab.document)
    } else {
        new
    };
    if let Some(update) = update {
        device.made(which, update);
    }
}

/// A panel more on the strip, with its fold.
fn panel_more(dice: &mut Dice, recipe: &mut Value) {
    let id = 1 + dice.below(60_000);
    let width = recipe["measures"][0]["id"].clone();
    let strip = &mut recipe["base"];
    let panels = strip["panels"].as_array_mut().unwrap();
    let place = dice.below(panels.len() + 1);
    if panels.iter().all(|panel| panel["id"] != json!(id)) {
        panels.insert(
            place,
            json!({ "id": id, "name": "one more", "width": width }),
        );
        let folds = strip["folds"].as_array_mut().unwrap();
        let place = place.min(folds.len());
        folds.insert(place, json!("mountain"));
    }
}

/// Whether a measure is spoken of anywhere but in the list of measures.
fn named(recipe: &Value, id: u64) -> bool {
    let mut rest = recipe.clone();
    rest["measures"].take();
    rest.to_string().contains(&format!(":{id}"))
}

/// Messages reach the server in any order, some twice, and go on from there.
fn send(dice: &mut Dice, devices: &mut [Device], at: usize, server: &mut Vec<Vec<u8>>) {
    if devices[at].offline || devices[at].outbox.is_empty() {
        return;
    }
    let which = dice.below(devices[at].outbox.len());
    let update = devices[at].outbox.swap_remove(which);
    let times = 1 + usize::from(dice.once_in(5));
    for _ in 0..times {
        server.push(update.clone());
        for (other, device) in devices.iter_mut().enumerate() {
            if other != at && !device.offline {
                device.inbox.push(update.clone());
            }
        }
    }
}

/// Both sides tell what they have and send what the other lacks.
fn exchange(device: &mut Device, server: &mut Vec<Vec<u8>>) {
    device.offline = false;
    let mut theirs = Document::new(2);
    for update in server.iter() {
        theirs.apply(update).expect("the server keeps updates");
    }
    let mine = device.whole();
    let up = mine.since(&theirs.state()).expect("a state");
    let down = theirs.since(&mine.state()).expect("a state");
    server.push(up);
    device.take(&down);
    device.inbox.clear();
    device.outbox.clear();
}

fn settle(seed: u64, devices: &[Device], promised: &Promised) {
    let documents: Vec<_> = devices.iter().map(Device::whole).collect();
    let one = &documents[0];
    assert!(!one.waits(), "seed {seed}: something is still missing");
    let (object, _) = one.read();
    let object = object.expect("there is a recipe");
    let mended = mend(one, &sound).expect("there is a recipe");
    for device in devices {
        for tab in &device.tabs {
            assert_eq!(
                tab.document.read().0.as_ref(),
                Some(&object),
                "seed {seed}: a tab"
            );
        }
    }
    for other in &documents[1..] {
        assert_eq!(other.read().0.as_ref(), Some(&object), "seed {seed}");
        assert_eq!(mend(other, &sound).as_ref(), Some(&mended), "seed {seed}");
        assert_eq!(other.counts(), one.counts(), "seed {seed}");
    }
    assert!(
        !mended.oddities.contains(&Oddity::Unsound) && sound(&mended.object),
        "seed {seed}: it does not hold together: {:?} {:?}",
        Recipe::deserialize(&mended.object).map(|recipe| recipe.check()),
        mended.oddities,
    );
    for (step, note) in &promised.notes {
        assert_eq!(object["notes"][step], json!(note), "seed {seed}: a note");
    }
    let measures = object["measures"].as_array().unwrap();
    for (id, name) in &promised.measures {
        let there = measures
            .iter()
            .any(|it| it["id"] == json!(id) && it["name"] == json!(name));
        assert!(there, "seed {seed}: measure {id} is missing");
    }
    for relation in promised.relations.values() {
        let there = object["relations"].as_array().unwrap().contains(relation);
        assert!(there, "seed {seed}: {relation} is missing");
    }
    assert!(
        promised.names.contains(object["name"].as_str().unwrap()),
        "seed {seed}"
    );
    let paper = one.counts().get("sheet/ÄÖ").copied().unwrap_or(0);
    assert_eq!(paper, promised.paper, "seed {seed}: paper");
    // One document written anew from the object says the same.
    let mut again = Document::new(3);
    again.write(&Value::Null, &object);
    assert_eq!(again.read().0.as_ref(), Some(&object), "seed {seed}");
}

#[test]
fn every_device_ends_with_everything() {
    let number = |name: &str, otherwise: u64| {
        std::env::var(name).map_or(otherwise, |text| text.parse().expect("a number"))
    };
    let (first, count) = (number("SEED", 1), number("HISTORIES", 300));
    println!("histories from seeds {first} to {}", first + count - 1);
    for seed in first..first + count {
        history(seed);
    }
}
