//! Generated histories of several devices over the ledger as it runs: whatever
//! is lost, doubled and out of order on the way, every device ends with the
//! same recipe, whose numbers go together, and no press of a count is lost.
//! `HISTORIES` sets how many, `SEED` the first.

use std::collections::BTreeMap;

use foldwright_engine::length::Length;
use foldwright_engine::recipe::{Holds, Is, Recipe, Relation, Term, starters};

use super::{Change, Device, Progress, progress_key};

/// Numbers from a seed (Steele, Lea, Flood: "Fast splittable pseudorandom
/// number generators", 2014).
pub(super) struct Dice(pub(super) u64);

impl Dice {
    pub(super) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    pub(super) fn below(&mut self, bound: usize) -> usize {
        let bound = u64::try_from(bound.max(1)).expect("a small number");
        usize::try_from(self.next() % bound).expect("below a small number")
    }

    pub(super) fn once_in(&mut self, bound: usize) -> bool {
        self.below(bound) == 0
    }
}

/// What must be there in the end, and what went wrong.
#[derive(Default)]
pub(super) struct Tally {
    unsolved: usize,
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
        let dice = &mut self.dice;
        let device = &mut self.devices[at];
        let draw = dice.next();
        let changes = device.change(ID, |recipe| {
            let before = recipe.clone();
            edit(&mut Dice(draw), recipe);
            // An editor makes nothing that does not hold together.
            if !recipe.check().is_empty() {
                *recipe = before;
            }
        });
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
    }

    fn end(mut self, seed: u64, tally: &mut Tally) {
        for device in &mut self.devices {
            device.take(&self.all);
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
                done(&text(device)),
                done(&text(&self.devices[0])),
                "seed {seed}"
            );
            let done = done(&text(device));
            for (step, count) in &self.counts {
                if i64::from(done.get(*step).copied().unwrap_or(0)) != *count {
                    tally.counts_lost += 1;
                    println!("seed {seed}: {step} is {:?} of {count}", done.get(*step));
                }
            }
        }
        for (step, word) in &self.words {
            let note = recipe.notes.get(*step).map_or("", String::as_str);
            assert!(note.contains(&**word), "seed {seed}: {word} in {note:?}");
        }
    }
}

fn done(text: &Option<String>) -> BTreeMap<String, u32> {
    let progress = text.as_deref().and_then(Progress::parse);
    progress.map(|progress| progress.done).unwrap_or_default()
}

fn edit(dice: &mut Dice, recipe: &mut Recipe) {
    let at = dice.below(recipe.measures.len());
    let id = recipe.measures[at].id;
    let eighth = i64::try_from(1 + dice.below(6)).expect("a small number");
    let by = Length::from_units(Length::mm(3).units() * eighth);
    let value = recipe.measures[at].value;
    match dice.below(10) {
        0..=5 => {
            let value = if dice.once_in(2) {
                value + by
            } else {
                value - by
            };
            // What can't be is refused, and nothing has changed.
            let _ = recipe.set(id, value);
        }
        6 => {
            let other = recipe.measures[dice.below(recipe.measures.len())].id;
            if other != id {
                let _ = recipe.tie_apart(id, other);
            }
        }
        7 => {
            if recipe.relations.len() > 1 {
                recipe.relations.remove(dice.below(recipe.relations.len()));
            }
        }
        8 => {
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
        }
        _ => {
            let pinned = &mut recipe.measures[at].pinned;
            *pinned = !*pinned;
        }
    }
}

/// One history, from its seed.
pub(super) fn history(seed: u64, tally: &mut Tally) {
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
    history.end(seed, tally);
}

#[test]
fn every_history_ends_solved_told_and_counted() {
    let number = |name: &str, otherwise: u64| {
        std::env::var(name).map_or(otherwise, |text| text.parse().expect("a number"))
    };
    let (first, count) = (number("SEED", 1), number("HISTORIES", 60));
    println!("histories from seeds {first} to {}", first + count - 1);
    let mut tally = Tally::default();
    for seed in first..first + count {
        history(seed, &mut tally);
    }
    let Tally {
        unsolved,
        counts_lost,
    } = tally;
    println!("merge_unsolved {unsolved}");
    println!("counts_lost {counts_lost}");
    assert_eq!((unsolved, counts_lost), (0, 0));
}
