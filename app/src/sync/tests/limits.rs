//! Recipes changed at random, mostly to what just may be, and texts of every
//! length and kind of letter: what was accepted once is kept, opened again,
//! written to a file, taken in from it and merged, and never lost or refused.
//! `SEED` sets the first, `RECIPES` how many.

use foldwright_engine::length::Length;
use foldwright_engine::recipe::{
    Face, Holds, Is, LayerKind, MOST_COPIES, MOST_OF_A_KIND, MOST_TEXT, Measure, Parts, Recipe,
    Relation, Seat, Side, Takes, Term, Wraps, read, starters, write,
};

use super::{DAY, Device, documents_in, name};
use crate::dice::Dice;
use crate::import::print::Known;
use crate::import::ready::Ready;
use crate::import::split::Splitter;
use crate::import::taking::{Broken, RECIPES, Taking};
use crate::schema::told;
use crate::spoken::naming;
use crate::store::{Import, Memory, Shelf, Whole};

const ID: &str = "a1";

/// A text that may be given, often as long as one can be.
fn text(dice: &mut Dice) -> String {
    const LETTERS: [char; 18] = [
        'a', 'Z', ' ', '"', '\\', '/', '\n', '\r', '\t', '\0', '\u{7f}', 'ß', 'é', '折', '½',
        '\u{FEFF}', '\u{FFFF}', '🂡',
    ];
    let length = match dice.below(5) {
        0 => 0,
        1 => 1 + dice.below(40),
        2 => MOST_TEXT - 1,
        _ => MOST_TEXT,
    };
    // Of one letter, or of all kinds.
    let kinds = if dice.once_in(2) { 1 } else { LETTERS.len() };
    let from = dice.below(LETTERS.len());
    let letters = (0..length).map(|_| LETTERS[(from + dice.below(kinds)) % LETTERS.len()]);
    letters.collect()
}

/// Every text of a recipe but the names of its notes.
fn texts(recipe: &mut Recipe) -> Vec<&mut String> {
    let mut all = vec![&mut recipe.name, &mut recipe.about];
    all.extend(recipe.measures.iter_mut().map(|it| &mut it.name));
    all.extend(recipe.stocks.iter_mut().map(|it| &mut it.name));
    all.extend(recipe.layers.iter_mut().map(|it| &mut it.name));
    all.extend(recipe.supplies.iter_mut().map(|it| &mut it.name));
    all.extend(recipe.own_steps.iter_mut().map(|it| &mut it.text));
    all.extend(recipe.order.iter_mut());
    all.extend(recipe.notes.values_mut());
    let strip = &mut recipe.base.strip;
    all.extend(strip.panels.iter_mut().map(|it| &mut it.name));
    all.extend(strip.lines.iter_mut().map(|it| &mut it.name));
    all.extend(strip.cutouts.iter_mut().map(|it| &mut it.name));
    for piece in &mut recipe.pieces {
        all.push(&mut piece.name);
        all.extend(piece.strip.panels.iter_mut().map(|it| &mut it.name));
        all.extend(piece.strip.lines.iter_mut().map(|it| &mut it.name));
    }
    all
}

/// A length that may be given somewhere.
fn length(dice: &mut Dice) -> Length {
    match dice.below(6) {
        0 => Length::LIMIT,
        1 => Length::ZERO - Length::LIMIT,
        2 => Length::ZERO,
        3 => Length::from_units(1),
        _ => Length::mm(i64::try_from(dice.below(400)).expect("a small number")),
    }
}

fn change_a_measure(dice: &mut Dice, measure: &mut Measure) {
    let value = length(dice);
    match dice.below(4) {
        0 => measure.value = value,
        1 => measure.least = Some(value).filter(|_| !dice.once_in(3)),
        2 => measure.most = Some(value).filter(|_| !dice.once_in(3)),
        _ => measure.pinned = !measure.pinned,
    }
}

/// What a card may take of something, or just may not.
fn takes(dice: &mut Dice) -> Takes {
    if dice.once_in(2) {
        let count = [0, 1, MOST_OF_A_KIND, MOST_OF_A_KIND + 1][dice.below(4)];
        let takes = if dice.below(2) == 0 {
            Takes::Count
        } else {
            Takes::Share
        };
        return takes(count);
    }
    Takes::Ribbon {
        wraps: [Wraps::Across, Wraps::Upright, Wraps::BothWays][dice.below(3)],
        knot: length(dice),
    }
}

