//! The kept recipes, and the rules by which several tabs share them.

use foldwright_engine::recipe::{Recipe, shortened};
use serde_json::Value;

use super::guest::is_version;
use super::port::{Port, Refused};
use super::record::{Record, Stamp, file_in, readable, stamp_of};
use crate::part::download;
use crate::spoken::first;

const RECIPES: &str = "foldwright/recipe/";
/// What the keys of the marks begin with that say a recipe was deleted here.
const DELETED: &str = "foldwright/deleted-here/";
const ASIDE: &str = "foldwright/aside/";
/// What is added to the key of something set aside while another thing of that
/// key is aside already.
const ASIDE_TOO: char = '+';

/// The key a recipe is kept under.
pub fn recipe_key(id: &str) -> String {
    format!("{RECIPES}{id}")
}

/// The recipe a key is for; `None` for keys of other things.
pub fn recipe_id(key: &str) -> Option<&str> {
    key.strip_prefix(RECIPES).filter(|id| !id.is_empty())
}

fn deleted_key(id: &str) -> String {
    format!("{DELETED}{id}")
}

/// The recipe of which a key says that it was deleted here; `None` for keys of
/// other things.
pub(crate) fn deleted_id(key: &str) -> Option<&str> {
    key.strip_prefix(DELETED).filter(|id| !id.is_empty())
}

/// A kept text that could not be understood and was moved out of the way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Aside {
    /// The key it is under now.
    pub key: String,
    /// The text, as it was.
    pub text: String,
}

impl Aside {
    /// What the maker called it, where it is a recipe and that can be read.
    pub fn title(&self) -> Option<String> {
        let file: Value = serde_json::from_str(file_in(&self.text)).ok()?;
        let name = file.get("recipes")?.get(0)?.get("name")?.as_str()?.trim();
        (!name.is_empty()).then(|| shortened(name).to_owned())
    }

    /// Offers it as a file, as it is.
    pub(crate) fn download(&self) {
        download("foldwright-set-aside.txt", &self.text);
    }

    /// Under which key it was kept.
    pub fn name(&self) -> &str {
        let key = self.key.strip_prefix(ASIDE).unwrap_or(&self.key);
        key.trim_end_matches(ASIDE_TOO)
    }
}

/// Why a recipe can't be shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotLoaded {
    /// There is none of that name.
    Missing,
    /// A later Foldwright saved it. It stays where it is.
    Newer,
    /// What was kept can't be understood. `None` where there was no room to
    /// move it, so that it stays where it is.
    Broken(Option<Aside>),
}

/// A recipe as this tab knows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Held {
    /// Its name in the store.
    pub id: String,
    /// The kept state this tab has seen last; `None` once it was deleted.
    seen: Option<Stamp>,
    /// The recipe in that state.
    saved: Recipe,
}

/// What saving came to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Saved {
    /// Nothing had changed.
    Unchanged,
    /// The change is kept.
    Kept,
    /// The change is kept, and the recipe with it, which another tab had
    /// deleted.
    Revived,
    /// Another tab had changed the recipe too. Both are kept: this tab's under
    /// a name of its own, and the other one is to be shown here.
    Apart(Box<Apart>),
}

/// Two states of one recipe, neither of which knows of the other.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Apart {
    /// Where this tab's state is kept now.
    pub copy: String,
    /// What the other tab kept.
    pub theirs: Recipe,
}

/// What another tab's saving means for this one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Arrived {
    /// Nothing.
    Nothing,
    /// This is the recipe now.
    Taken(Box<Recipe>),
    /// It was deleted. It is still here and kept again with the next change.
    Deleted,
    /// Both tabs changed it; both states are kept.
    Apart(Box<Apart>),
}

/// The kept recipes.
pub struct Shelf {
    port: Box<dyn Port>,
    tab: u32,
}

impl Shelf {
    /// The recipes in a place, for a tab with a number of its own.
    pub fn new(port: Box<dyn Port>, tab: u32) -> Self {
        Self { port, tab }
    }

    /// The place itself, for things other than recipes.
    pub fn port(&self) -> &dyn Port {
        &*self.port
    }

    /// The names of all kept recipes that are the maker's own.
    pub fn ids(&self) -> Vec<String> {
        let keys = self.port.keys();
        keys.iter()
            .filter_map(|key| recipe_id(key))
            .filter(|id| !is_version(id))
            .map(str::to_owned)
            .collect()
    }

