//! Files of every shape in slices of every size, and imports that end anyhow.

use std::cell::Cell;

use foldwright_engine::recipe::{FileError, MOST_TEXT, Recipe, VERSION, starters, write};
use serde_json::{Map, Value, json};

use super::print::{Known, Print};
use super::ready::Ready;
use super::split::{Head, Kind, Part, Splitter, Uncut};
use super::taking::{Broken, RECIPES, Stopped, Taken, Taking};
use crate::store::{Import, JOURNAL, Leftover, Memory, Shelf, Whole};

/// Kinds of files.
const KINDS: &[Kind] = &[kind("b", "other"), kind("a", "list"), kind("z", "parts")];

const fn kind(mark: &'static str, list: &'static str) -> Kind {
    let most = 4_000_000;
    Kind { mark, list, most }
}

/// Cuts a file fed in slices of that many bytes.
fn cut_as(kinds: &'static [Kind], file: &[u8], size: usize) -> Result<super::split::Parted, Uncut> {
    let mut splitter = Splitter::new(kinds);
    for slice in file.chunks(size) {
        splitter.feed(slice)?;
    }
    splitter.end()
}

fn cut(file: &[u8], size: usize) -> Result<super::split::Parted, Uncut> {
    cut_as(KINDS, file, size)
}

fn cut_recipes(file: &str) -> Result<super::split::Parted, Uncut> {
    cut_as(&[RECIPES], file.as_bytes(), 1000)
}

/// Steele, Lea, Flood: "Fast splittable pseudorandom number generators", 2014.
struct Random(u64);

impl Random {
    fn below(&mut self, most: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        usize::try_from((z ^ (z >> 31)) % most as u64).expect("smaller than a usize")
    }

    fn text(&mut self) -> String {
        const LETTERS: [&str; 16] = [
            "a", "\"", "\\", "{", "}", "[", "]", ",", ":", "\n", "ß", "½", "折", "🂡", "\u{7}", "/",
        ];
        let length = self.below(8);
        (0..length)
            .map(|_| LETTERS[self.below(LETTERS.len())])
            .collect()
    }

    fn value(&mut self, depth: usize) -> Value {
        match self.below(if depth == 0 { 5 } else { 8 }) {
            0 => Value::Null,
            1 => Value::from(self.below(2) == 0),
            2 => json!(self.below(1000)),
            3 => json!([-0.25, 0.5, 2.75, 1024.5][self.below(4)]),
            4 => Value::from(self.text()),
            5 | 6 => (0..self.below(4)).map(|_| self.value(depth - 1)).collect(),
            _ => self.fields(depth - 1).into(),
        }
    }

    fn fields(&mut self, depth: usize) -> Map<String, Value> {
        (0..self.below(4))
            .map(|_| (self.text(), self.value(depth)))
            .collect()
    }

    fn blank(&mut self) -> &'static str {
        ["", " ", "\n", "\r\n\t  "][self.below(4)]
    }

    /// JSON with blanks wherever they may be.
    fn laid_out(&mut self, value: &Value) -> String {
        let parts: Vec<String> = match value {
            Value::Array(items) => items.iter().map(|item| self.laid_out(item)).collect(),
            Value::Object(fields) => {
                let fields = fields.iter();
                fields
                    .map(|(name, value)| self.field(name, value))
                    .collect()
            }
            _ => return format!("{}{value}{}", self.blank(), self.blank()),
        };
        let (opens, closes) = if value.is_array() {
            ("[", "]")
        } else {
            ("{", "}")
        };
        let blank = self.blank();
        format!("{blank}{opens}{}{blank}{closes}{blank}", parts.join(","))
    }

    fn field(&mut self, name: &str, value: &Value) -> String {
        let (before, after) = (self.blank(), self.blank());
        let value = self.laid_out(value);
        format!("{before}{}{after}:{value}", Value::from(name))
    }
}

