//! The documents this device has, beside the texts the app itself keeps. What
//! the app keeps stays the source: a document notes what has changed in it,
//! and what comes from elsewhere is put back into it.

mod deleting;
mod erasing;
mod everything;
mod kept;
mod noting;
mod paper;

use std::collections::{BTreeMap, BTreeSet};

use foldwright_document::{Document, Malformed, Past, Said, Seen};
use foldwright_engine::recipe::Recipe;
use serde_json::Value;

pub(crate) use deleting::Deleted;
pub(crate) use everything::EVERYTHING;
pub(super) use everything::{around_documents, document_in};
pub(super) use kept::document;
use kept::{Head, Kept, has, key};
use noting::Written;

use super::merged::NoRecipe;
use super::name::{self, About, SHELF};
use super::{counted, joining, merged};
use crate::store::{Record, Refused, Shelf, Stamp, progress_key};

/// The names of all documents, those of things the app keeps included.
pub(super) fn names(shelf: &Shelf) -> Vec<String> {
    let keys = shelf.port().keys();
    let mut names: Vec<String> = keys
        .iter()
        .filter_map(|key| {
            let document = document(key).map(str::to_owned);
            document.or_else(|| name::of_key(key))
        })
        .collect();
    names.sort_unstable();
    names.dedup();
    names
}

/// How many documents are left open at least. Our own bound: some megabytes.
const OPEN: usize = 100;

/// A change to be sent: of which document, and the change.
pub(super) type Change = (String, Vec<u8>);

/// What a change from elsewhere has done to what this device keeps.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Came {
    /// A recipe is new or another.
    Recipe(String),
    /// A recipe was brought together of changes that did not go together, which
    /// nobody here has looked at yet.
    Joined(String),
    /// Work at the bench has gone on.
    Bench(String),
    /// A recipe was deleted.
    Deleted(String),
    /// A recipe that was deleted is here again, or still: somebody had changed
    /// it without knowing.
    Outlived(String),
    /// There is more or less paper.
    Paper,
}

/// A document at hand.
struct Page {
    /// As it is kept in the store.
    text: String,
    document: Document,
    /// What the app kept when the two last agreed.
    agreed: Option<Value>,
    /// Which state of the recipe that was.
    noted: Option<Stamp>,
    /// The recipe that was noted last, which takes long to read anew.
    read: Option<Box<Record>>,
    /// Whether the app keeps it no longer.
    gone: bool,
    /// Whether the server may lack something of it.
    unsent: bool,
    /// Counts own changes, so that a late receipt is told from the last one.
    turn: u64,
    /// What gave way and was told here, by the names of the entries.
    told: BTreeSet<String>,
    /// What was written down and is not kept yet.
    written: Option<Written>,
}

/// The documents this device has.
pub(crate) struct Ledger {
    pages: BTreeMap<String, Page>,
    /// The documents, open or not, of which the server may lack something.
    unsent: BTreeSet<String>,
    writer: fn() -> u64,
    /// Changes that came of what was taken in, to be sent.
    own: Vec<Change>,
}

impl Ledger {
    /// The documents of this device. `writer` draws numbers no other writer
    /// has.
    pub(super) fn new(writer: fn() -> u64) -> Self {
        Self {
            pages: BTreeMap::new(),
            unsent: BTreeSet::new(),
            writer,
            own: Vec::new(),
        }
    }

    /// Takes in a change from elsewhere and puts what comes of it where the
    /// app keeps it. What the app has changed must have been noted before.
    pub(super) fn take(
        &mut self,
        shelf: &Shelf,
        name: &str,
        update: &[u8],
        at: u64,
    ) -> Result<Vec<Came>, Failed> {
        let page = self.open(shelf, name);
        let graves = page.document.graves();
        page.document.apply(update)?;
        let came = if name == SHELF {
            let mut came = self.deleted_elsewhere(shelf, at)?;
            came.extend(self.outlived(shelf, &graves));
            came.push(Came::Paper);
            came
        } else {
            self.show(shelf, name, at)?
        };
        self.keep(shelf, name)?;
        self.clear_away(shelf, name);
        Ok(came)
    }

