//! Generated histories of several devices over the ledger as it runs: whatever
//! is lost, doubled and out of order on the way, every device ends with the
//! same recipe, whose numbers go together, and no press of a count is lost;
//! what somebody decided and is not so is in the history. Each document is made
//! once more by another library.
//! `HISTORIES` sets how many, `SEED` the first.

use std::collections::BTreeMap;

use foldwright_engine::length::Length;
use foldwright_engine::recipe::{Holds, Is, Recipe, Relation, Term, starters};

use foldwright_document::address;
use serde_json::Value;

use super::replay::Replay;
use super::{Change, Device, Document, Progress, merged, name, progress_key};
use crate::dice::Dice;
use crate::spoken::naming;

/// What must be there in the end, and what went wrong.
#[derive(Default)]
struct Tally {
    unsolved: usize,
    untold: usize,
    counts_lost: usize,
}

const ID: &str = "a1";
const STEPS: [&str; 3] = ["cut-strip", "score-0", "glue"];

struct History {
    dice: Dice,
    devices: Vec<Device>,
    /// Changes on their way to each device.
    under_way: Vec<Vec<Change>>,
    /// Every change there ever was, for those that were away.
    all: Vec<Change>,
    counts: BTreeMap<&'static str, i64>,
    /// What was decided and where in the recipe; no value where somebody who
    /// saw it has changed it.
    decided: Vec<(String, Option<Value>)>,
    /// Every word that was typed into a note; none was taken away.
    words: Vec<(&'static str, String)>,
}

impl History {
    fn begin(seed: u64) -> Self {
        let mut dice = Dice(seed);
        let all = starters();
        let start = &all[dice.below(all.len())].recipe;
        let count = 2 + dice.below(4);
        let mut devices: Vec<_> = (1..)
            .take(count)
            .map(|number| Device::called(number, &format!("device {number}")))
            .collect();
        devices[0].shelf.put(ID, start, 5).expect("room");
        let first = devices[0].note_all();
        for device in &mut devices[1..] {
            device.take(&first);
        }
        Self {
            dice,
            under_way: vec![Vec::new(); count],
            devices,
            all: first,
            counts: BTreeMap::new(),
            decided: Vec::new(),
            words: Vec::new(),
        }
    }

    fn send(&mut self, from: usize, changes: Vec<Change>) {
        for (to, under_way) in self.under_way.iter_mut().enumerate() {
            if to != from {
                under_way.extend(changes.iter().cloned());
            }
        }
        self.all.extend(changes);
    }

    fn edit(&mut self, at: usize) {
        let mut dice = Dice(self.dice.next());
        let device = &mut self.devices[at];
        let before = merged::object(&device.recipe(ID).expect("a recipe"));
        let mut decided = None;
        let number = self.decided.len();
        let changes = device.change(ID, |recipe| {
            let before = recipe.clone();
            decided = edit(&mut dice, recipe, number);
            // An editor makes nothing that does not hold together.
            if !recipe.check().is_empty() {
                *recipe = before;
            }
        });
        let after = merged::object(&device.recipe(ID).expect("a recipe"));
        // What somebody saw and changed did not give way.
        for (address, value) in &mut self.decided {
            let was = address::at(&before, address);
            if was != address::at(&after, address) && was == value.as_ref() {
                *value = None;
            }
        }
        let decided =
            decided.filter(|address| address::at(&before, address) != address::at(&after, address));
        if let Some(address) = decided {
            let value = address::at(&after, &address).cloned();
            self.decided.push((address, value));
        }
        self.send(at, changes);
    }

    /// A word is typed somewhere into a note.
    fn note(&mut self, at: usize) {
        let step = STEPS[self.dice.below(STEPS.len())];
        let word = format!("wörd{} ", self.words.len());
        let draw = self.dice.next();
        let typed = word.clone();
        let changes = self.devices[at].change(ID, |recipe| {
            let note = recipe.notes.entry(step.to_owned()).or_default();
            let places: Vec<_> = (0..=note.len())
                .filter(|place| {
                    note.get(..*place)
                        .is_some_and(|it| it.is_empty() || it.ends_with(' '))
                })
                .collect();
            note.insert_str(places[Dice(draw).below(places.len())], &typed);
        });
        self.words.push((step, word));
        self.send(at, changes);
    }