    /// Whether there is any recipe, be it one that was moved aside.
    pub(crate) fn has_recipes(&self) -> bool {
        let keys = self.port.keys();
        let mut keys = keys
            .iter()
            .map(|key| key.strip_prefix(ASIDE).unwrap_or(key));
        keys.any(|key| recipe_id(key).is_some_and(|id| !is_version(id)))
    }

    /// A kept recipe. What can't be understood is moved aside.
    pub fn load(&self, id: &str) -> Result<Record, NotLoaded> {
        let key = recipe_key(id);
        let Some(text) = self.port.read(&key) else {
            let mut asides = self.asides().into_iter();
            let aside = asides.find(|aside| aside.name() == key);
            return Err(aside.map_or(NotLoaded::Missing, |aside| NotLoaded::Broken(Some(aside))));
        };
        Record::parse(&text).map_err(|why| {
            if why.is_newer() {
                NotLoaded::Newer
            } else {
                NotLoaded::Broken(self.move_aside(&key, readable(&text)).ok())
            }
        })
    }

    /// Takes a recipe in hand.
    pub fn open(&self, id: &str) -> Result<Held, NotLoaded> {
        let Record { stamp, recipe } = self.load(id)?;
        Ok(Held {
            id: id.to_owned(),
            seen: Some(stamp),
            saved: recipe,
        })
    }

    /// Keeps a new recipe.
    pub fn put(&self, id: &str, recipe: &Recipe, at: u64) -> Result<(), Refused> {
        self.keep(id, recipe, None, at).map(drop)
    }

    /// Keeps a new recipe that is sound and packed already.
    pub(super) fn put_packed(&self, id: &str, packed: &str, at: u64) -> Result<(), Refused> {
        let text = self.next(None, at).before(packed);
        self.port.write(&recipe_key(id), &text)
    }

    /// How much is kept, in UTF-16 units, keys and all.
    #[cfg(test)]
    pub(crate) fn taken(&self) -> u64 {
        let keys = self.port.keys();
        keys.iter().map(|key| self.port.taken_by(key)).sum()
    }

    /// Which state of a recipe is kept, without reading the recipe.
    pub(crate) fn stamp(&self, id: &str) -> Option<Stamp> {
        stamp_of(&self.port.head(&recipe_key(id))?)
    }

    /// Keeps what a recipe has become elsewhere, on top of what is kept here.
    pub fn adopt(&self, id: &str, recipe: &Recipe, at: u64) -> Result<Stamp, Refused> {
        self.keep(id, recipe, self.stamp(id), at)
    }

    /// Keeps a recipe in hand unless another tab was faster; `fresh` is an
    /// unused name should the two have to part.
    pub fn save(
        &self,
        held: &mut Held,
        recipe: &Recipe,
        fresh: impl FnOnce() -> String,
        at: u64,
    ) -> Result<Saved, Refused> {
        if *recipe == held.saved {
            return Ok(Saved::Unchanged);
        }
        let key = recipe_key(&held.id);
        let stored = self.port.read(&key);
        let stamp = stored.as_deref().and_then(stamp_of);
        let mut saved = Saved::Kept;
        match stored {
            None if held.seen.is_some() => saved = Saved::Revived,
            None => {}
            Some(_) if stamp.is_some() && stamp == held.seen => {}
            Some(text) => match Record::parse(&text) {
                // Another tab came to the very same recipe.
                Ok(theirs) if theirs.recipe == *recipe => {
                    held.take(theirs);
                    return Ok(Saved::Kept);
                }
                Ok(theirs) => {
                    return self
                        .part(held, recipe, theirs, fresh(), at)
                        .map(Saved::Apart);
                }
                // Not ours to overwrite, whatever it is.
                Err(_) => drop(self.move_aside(&key, readable(&text))?),
            },
        }
        let stamp = self.keep(&held.id, recipe, held.seen.or(stamp), at)?;
        held.take(Record {
            stamp,
            recipe: recipe.clone(),
        });
        Ok(saved)
    }