    /// Puts what a document says where the app keeps it, if that is news.
    fn show(&mut self, shelf: &Shelf, name: &str, at: u64) -> Result<Vec<Came>, Refused> {
        if self.is_buried(shelf, name) {
            return Ok(Vec::new());
        }
        let page = self.open(shelf, name);
        let mut came = Vec::new();
        match name::about(name) {
            About::Recipe(id) => {
                let merged = match merged::recipe(&page.document) {
                    Ok(merged) => merged,
                    Err(NoRecipe::Unsound) if page.agreed.is_some() => {
                        came.extend(joining::tell_apart(shelf, id)?);
                        return Ok(came);
                    }
                    Err(_) => return Ok(came),
                };
                let now = merged::object(&merged.recipe);
                let before = page.agreed.clone();
                let was_gone = page.gone;
                if page.gone || page.agreed.as_ref() != Some(&now) {
                    page.noted = Some(shelf.adopt(id, &merged.recipe, at)?);
                    page.agreed = Some(now.clone());
                    page.gone = false;
                    came.push(Came::Recipe(id.to_owned()));
                }
                let losing = page.document.losing(&now);
                let known = std::mem::take(&mut page.told);
                page.told = losing.iter().map(|said| said.key.clone()).collect();
                let mut new = losing.clone();
                // Who has just got it has seen nothing give way.
                new.retain(|said| before.is_some() && !known.contains(&said.key));
                came.extend(joining::tell(shelf, id, &merged, &new, before.as_ref())?);
                let lose = |document: &mut Document| document.lose(&losing);
                let kept = self.change(shelf, &name::of_past(id), lose)?;
                self.own.extend(kept);
                if was_gone {
                    let graves = self.open(shelf, SHELF).document.graves();
                    // Otherwise somebody has brought it back, and knows why.
                    if graves.contains_key(name) {
                        came.push(Came::Outlived(id.to_owned()));
                    }
                }
            }
            About::Bench(id) => {
                let Some(progress) = counted::read(&page.document) else {
                    return Ok(came);
                };
                let now = serde_json::to_value(&progress).unwrap_or_default();
                if page.gone || page.agreed.as_ref() != Some(&now) {
                    let key = progress_key(id);
                    shelf.port().write(&key, &progress.text())?;
                    page.agreed = Some(now);
                    page.gone = false;
                    came.push(Came::Bench(id.to_owned()));
                }
            }
            About::Other => {}
        }
        Ok(came)
    }

    /// What a recipe was before, the latest first.
    pub(super) fn past(&mut self, shelf: &Shelf, id: &str) -> Vec<(Past, Recipe)> {
        let past = self.open(shelf, &name::of_past(id)).document.past();
        let recipes = past.into_iter().filter_map(|past| {
            let recipe = merged::whole(&past.object)?;
            Some((past, recipe))
        });
        recipes.collect()
    }

    /// What was decided about a recipe and gave way, the last first.
    pub(super) fn lost(&mut self, shelf: &Shelf, id: &str) -> Vec<Said> {
        self.open(shelf, &name::of_past(id)).document.lost()
    }

    /// The device that decided something about a recipe last, where it has a name.
    pub(super) fn last_by(&mut self, shelf: &Shelf, id: &str) -> Option<String> {
        let said = self.open(shelf, &name::of_recipe(id)).document.said();
        let last = said.into_iter().next().map(|said| said.by);
        last.filter(|by| !by.is_empty())
    }

    /// The changes that came of what was taken in, to be sent.
    pub(super) fn take_own(&mut self) -> Vec<Change> {
        std::mem::take(&mut self.own)
    }

    /// What of a document is here that one who has seen `state` lacks; `None`
    /// where that is nothing.
    pub(super) fn since(
        &mut self,
        shelf: &Shelf,
        name: &str,
        state: &[u8],
    ) -> Result<Option<Vec<u8>>, Malformed> {
        // A page that is opened anew writes once more what was not kept, so that
        // it must not be sent before.
        if self.is_written(name) && self.keep(shelf, name).is_err() {
            return Ok(None);
        }
        let page = self.open(shelf, name);
        let theirs = Seen::of(state)?;
        let own = Seen::of(&page.document.state())?;
        // What was taken away does not show in what was seen.
        if theirs.covers(&own) && !page.unsent {
            return Ok(None);
        }
        page.document.since(state).map(Some)
    }

    /// How many bytes all of a document takes to send.
    pub(super) fn size(&mut self, shelf: &Shelf, name: &str) -> usize {
        self.open(shelf, name).document.bytes().len()
    }

    /// What has been seen of a document here.
    pub(super) fn state(&mut self, shelf: &Shelf, name: &str) -> Vec<u8> {
        self.open(shelf, name).document.state()
    }

    /// Whether changes of a document have come whose beginnings are missing.
    pub(super) fn waits(&mut self, shelf: &Shelf, name: &str) -> bool {
        self.open(shelf, name).document.waits()
    }

    /// Learns whether the server may lack something of a document.
    pub(super) fn look_at(&mut self, shelf: &Shelf, name: &str) {
        if self.head(shelf, name).unsent {
            self.unsent.insert(name.to_owned());
        }
    }