    fn press(&mut self, at: usize) {
        let step = STEPS[self.dice.below(STEPS.len())];
        let device = &mut self.devices[at];
        let key = progress_key(ID);
        let kept = device.shelf.port().read(&key);
        let kept = kept.and_then(|text| Progress::parse(&text));
        let mut progress = kept.unwrap_or_default();
        step.clone_into(&mut progress.step);
        let count = progress.done.entry(step.to_owned()).or_insert(0);
        if *count > 6 && self.dice.once_in(5) {
            *count -= 1;
            *self.counts.entry(step).or_default() -= 1;
        } else {
            *count += 1;
            *self.counts.entry(step).or_default() += 1;
        }
        let kept = device.shelf.port().write(&key, &progress.text());
        kept.expect("room");
        let changes = device.note("bench/a1");
        self.send(at, changes);
    }

    fn hear(&mut self, at: usize) {
        if self.under_way[at].is_empty() {
            return;
        }
        let which = self.dice.below(self.under_way[at].len());
        let change = if self.dice.once_in(5) {
            self.under_way[at][which].clone()
        } else {
            self.under_way[at].swap_remove(which)
        };
        self.devices[at].take(&[change]);
        let own = self.devices[at].ledger.take_own();
        self.send(at, own);
    }

    fn end(mut self, seed: u64, tally: &mut Tally, replay: &mut Replay) {
        loop {
            let known = self.all.len();
            for at in 0..self.devices.len() {
                let all = self.all.clone();
                self.devices[at].take(&all);
                let own = self.devices[at].ledger.take_own();
                self.send(at, own);
            }
            if self.all.len() == known {
                break;
            }
        }
        let recipe = self.devices[0].recipe(ID).expect("a recipe");
        let text = |device: &Device| device.shelf.port().read(&progress_key(ID));
        for device in &mut self.devices {
            assert_eq!(device.recipe(ID).as_ref(), Some(&recipe), "seed {seed}");
            assert_eq!(
                device.note_all(),
                [],
                "seed {seed}: nobody changed anything"
            );
        }
        let equations = |recipe: &Recipe| {
            let broken = recipe.broken();
            broken.iter().any(|it| it.is == Is::Equal)
        };
        if equations(&recipe) {
            tally.unsolved += 1;
            println!("seed {seed}: unsolved {:?}", recipe.broken());
        }
        for device in &self.devices {
            assert_eq!(
                done(text(device).as_deref()),
                done(text(&self.devices[0]).as_deref()),
                "seed {seed}"
            );
            let done = done(text(device).as_deref());
            for (step, count) in &self.counts {
                if i64::from(done.get(*step).copied().unwrap_or(0)) != *count {
                    tally.counts_lost += 1;
                    println!("seed {seed}: {step} is {:?} of {count}", done.get(*step));
                }
            }
        }
        tally.untold += self.untold(seed, &recipe);
        let name = name::of_recipe(ID);
        let changes = self.all.iter().filter(|(of, _)| *of == name);
        let mut changes: Vec<&[u8]> = changes.map(|(_, update)| &**update).collect();
        let mut ours = Document::new(1);
        for change in &changes {
            ours.apply(change).expect("a change");
        }
        // In another order, and some of it twice.
        changes.reverse();
        changes.extend_from_within(..changes.len() / 2);
        replay.compare(seed, &changes, &ours);
        for (step, word) in &self.words {
            let note = recipe.notes.get(*step).map_or("", String::as_str);
            assert!(note.contains(&**word), "seed {seed}: {word} in {note:?}");
        }
    }