fn relation(dice: &mut Dice, recipe: &Recipe) -> Relation {
    let mut terms = || {
        let count = [0, 1, 2, Parts::Terms.most() / 2][dice.below(4)];
        let terms = (0..count).map(|_| {
            let times = [1, 2, -1, 1000, -1000][dice.below(5)];
            let of = recipe.measures[dice.below(recipe.measures.len())].id;
            Term { times, of }
        });
        terms.collect()
    };
    Relation {
        left: terms(),
        right: terms(),
        is: [Is::Equal, Is::AtLeast, Is::AtMost][dice.below(3)],
        plus: length(dice),
        holds: [Holds::Must, Holds::Should][dice.below(2)],
    }
}

fn name_of_a_step(dice: &mut Dice) -> String {
    let names = ["gather", "dry", "own-1", "fold-0", "cut-strip"];
    names[dice.below(names.len())].to_owned()
}

/// Some change, of which nobody says that it may be made.
fn change(dice: &mut Dice, recipe: &mut Recipe) {
    let some = |dice: &mut Dice, parts: Parts, had: usize| {
        let room = parts.most().saturating_sub(had);
        if dice.once_in(4) {
            room
        } else {
            room.min(1 + dice.below(3))
        }
    };
    let measure = dice.below(recipe.measures.len());
    let id = recipe.measures[measure].id;
    let panel = recipe.base.panels[dice.below(recipe.base.panels.len())].id;
    match dice.below(18) {
        0..=2 => {
            let given = text(dice);
            let mut texts = texts(recipe);
            let at = dice.below(texts.len());
            *texts[at] = given;
        }
        3 => {
            let count = some(dice, Parts::Notes, recipe.notes.len());
            let long = text(dice);
            for number in 0..count {
                let step = format!("{}-{number}", dice.below(9));
                recipe.notes.insert(step, long.chars().take(40).collect());
            }
            let step = text(dice);
            recipe.notes.insert(step, long);
        }
        4 | 5 => change_a_measure(dice, &mut recipe.measures[measure]),
        6 => drop(recipe.set(id, length(dice))),
        7 => {
            recipe.copies = [1, 2, MOST_COPIES][dice.below(3)];
            recipe.glue_margin = length(dice);
        }
        8 => {
            let stock = &mut recipe.stocks[0];
            (stock.width, stock.height) = (length(dice), length(dice));
        }
        9 => {
            let count = some(dice, Parts::Relations, recipe.relations.len()).min(60);
            for _ in 0..count {
                let relation = relation(dice, recipe);
                recipe.relations.push(relation);
            }
        }
        10 => {
            let side = [Side::A, Side::B][dice.below(2)];
            let count = some(dice, Parts::Layers, recipe.layers.len());
            for _ in 0..count {
                if recipe
                    .add_layer(Seat::Face(Face { panel, side }), LayerKind::Mat, naming())
                    .is_err()
                {
                    break;
                }
            }
        }
        11 => drop(recipe.remove_panel(panel)),
        12 => {
            if !recipe.layers.is_empty() {
                let layer = recipe.layers[dice.below(recipe.layers.len())].id;
                drop(recipe.remove_layer(layer));
            }
        }
        13 => {
            let count = some(dice, Parts::Supplies, recipe.supplies.len());
            let name: String = text(dice).chars().take(40).collect();
            for _ in 0..count {
                let takes = takes(dice);
                drop(recipe.add_supply(&name, takes));
            }
        }
        14 => {
            if !recipe.supplies.is_empty() {
                let id = recipe.supplies[dice.below(recipe.supplies.len())].id;
                recipe.take_of_supply(id, takes(dice));
                if dice.once_in(3) {
                    recipe.remove_supply(id);
                }
            }
        }
        15 => {
            let count = some(dice, Parts::OwnSteps, recipe.own_steps.len());
            for _ in 0..count {
                drop(recipe.add_own_step(&text(dice), dice.once_in(2)));
            }
        }
        16 => {
            let count = some(dice, Parts::Ordered, recipe.order.len());
            recipe.order = (0..count).map(|_| name_of_a_step(dice)).collect();
        }
        _ => {
            let on = recipe.layers.iter().map(|layer| Seat::Layer(layer.id));
            let on: Vec<_> = on.collect();
            if !on.is_empty() {
                drop(recipe.add_layer(on[dice.below(on.len())], LayerKind::Mat, naming()));
            }
        }
    }
}

impl Device {
    /// Changes the recipe at random, as far as that is accepted, and keeps it.
    fn change_at_random(&mut self, dice: &mut Dice, seed: u64) -> Vec<super::Change> {
        let mut held = self.shelf.open(ID).expect("a recipe");
        let mut recipe = held.saved().clone();
        for _ in 0..=dice.below(4) {
            let before = recipe.clone();
            change(dice, &mut recipe);
            // A note without a word is none.
            recipe.notes.retain(|_, note| !note.is_empty());
            if !recipe.check().is_empty() {
                recipe = before;
            }
        }
        let never = || panic!("nobody else writes");
        let saved = self.shelf.save(&mut held, &recipe, never, self.clock);
        assert!(saved.is_ok(), "seed {seed}: {saved:?}");
        let changes = self.note(&name::of_recipe(ID));
        assert_eq!(self.recipe(ID), Some(recipe), "seed {seed}: kept");
        changes
    }