/// What a JSON reader finds in the list is what the parts hold, in whatever
/// order and layout the fields stand and whatever is beside them.
#[test]
fn a_file_is_cut_alike_whatever_it_holds_and_however_it_comes() {
    println!("files from seeds 0 to 599");
    for seed in 0..600 {
        let mut random = Random(seed);
        let items: Vec<Value> = (0..random.below(6)).map(|_| random.value(3)).collect();
        let named = random.fields(3);
        for list in [Value::from(items.clone()), Value::from(named.clone())] {
            let kind = KINDS[1 + random.below(2)];
            let mut fields = vec![
                random.field(kind.mark, &json!(3)),
                random.field(kind.list, &list),
            ];
            for (name, value) in random.fields(3) {
                if !["a", "b", "z", "list", "other", "parts"].contains(&&*name) {
                    let at = random.below(fields.len() + 1);
                    let field = random.field(&name, &value);
                    fields.insert(at, field);
                }
            }
            if random.below(2) == 0 {
                fields.reverse();
            }
            let mark_before = ["", "\u{FEFF}", "7 1 2\n", "7 1 2\n\u{FEFF}"][random.below(4)];
            let text = format!("{mark_before}{{{}}}{}", fields.join(","), random.blank());
            let whole = cut(text.as_bytes(), text.len()).unwrap_or_else(|why| {
                panic!("seed {seed}: {why:?} in {text}");
            });
            assert_eq!(whole.head, Head { kind, version: 3 });
            for size in 1..text.len().min(70) {
                let sliced = cut(text.as_bytes(), size);
                assert_eq!(sliced.as_ref(), Ok(&whole), "seed {seed}, slices of {size}");
            }
            let texts: Vec<&str> = whole.parts.iter().map(|part| &*part.text).collect();
            let again = if list.is_array() {
                format!("[{}]", texts.join(","))
            } else {
                format!("{{{}}}", texts.join(","))
            };
            let again: Value = serde_json::from_str(&again).expect("JSON");
            assert_eq!(again, list, "seed {seed}");
            for part in &whole.parts {
                let line = text.lines().nth(part.line - 1).expect("a line of the file");
                let begins = part.text.lines().next().unwrap_or_default();
                assert!(line.contains(begins), "seed {seed}: {begins} in {line}");
            }
        }
    }
}

#[test]
fn a_file_that_ends_too_soon_says_in_which_line() {
    let file = serde_json::to_string_pretty(&json!({ "a": 1, "list": [[1, "]"], { "b": 2 }] }));
    let file = file.expect("JSON");
    let begins = file.find('[').expect("a list") + 1;
    let ends = file.rfind(']').expect("a list");
    for length in begins..=ends {
        let part = &file[..length];
        let line = part.matches('\n').count() + 1;
        for size in [1, 3, length] {
            assert_eq!(
                cut(part.as_bytes(), size),
                Err(Uncut::Broken { line }),
                "{part}"
            );
        }
    }
    let broken = |text: &str| cut(text.as_bytes(), 4);
    for text in ["[1,]", "[,1]", "[1}", "[1]]", "[{]]"] {
        let file = format!("{{\"a\":1,\"list\":{text}");
        assert!(
            broken(&file).is_err() || broken(&format!("{file}}}")).is_err(),
            "{text}"
        );
    }
    assert_eq!(
        broken("{\"a\":1,\"list\":[1,\n]}"),
        Err(Uncut::Broken { line: 2 })
    );
}

