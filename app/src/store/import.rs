//! Recipes that are taken in together: in the end all of them are there, or
//! none is.
//!
//! Before the first is written a journal names what the ids of all of them
//! begin with, and after the last it is taken away. While it is there, these
//! recipes are not: [`Whole`] lists none of them. A tab that ends in between
//! leaves the journal, by which the next one clears away what was left.

use super::port::{Port, Refused};
use super::shelf::{Shelf, recipe_id, recipe_key};

/// What the journal is under.
pub(crate) const JOURNAL: &str = "foldwright/import";
/// What the keys begin with under which room is held.
const HELD: &str = "foldwright/import/";

/// How much room the document of a new recipe takes beside it, in hundredths of
/// the recipe's own; an import is only taken where that room is there as well.
/// The documents of the starting folds take 3.3 times their recipes, which are
/// packed and short; a little more is for those that pack worse.
pub(crate) const BESIDE: u64 = 345;
/// In what pieces that room is held while an import lasts, in UTF-16 units. Our
/// own bound: few pieces, since each costs what a recipe does, and little
/// beside all the room there is.
const PIECE: u64 = 16 * 1024;

/// What the ids of the recipes of an unfinished import begin with.
fn beginning(port: &dyn Port) -> Option<String> {
    let text = port.read(JOURNAL)?;
    (!text.is_empty()).then_some(text)
}

fn is_of(beginning: &str, key: &str) -> bool {
    recipe_id(key).is_some_and(|id| id.starts_with(beginning))
}

/// A place that hides the recipes of an unfinished import.
pub(crate) struct Whole {
    pub(crate) port: Box<dyn Port>,
}

impl Port for Whole {
    fn read(&self, key: &str) -> Option<String> {
        self.port.read(key)
    }

    fn write(&self, key: &str, text: &str) -> Result<(), Refused> {
        self.port.write(key, text)
    }

    fn remove(&self, key: &str) {
        self.port.remove(key);
    }

    fn keys(&self) -> Vec<String> {
        let mut keys = self.port.keys();
        if let Some(beginning) = beginning(&*self.port) {
            keys.retain(|key| !is_of(&beginning, key));
        }
        keys
    }

    fn changed_elsewhere(&self) {
        self.port.changed_elsewhere();
    }

    fn has(&self, key: &str) -> bool {
        self.port.has(key)
    }

    fn head(&self, key: &str) -> Option<String> {
        self.port.head(key)
    }

    fn taken_by(&self, key: &str) -> u64 {
        self.port.taken_by(key)
    }

    fn hides(&self, key: &str) -> bool {
        let ours = recipe_id(key).is_some();
        ours && beginning(&*self.port).is_some_and(|beginning| is_of(&beginning, key))
    }

    fn hidden(&self) -> Vec<String> {
        let Some(beginning) = beginning(&*self.port) else {
            return Vec::new();
        };
        let mut keys = self.port.keys();
        keys.retain(|key| is_of(&beginning, key));
        keys
    }
}

/// An import under way.
#[derive(Debug)]
pub(crate) struct Import {
    beginning: String,
    count: usize,
    /// How much room its recipes take, and how much is held beside them, in
    /// UTF-16 units.
    taken: u64,
    held: u64,
}

impl Import {
    /// Begins one whose ids begin with something no other id begins with:
    /// letters and digits, and not nothing.
    pub(crate) fn begin(shelf: &Shelf, beginning: String) -> Result<Self, Refused> {
        shelf.port().write(JOURNAL, &beginning)?;
        Ok(Self {
            beginning,
            count: 0,
            taken: 0,
            held: 0,
        })
    }

    /// How many recipes are put.
    pub(crate) fn count(&self) -> usize {
        self.count
    }

    /// Whether it is under way: another tab may have ended it. To be asked
    /// whenever one may have had the time, and before any recipe is put.
    pub(crate) fn goes_on(&self, shelf: &Shelf) -> bool {
        shelf.port().read(JOURNAL).as_ref() == Some(&self.beginning)
    }

    /// Puts one more, a sound recipe as [`packed`](super::packed) has it. When there is
    /// no room for it and what comes beside it, the import is to be ended.
    pub(crate) fn put(&mut self, shelf: &Shelf, packed: &str, at: u64) -> Result<(), Refused> {
        let id = self.id(self.count);
        shelf.put_packed(&id, packed, at)?;
        self.taken += shelf.port().taken_by(&recipe_key(&id));
        self.hold(shelf)?;
        self.count += 1;
        Ok(())
    }

    /// Lets go of the room that is held until that is enough, and says whether
    /// there is more. No recipe is put after that.
    pub(crate) fn let_go(&mut self, shelf: &Shelf, enough: impl Fn() -> bool) -> bool {
        while let Some(held) = self.held.checked_sub(PIECE) {
            self.held = held;
            shelf.port().remove(&held_key(held));
            if enough() {
                return true;
            }
        }
        false
    }

    /// Lets all recipes be there, and returns their ids. `None` where another
    /// tab has ended the import.
    pub(crate) fn finish(mut self, shelf: &Shelf) -> Option<Vec<String>> {
        if !self.goes_on(shelf) {
            return None;
        }
        self.let_go(shelf, || false);
        shelf.port().remove(JOURNAL);
        Some((0..self.count).map(|number| self.id(number)).collect())
    }

    fn id(&self, number: usize) -> String {
        format!("{}{number:04x}", self.beginning)
    }

    /// Holds the room that comes beside the recipes.
    fn hold(&mut self, shelf: &Shelf) -> Result<(), Refused> {
        while self.held < self.taken * BESIDE / 100 {
            let key = held_key(self.held);
            let filled = PIECE - key.len() as u64;
            shelf
                .port()
                .write(&key, &".".repeat(usize::try_from(filled).unwrap_or(0)))?;
            self.held += PIECE;
        }
        Ok(())
    }
}

/// Under which key a piece of room is held, by how much is held before it.
fn held_key(before: u64) -> String {
    format!("{HELD}{}", before / PIECE)
}

/// What an unfinished import has left, to be cleared away.
#[derive(Debug)]
pub(crate) struct Leftover {
    beginning: String,
    keys: Vec<String>,
}

impl Leftover {
    /// What there is, if anything.
    pub(crate) fn of(shelf: &Shelf) -> Option<Self> {
        let beginning = beginning(shelf.port())?;
        let mut keys = shelf.port().keys();
        keys.retain(|key| key.starts_with(HELD));
        keys.extend(shelf.port().hidden());
        Some(Self { beginning, keys })
    }

    /// Clears some of it away until that is enough, and says whether there is
    /// more. Nothing is cleared of an import that turns out to be finished.
    pub(crate) fn clear(&mut self, shelf: &Shelf, enough: impl Fn() -> bool) -> bool {
        while beginning(shelf.port()).as_ref() == Some(&self.beginning) {
            let Some(key) = self.keys.pop() else {
                // Last, since what it names is hidden only as long as it is there.
                shelf.port().remove(JOURNAL);
                return false;
            };
            shelf.port().remove(&key);
            if enough() {
                return true;
            }
        }
        false
    }
}