    /// Whatever way the recipe takes, it is the same.
    fn comes_back(&mut self, seed: u64) {
        let recipe = self.recipe(ID).expect("a recipe");
        assert_eq!(self.shelf.asides(), [], "seed {seed}: nothing is set aside");
        self.reopen();
        assert_eq!(self.note_all(), [], "seed {seed}: nothing has changed");
        assert_eq!(self.recipe(ID).as_ref(), Some(&recipe), "seed {seed}");
        let documents = documents_in(&self.everything()).expect("a file");
        let mut fresh = Device::new(9);
        fresh.take(&documents);
        assert_eq!(fresh.recipe(ID).as_ref(), Some(&recipe), "seed {seed}: all");
        // What came together may have more than one recipe can be given.
        if recipe.check().is_empty() {
            let file = write(std::slice::from_ref(&recipe));
            assert_eq!(told(&file), Vec::<String>::new(), "seed {seed}");
            let again = read(&file);
            assert_eq!(again.as_deref(), Ok(std::slice::from_ref(&recipe)));
            assert_eq!(imported(&file, seed), recipe, "seed {seed}: a file");
        }
    }
}

/// The recipe in a file, taken in.
fn imported(file: &str, seed: u64) -> Recipe {
    let mut splitter = Splitter::new(&[RECIPES]);
    for slice in file.as_bytes().chunks(1000) {
        splitter.feed(slice).expect("our own file");
    }
    let file = splitter.end().expect("our own file");
    let port = Box::new(Memory::default());
    let shelf = Shelf::new(Box::new(Whole { port }), 5);
    let import = Import::begin(&shelf, "b".to_owned()).expect("there is room");
    let version = file.head.version;
    let known = Known::default();
    let mut taking = Taking::begin(version, file.parts.len(), Broken::Refuse, known, import);
    let parts = file.parts.into_iter().zip(1..);
    taking.comes(
        parts
            .map(|(part, number)| Ready::of(version, number, part))
            .collect(),
    );
    while taking
        .turn(&shelf, DAY, || true)
        .unwrap_or_else(|why| panic!("seed {seed}: {why:?}"))
    {}
    let taken = taking.end().import.finish(&shelf).expect("nobody ended it");
    shelf.load(&taken[0]).expect("it is there").recipe
}

fn lives_through(seed: u64) {
    let mut dice = Dice(seed);
    let starters = starters();
    let start = &starters[dice.below(starters.len())].recipe;
    let (mut laptop, mut phone) = (Device::new(1), Device::new(2));
    laptop.shelf.put(ID, start, 5).expect("there is room");
    let first = laptop.note_all();
    phone.take(&first);
    for _ in 0..=dice.below(3) {
        let changes = laptop.change_at_random(&mut dice, seed);
        phone.take(&changes);
        assert_eq!(
            phone.recipe(ID),
            laptop.recipe(ID),
            "seed {seed}: elsewhere"
        );
        laptop.comes_back(seed);
    }
    let mut here = laptop.change_at_random(&mut dice, seed);
    let there = phone.change_at_random(&mut dice, seed);
    here.extend(laptop.change_at_random(&mut dice, seed));
    let own = [&laptop, &phone].map(|device| device.recipe(ID).expect("a recipe"));
    phone.take(&here);
    laptop.take(&there);
    for device in [&mut laptop, &mut phone] {
        let name = name::of_recipe(ID);
        let bytes = device.ledger.since(&device.shelf, &name, &[0]);
        let bytes = bytes.expect("a state").expect("something");
        let document = super::Document::open(1, &bytes).expect("a document");
        let merged = super::merged::recipe(&document);
        let merged = merged.unwrap_or_else(|why| panic!("seed {seed}: {why:?} of {own:?}"));
        assert_eq!(device.recipe(ID), Some(merged.recipe), "seed {seed}: shown");
        device.comes_back(seed);
    }
    assert_eq!(laptop.recipe(ID), phone.recipe(ID), "seed {seed}: the same");
}

#[test]
fn what_was_accepted_is_never_lost_or_refused() {
    let number = |name: &str, otherwise: u64| {
        std::env::var(name).map_or(otherwise, |text| text.parse().expect("a number"))
    };
    let (first, count) = (number("SEED", 1), number("RECIPES", 40));
    println!("recipes from seeds {first} to {}", first + count - 1);
    for seed in first..first + count {
        lives_through(seed);
    }
}