#[test]
fn a_file_of_another_kind_is_told_from_one_that_is_broken() {
    for other in [
        "[]",
        "hello",
        "7 1\n{\"a\":1,\"list\":[]}",
        "{}",
        "{\"a\":\"1\",\"list\":[]}",
        "{\"a\":-1,\"list\":[]}",
        "{\"a\":1}",
        "{\"a\":1,\"list\":7}",
        "{\"a\":{},\"list\":[]}",
        "{\"a\":1,\"a\":[],\"list\":[]}",
    ] {
        assert_eq!(cut(other.as_bytes(), 5), Err(Uncut::NotOurs), "{other}");
    }
    let noise: Vec<u8> = (0..=255)
        .filter(|byte| *byte != b'{')
        .cycle()
        .take(999)
        .collect();
    assert_eq!(cut(&noise, 300), Err(Uncut::NotOurs));
    for broken in [
        "",
        "{\"a\":1,\"list\":[]} x",
        "{\"a\":1,\"list\":[]",
        "{\"a\":1 2,\"list\":[]}",
        "{\"a\":,\"list\":[]}",
        "{\"a\" 1,\"list\":[]}",
        "{\"a\":1 \"list\":[]}",
        "{\"a\":1,\"list\":[]]}",
        "{\"a\":1,\"list\":[{]}]}",
        "{\"a\":1,\"list\":[],}",
        "{\"x\":[}],\"a\":1,\"list\":[]}",
        "{\"\\x\":1,\"a\":1,\"list\":[]}",
        "{a:1}",
    ] {
        let line = 1;
        assert_eq!(
            cut(broken.as_bytes(), 5),
            Err(Uncut::Broken { line }),
            "{broken}"
        );
    }
    let deep = format!("{{\"x\":{}", "[".repeat(200));
    assert_eq!(cut(deep.as_bytes(), 9), Err(Uncut::Broken { line: 1 }));
    // Of two fields of a name the last counts, and what is long may be anything.
    let odd = format!(
        "{{\"{}\":\"{0}\",\"list\":[1],\"a\":9,\"list\":[2,3],\"a\":4,\"x\":[{}]}}",
        "n".repeat(1000),
        "0,".repeat(1000) + "0",
    );
    let file = cut(odd.as_bytes(), 9).expect("it is sound");
    assert_eq!((file.head.version, file.parts.len()), (4, 2));
    // What was set aside is cut too, stamp and all.
    let kept = format!("7 1 2\n{}", write(&some(2)));
    let file = cut_recipes(&kept).expect("it is sound");
    assert_eq!((file.head.version, file.parts.len()), (VERSION, 2));
}

/// No step of an import is longer than a slice or a part, and a part is not
/// longer than that.
#[test]
fn a_part_larger_than_any_that_is_kept_is_refused_before_it_is_read() {
    let large = |bytes: usize| {
        let text = "n".repeat(bytes - 2);
        format!("{{\"a\":1,\"list\":[1,\"{text}\",2]}}")
    };
    let parts = cut(large(4_000_000).as_bytes(), 128 * 1024).map(|file| file.parts.len());
    assert_eq!(parts, Ok(3));
    let refused = cut(large(4_000_001).as_bytes(), 128 * 1024).expect_err("too large");
    let most = 4_000_000;
    assert_eq!(refused, Uncut::TooLarge { part: 2, most });
    assert!(
        refused
            .words(|_| String::new())
            .starts_with("Part 2 of the list"),
        "{refused:?}"
    );
}

/// Recipes with names of an invented paper workshop.
fn some(count: usize) -> Vec<Recipe> {
    let starters = starters().iter().cycle();
    let recipes = starters.zip(0..count).map(|(starter, number)| {
        let mut recipe = starter.recipe.clone();
        recipe.name = format!("Quay {number}");
        recipe
    });
    recipes.collect()
}

fn shelf(room: Option<u64>) -> Shelf {
    let memory = room.map_or_else(Memory::default, Memory::with_room);
    Shelf::new(
        Box::new(Whole {
            port: Box::new(memory),
        }),
        1,
    )
}

fn parts(recipes: &[Recipe]) -> Vec<Part> {
    let file = write(recipes);
    cut_recipes(&file).expect("our own file").parts
}

/// Begins to take all that is in these parts.
fn begin(parts: &[Part], broken: Broken, known: Known, import: Import) -> Taking {
    let mut taking = Taking::begin(3, parts.len(), broken, known, import);
    let ready = parts.iter().cloned().enumerate();
    let ready = ready.map(|(place, part)| Ready::of(3, place + 1, part));
    taking.comes(ready.collect());
    taking
}

/// Takes all that is in these parts, as a tab does that is not disturbed.
fn take(shelf: &Shelf, parts: &[Part], broken: Broken) -> Result<Taken, Stopped> {
    let mut known = Known::default();
    for id in shelf.ids() {
        known.add(&shelf.load(&id).expect("it is there").recipe);
    }
    let beginning = format!("b{}", shelf.ids().len());
    let import = Import::begin(shelf, beginning).expect("there is room");
    let mut taking = begin(parts, broken, known, import);
    while taking.turn(shelf, 5, || true)? {
        assert_eq!(taking.done().min(1), 1);
    }
    Ok(taking.end())
}