    /// The documents of which the server may lack something.
    pub(super) fn unsent(&self) -> &BTreeSet<String> {
        &self.unsent
    }

    /// How many recipes the server may lack something of.
    pub(super) fn recipes_unsent(&mut self, shelf: &Shelf) -> usize {
        let names = names(shelf).into_iter();
        names
            .filter(|name| matches!(name::about(name), About::Recipe(_)))
            .filter(|name| self.head(shelf, name).unsent)
            .count()
    }

    /// Closes documents that nothing is under way of, where there are many.
    pub(super) fn close(&mut self, under_way: impl Fn(&str) -> bool) {
        if self.pages.len() > OPEN {
            self.pages
                .retain(|name, page| name == SHELF || page.written.is_some() || under_way(name));
        }
    }

    /// What is known of a document without opening it, where that goes.
    fn head(&mut self, shelf: &Shelf, name: &str) -> Head {
        Head::of(shelf, name).unwrap_or_else(|| self.open(shelf, name).head())
    }

    /// Notes that the server may lack anything of a document: it was put back
    /// to what it was before. What was taken away here does not show in what it
    /// has seen.
    pub(super) fn doubt(&mut self, shelf: &Shelf, name: &str) -> Result<(), Refused> {
        let page = self.open(shelf, name);
        if page.unsent {
            return Ok(());
        }
        page.unsent = true;
        self.keep(shelf, name)
    }

    /// Which of its own changes a document has come to.
    pub(super) fn turn(&self, name: &str) -> u64 {
        self.pages.get(name).map_or(0, |page| page.turn)
    }

    /// Notes that the server has everything up to that change.
    pub(super) fn sent(&mut self, shelf: &Shelf, name: &str, turn: u64) -> Result<(), Refused> {
        let page = self.open(shelf, name);
        if page.unsent && page.turn == turn {
            page.unsent = false;
            self.keep(shelf, name)?;
            self.clear_away(shelf, name);
        }
        Ok(())
    }

    fn change(
        &mut self,
        shelf: &Shelf,
        name: &str,
        change: impl FnOnce(&mut Document) -> Option<Vec<u8>>,
    ) -> Result<Vec<Change>, Refused> {
        let page = self.open(shelf, name);
        let Some(update) = change(&mut page.document) else {
            return Ok(Vec::new());
        };
        page.unsent = true;
        page.turn += 1;
        self.keep(shelf, name)?;
        Ok(vec![(name.to_owned(), update)])
    }

    /// The document of that name, as it is kept by now: another tab may have
    /// changed it.
    fn open(&mut self, shelf: &Shelf, name: &str) -> &mut Page {
        let text = kept::read(shelf, name);
        if text.is_none()
            && self
                .pages
                .get(name)
                .is_some_and(|page| !page.text.is_empty())
        {
            // Another tab has cleared it away.
            self.pages.remove(name);
        }
        let writer = self.writer;
        let page = self.pages.entry(name.to_owned()).or_insert_with(|| Page {
            text: String::new(),
            document: Document::new(writer()),
            agreed: None,
            noted: None,
            read: None,
            gone: false,
            unsent: false,
            turn: 0,
            told: BTreeSet::new(),
            written: None,
        });
        if let Some(text) = text
            && text != page.text
            && let Some(kept) = Kept::parse(&text)
            && page.document.apply(&kept.bytes).is_ok()
        {
            page.agreed = kept.agreed;
            page.noted = kept.head.noted;
            page.gone = kept.head.gone;
            page.unsent = kept.head.unsent;
            page.told = kept.told;
            page.turn += 1;
            page.text = text;
        }
        page
    }

    fn keep(&mut self, shelf: &Shelf, name: &str) -> Result<(), Refused> {
        let Some(page) = self.pages.get_mut(name) else {
            return Ok(());
        };
        if page.unsent {
            self.unsent.insert(name.to_owned());
        } else {
            self.unsent.remove(name);
        }
        let text = page.kept(name);
        if text != page.text {
            shelf.port().write(&key(name), &text)?;
            kept::remove_former(shelf, name);
            page.text = text;
        }
        Ok(())
    }
}

/// Why a change from elsewhere was not taken in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Failed {
    /// It is no change.
    Malformed,
    /// There is no room for it.
    Refused,
}

impl From<Malformed> for Failed {
    fn from(_: Malformed) -> Self {
        Self::Malformed
    }
}

impl From<Refused> for Failed {
    fn from(_: Refused) -> Self {
        Self::Refused
    }
}