    /// How much of what somebody decided, and nobody who saw it has changed, is
    /// neither so nor found in the history of every device.
    fn untold(&mut self, seed: u64, recipe: &Recipe) -> usize {
        let object = merged::object(recipe);
        let mut untold = 0;
        for device in &mut self.devices {
            let lost = device.ledger.lost(&device.shelf, ID);
            for (address, value) in &self.decided {
                let Some(value) = value else { continue };
                let found = lost
                    .iter()
                    .any(|lost| lost.address == *address && lost.value == *value);
                let by_name = lost.iter().all(|lost| lost.by.starts_with("device "));
                if address::at(&object, address) != Some(value) && !(found && by_name) {
                    untold += 1;
                    println!("seed {seed}: {address} was {value}, untold");
                }
            }
        }
        untold
    }
}

fn done(text: Option<&str>) -> BTreeMap<String, u32> {
    let progress = text.and_then(Progress::parse);
    progress.map(|progress| progress.done).unwrap_or_default()
}

/// One change of a recipe; returns what it decided.
fn edit(dice: &mut Dice, recipe: &mut Recipe, number: usize) -> Option<String> {
    let at = dice.below(recipe.measures.len());
    let id = recipe.measures[at].id;
    let eighth = i64::try_from(1 + dice.below(6)).expect("a small number");
    let by = Length::from_units(Length::mm(3).units() * eighth);
    let value = recipe.measures[at].value;
    let panel = dice.below(recipe.base.panels.len());
    let panel = recipe.base.panels[panel].id;
    match dice.below(12) {
        0..=4 => {
            let value = if dice.once_in(2) {
                value + by
            } else {
                value - by
            };
            // What can't be is refused, and nothing has changed.
            recipe.set(id, value).ok()?;
            Some(format!("measures/{}.value", id.0))
        }
        5 => {
            let other = recipe.measures[dice.below(recipe.measures.len())].id;
            if other != id {
                recipe.tie_apart(id, other).ok()?;
            }
            None
        }
        6 => {
            if recipe.relations.len() > 1 {
                recipe.relations.remove(dice.below(recipe.relations.len()));
            }
            None
        }
        7 => {
            recipe.relations.push(Relation {
                left: vec![Term { times: 1, of: id }],
                is: Is::Equal,
                right: Vec::new(),
                plus: value,
                holds: if dice.once_in(2) {
                    Holds::Must
                } else {
                    Holds::Should
                },
            });
            None
        }
        8 => {
            recipe.name = format!("Harbour {number}");
            Some("name".to_owned())
        }
        9 => {
            let name = format!("panel {number}");
            recipe.rename_panel(panel, &name, naming()).ok()?;
            Some(format!("base.panels/{}.name", panel.0))
        }
        10 => {
            recipe.remove_panel(panel).ok()?;
            None
        }
        _ => {
            let pinned = &mut recipe.measures[at].pinned;
            *pinned = !*pinned;
            Some(format!("measures/{}.pinned", id.0))
        }
    }
}

/// One history, from its seed.
fn history(seed: u64, tally: &mut Tally, replay: &mut Replay) {
    let mut history = History::begin(seed);
    for _ in 0..12 + history.dice.below(30) {
        let at = history.dice.below(history.devices.len());
        match history.dice.below(10) {
            0 | 1 => history.edit(at),
            2 | 3 => history.press(at),
            4 => history.note(at),
            5..=8 => history.hear(at),
            _ => history.devices[at].reopen(),
        }
    }
    history.end(seed, tally, replay);
}

#[test]
fn every_history_ends_solved_told_and_counted() {
    let number = |name: &str, otherwise: u64| {
        std::env::var(name).map_or(otherwise, |text| text.parse().expect("a number"))
    };
    let (first, count) = (number("SEED", 1), number("HISTORIES", 60));
    println!("histories from seeds {first} to {}", first + count - 1);
    let mut tally = Tally::default();
    let mut replay = Replay::start();
    for seed in first..first + count {
        history(seed, &mut tally, &mut replay);
    }
    let Tally {
        unsolved,
        untold,
        counts_lost,
    } = tally;
    println!("merge_unsolved {unsolved}");
    println!("merge_untold {untold}");
    println!("counts_lost {counts_lost}");
    assert_eq!((unsolved, untold, counts_lost), (0, 0, 0));
}