fn clear(shelf: &Shelf) {
    while let Some(mut left) = Leftover::of(shelf) {
        while left.clear(shelf, || true) {}
    }
}

#[test]
fn all_recipes_of_a_file_are_there_at_once_and_only_in_the_end() {
    let shelf = shelf(None);
    let recipes = some(40);
    let parts = parts(&recipes);
    let import = Import::begin(&shelf, "b".to_owned()).expect("there is room");
    let mut taking = begin(&parts, Broken::Refuse, Known::default(), import);
    while taking.turn(&shelf, 5, || true).expect("sound") {
        assert_eq!(shelf.ids(), [""; 0]);
    }
    let taken = taking.end();
    assert_eq!(taken.words(), "Added 40 recipes.");
    let ids = taken.import.finish(&shelf).expect("nobody has ended it");
    assert_eq!(ids.len(), 40);
    for (id, recipe) in ids.iter().zip(&recipes) {
        assert_eq!(
            shelf.load(id).map(|record| record.recipe).as_ref(),
            Ok(recipe)
        );
    }
    let mut listed = shelf.ids();
    listed.sort_unstable();
    assert_eq!(listed, ids);
    let keys = shelf.port().keys();
    assert_eq!(keys.len(), 40, "the journal and what was held are gone");
}

#[test]
fn what_is_here_already_is_not_taken_again() {
    let shelf = shelf(None);
    let taken = take(&shelf, &parts(&some(10)), Broken::Refuse).expect("sound");
    taken.import.finish(&shelf).expect("nobody has ended it");
    let again = take(&shelf, &parts(&some(12)), Broken::Refuse).expect("sound");
    assert_eq!(
        again.words(),
        "Added 2 recipes; 10 recipes are here already."
    );
    again.import.finish(&shelf).expect("nobody has ended it");
    let none = take(&shelf, &parts(&some(1)), Broken::Refuse).expect("sound");
    assert_eq!(none.words(), "1 recipe is here already; nothing was added.");
    let [mut one, other] = <[Recipe; 2]>::try_from(some(2)).expect("two");
    assert_ne!(Print::of(&one), Print::of(&other));
    let before = Print::of(&one);
    one.copies += 1;
    assert_ne!(Print::of(&one), before);
}

#[test]
fn an_import_that_ends_anywhere_leaves_nothing() {
    let parts = parts(&some(12));
    for after in 0..12 {
        let shelf = shelf(None);
        shelf.put("b", &some(1)[0], 1).expect("there is room");
        let before = shelf.port().keys();
        let import = Import::begin(&shelf, "b0".to_owned()).expect("there is room");
        let known = Known::default();
        let mut taking = begin(&parts, Broken::Refuse, known, import);
        for _ in 0..after {
            assert_eq!(taking.turn(&shelf, 5, || true), Ok(true));
        }
        // The tab is gone here; another one begins.
        drop(taking);
        assert_eq!(shelf.ids(), ["b"], "after {after}");
        let mut left = Leftover::of(&shelf).expect("there is a journal");
        // It is killed too, while it clears away.
        left.clear(&shelf, || true);
        assert_eq!(shelf.ids(), ["b"], "after {after}");
        clear(&shelf);
        assert_eq!(shelf.port().keys(), before, "after {after}");
    }
}