    /// Takes up what another tab has put under the recipe's key. `present` is
    /// the recipe as it is in this tab.
    pub fn arrived(
        &self,
        held: &mut Held,
        present: &Recipe,
        text: Option<&str>,
        fresh: impl FnOnce() -> String,
        at: u64,
    ) -> Result<Arrived, Refused> {
        let Some(text) = text else {
            // It may be back already.
            if self.port.read(&recipe_key(&held.id)).is_some() {
                return Ok(Arrived::Nothing);
            }
            held.seen = None;
            return Ok(Arrived::Deleted);
        };
        let Ok(event) = Record::parse(text) else {
            return Ok(Arrived::Nothing);
        };
        let stored = self.port.read(&recipe_key(&held.id));
        // News may be late: what is kept by now is what counts.
        let latest = stored
            .and_then(|text| Record::parse(&text).ok())
            .unwrap_or_else(|| event.clone());
        if [event.stamp, latest.stamp].map(Some).contains(&held.seen) {
            return Ok(Arrived::Nothing);
        }
        if latest.recipe == *present {
            held.take(latest);
            return Ok(Arrived::Nothing);
        }
        let follows = held
            .seen
            .is_none_or(|seen| event.stamp.revision > seen.revision);
        if follows && *present == held.saved {
            let recipe = latest.recipe.clone();
            held.take(latest);
            return Ok(Arrived::Taken(Box::new(recipe)));
        }
        self.part(held, present, latest, fresh(), at)
            .map(Arrived::Apart)
    }

    /// Deletes a recipe for its maker and returns its text, so that it can be put
    /// back. A mark says that somebody did so: browsers take things away too.
    pub fn delete(&self, id: &str) -> Option<String> {
        let key = recipe_key(id);
        let text = self.port.read(&key)?;
        let mark = || self.port.write(&deleted_key(id), "");
        // The mark comes first, so that no other tab finds it missing.
        let marked = mark();
        self.port.remove(&key);
        // Without room before, there is some now.
        let _ = marked.or_else(|_| mark());
        Some(text)
    }

    /// Whether a recipe was deleted here and nobody has noted it yet.
    pub(crate) fn was_deleted(&self, id: &str) -> bool {
        self.port.has(&deleted_key(id))
    }

    /// Takes the mark away that says a recipe was deleted here.
    pub(crate) fn unmark_deleted(&self, id: &str) {
        if self.was_deleted(id) {
            self.port.remove(&deleted_key(id));
        }
    }

    /// Puts a deleted recipe back.
    pub fn put_back(&self, id: &str, text: &str) -> Result<(), Refused> {
        self.port.write(&recipe_key(id), text)
    }

    /// Everything that was moved aside.
    pub fn asides(&self) -> Vec<Aside> {
        let mut keys = self.port.keys();
        keys.retain(|key| key.starts_with(ASIDE));
        keys.sort_unstable();
        keys.into_iter()
            .filter_map(|key| {
                let text = self.port.read(&key)?;
                Some(Aside { key, text })
            })
            .collect()
    }

    /// Moves a text out of the way without losing it: it is only taken from
    /// its old key once it is under the new one.
    pub fn move_aside(&self, key: &str, text: String) -> Result<Aside, Refused> {
        let mut aside = format!("{ASIDE}{key}");
        while self.port.read(&aside).is_some_and(|held| held != text) {
            aside.push(ASIDE_TOO);
        }
        self.port.write(&aside, &text)?;
        self.port.remove(key);
        Ok(Aside { key: aside, text })
    }

    fn keep(
        &self,
        id: &str,
        recipe: &Recipe,
        after: Option<Stamp>,
        at: u64,
    ) -> Result<Stamp, Refused> {
        if !recipe.check_kept().is_empty() {
            return Err(Refused::Unreadable);
        }
        let stamp = self.next(after, at);
        self.port.write(&recipe_key(id), &stamp.text_of(recipe))?;
        Ok(stamp)
    }

    /// The state that this tab keeps after another.
    fn next(&self, after: Option<Stamp>, at: u64) -> Stamp {
        Stamp {
            revision: after.map_or(0, |stamp| stamp.revision).saturating_add(1),
            tab: self.tab,
            at,
        }
    }

    fn part(
        &self,
        held: &mut Held,
        mine: &Recipe,
        theirs: Record,
        copy: String,
        at: u64,
    ) -> Result<Box<Apart>, Refused> {
        let mut mine = mine.clone();
        mine.add_to_name(first().from_another_tab);
        self.put(&copy, &mine, at)?;
        let recipe = theirs.recipe.clone();
        held.take(theirs);
        Ok(Box::new(Apart {
            copy,
            theirs: recipe,
        }))
    }
}

impl Held {
    /// The recipe as it was last kept.
    pub fn saved(&self) -> &Recipe {
        &self.saved
    }

    fn take(&mut self, record: Record) {
        self.seen = Some(record.stamp);
        self.saved = record.recipe;
    }
}