#[test]
fn a_file_broken_in_its_last_recipe_is_refused_whole_and_names_it() {
    let mut recipes = some(5);
    recipes[4].about = "a".repeat(MOST_TEXT + 1);
    recipes[4].name = "Net loft".to_owned();
    let parts = parts(&recipes);
    let first = shelf(None);
    let refused = take(&first, &parts, Broken::Refuse).expect_err("it is broken");
    let words = refused.words(5);
    assert!(
        words.starts_with("Recipe 5 of this file, “Net loft”,"),
        "{words}"
    );
    assert!(matches!(refused, Stopped::Unreadable { some: true, .. }));
    clear(&first);
    assert_eq!(first.port().keys(), [""; 0]);
    // What can be read of it is taken when that is asked for.
    let salvaged = take(&first, &parts, Broken::Salvage).expect("that is what it is for");
    assert_eq!((salvaged.import.count(), salvaged.lost.len()), (5, 1));
    // The line is that of the file.
    let file = write(&some(3)).replacen("\"copies\": 1,", "\"copies\": 1 1,", 3);
    let line = file
        .lines()
        .position(|line| line.contains("1 1,"))
        .expect("replaced")
        + 1;
    let cut = cut_recipes(&file).expect("its list is whole");
    let refused = take(&shelf(None), &cut.parts, Broken::Refuse);
    let Err(Stopped::Unreadable { why, .. }) = refused else {
        panic!("{refused:?}");
    };
    assert_eq!(why, FileError::NotJson { line });
}

#[test]
fn an_import_that_does_not_fit_with_its_documents_is_refused_with_how_many_do() {
    let parts = parts(&some(120));
    let free = shelf(None);
    let taken = take(&free, &parts, Broken::Refuse).expect("sound");
    taken.import.finish(&free).expect("nobody has ended it");
    let alone = free.taken();
    // The recipes alone would fit, with a little more.
    let short = shelf(Some(alone + 2000));
    let refused = take(&short, &parts, Broken::Refuse).expect_err("it does not fit");
    let Stopped::Full { room } = refused else {
        panic!("{refused:?}");
    };
    assert!((1..120).contains(&room), "{room}");
    clear(&short);
    assert_eq!((short.ids(), short.taken()), (Vec::new(), 0));
    // What is said to fit does.
    let taken = take(&short, &parts[..room], Broken::Refuse).expect("there is room");
    taken.import.finish(&short).expect("nobody has ended it");
    assert_eq!(short.ids().len(), room);
}

#[test]
fn an_import_ended_by_another_tab_stops() {
    let shelf = shelf(None);
    let import = Import::begin(&shelf, "b".to_owned()).expect("there is room");
    let known = Known::default();
    let mut taking = begin(&parts(&some(5)), Broken::Refuse, known, import);
    assert_eq!(taking.turn(&shelf, 5, || true), Ok(true));
    clear(&shelf);
    assert_eq!(taking.turn(&shelf, 5, || true), Err(Stopped::Ended));
    assert_eq!(taking.end().import.finish(&shelf), None);
    assert_eq!(shelf.port().keys(), [""; 0]);
    assert_eq!(shelf.port().read(JOURNAL), None);
}

/// What a worker says is text.
#[test]
fn what_is_made_ready_comes_as_it_went() {
    let mut recipes = some(3);
    recipes[1].about = "a".repeat(MOST_TEXT + 1);
    let parts = parts(&recipes);
    let ready = parts.iter().cloned().enumerate();
    let ready: Vec<_> = ready
        .map(|(place, part)| Ready::of(VERSION, place + 1, part))
        .collect();
    let text = serde_json::to_string(&ready).expect("plain data");
    let read: Vec<Ready> = serde_json::from_str(&text).expect("as it was written");
    assert_eq!(read, ready);
    // What is not sound stays as it is written.
    assert_eq!(read[1], Ready::Part(parts[1].clone()));
    assert!(matches!(read[2], Ready::Recipe { .. }));
}

#[test]
fn clearing_goes_in_turns() {
    let shelf = shelf(None);
    let taken = take(&shelf, &parts(&some(9)), Broken::Refuse).expect("sound");
    drop(taken);
    let mut left = Leftover::of(&shelf).expect("there is a journal");
    let turns = Cell::new(0);
    let enough = || {
        turns.set(turns.get() + 1);
        turns.get() % 4 == 0
    };
    assert!(left.clear(&shelf, enough));
    assert_eq!(shelf.port().hidden().len(), 5);
    assert!(left.clear(&shelf, enough));
    assert!(!left.clear(&shelf, enough));
    assert_eq!(shelf.port().keys(), [""; 0]);
}
