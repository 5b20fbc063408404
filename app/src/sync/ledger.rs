//! The documents this device has, beside the texts the app itself keeps. What
//! the app keeps stays the source: a document notes what has changed in it,
//! and what comes from elsewhere is put back into it.

mod deleting;
mod erasing;

use std::collections::{BTreeMap, BTreeSet};

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use foldwright_document::{Document, Malformed, Past, Said, Seen};
use foldwright_engine::recipe::Recipe;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value, json};

pub(crate) use deleting::Deleted;

use super::name::{self, About, SHELF};
use super::{counted, joining, merged};
use crate::store::{Progress, Record, Refused, Shelf, progress_key, versioned};

const DOCUMENTS: &str = "foldwright/document/";
/// What tells a file of documents.
const BACKUP: &str = "foldwright_backup";

/// The names of all documents, those of things the app keeps included.
pub(super) fn names(shelf: &Shelf) -> Vec<String> {
    let keys = shelf.port().keys();
    let mut names: Vec<String> = keys
        .iter()
        .filter_map(|key| {
            let document = key.strip_prefix(DOCUMENTS).map(str::to_owned);
            document.or_else(|| name::of_key(key))
        })
        .collect();
    names.sort_unstable();
    names.dedup();
    names
}

/// The documents in the text of a file that [`Ledger::everything`] or a server
/// wrote; `None` where it is no such file.
pub(super) fn documents_in(text: &str) -> Option<Vec<Change>> {
    let file: Value = serde_json::from_str(text).ok()?;
    file.get(BACKUP)?;
    let documents = file.get("documents")?.as_object()?;
    let read = |(name, bytes): (&String, &Value)| {
        let bytes = BASE64_STANDARD.decode(bytes.as_str()?).ok()?;
        Some((name.clone(), bytes))
    };
    documents.iter().map(read).collect()
}

/// The key under which a document is kept.
fn key(name: &str) -> String {
    format!("{DOCUMENTS}{name}")
}

/// The document that is kept under a key.
pub(super) fn document(key: &str) -> Option<&str> {
    key.strip_prefix(DOCUMENTS)
}

/// How long after the last kept state of a recipe another is kept, in
/// milliseconds: what is changed in one go is one step back.
const PAUSE: u64 = 10 * 60 * 1000;

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
    /// Whether the app keeps it no longer.
    gone: bool,
    /// Whether the server may lack something of it.
    unsent: bool,
    /// Counts own changes, so that a late receipt is told from the last one.
    turn: u64,
    /// What gave way and was told here, by the names of the entries.
    told: BTreeSet<String>,
}

/// A document as it is kept.
#[derive(Serialize, Deserialize)]
struct Kept {
    bytes: String,
    agreed: Option<Value>,
    #[serde(default)]
    gone: bool,
    #[serde(default)]
    unsent: bool,
    #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
    told: BTreeSet<String>,
}

/// The documents this device has.
pub(crate) struct Ledger {
    pages: BTreeMap<String, Page>,
    writer: fn() -> u64,
    /// Changes that came of what was taken in, to be sent.
    own: Vec<Change>,
}

/// What the app keeps of something.
enum Here {
    Nothing,
    /// A later version's, or something broken that was set aside.
    Unreadable,
    This(Value),
}

impl Ledger {
    /// The documents of this device. `writer` draws numbers no other writer
    /// has.
    pub(super) fn new(writer: fn() -> u64) -> Self {
        Self {
            pages: BTreeMap::new(),
            writer,
            own: Vec::new(),
        }
    }

    /// Notes what the app has changed in something. Returns what is to be
    /// sent.
    pub(super) fn note(
        &mut self,
        shelf: &Shelf,
        name: &str,
        at: u64,
        by: &str,
    ) -> Result<Vec<Change>, Refused> {
        let here = here(shelf, name);
        let mut changes = Vec::new();
        let page = self.open(shelf, name);
        match here {
            Here::Unreadable => {}
            Here::This(now) => {
                let returned = std::mem::take(&mut page.gone);
                let before = page.agreed.clone();
                if !returned && before.as_ref() == Some(&now) {
                    return Ok(changes);
                }
                let old = before.unwrap_or(Value::Null);
                let document = &mut page.document;
                let update = match name::about(name) {
                    About::Bench(_) => counted::write(document, &old, &now),
                    About::Recipe(_) | About::Other => merged::write(document, &old, &now, at, by),
                };
                if let Some(update) = update {
                    page.unsent = true;
                    page.turn += 1;
                    changes.push((name.to_owned(), update));
                }
                page.agreed = Some(now);
                self.keep(shelf, name)?;
                if let (About::Recipe(id), true) = (name::about(name), old.is_object()) {
                    changes.extend(self.remember(shelf, id, &old, at, by)?);
                }
                if returned {
                    let dug = |document: &mut Document| document.unbury(name);
                    changes.extend(self.change(shelf, SHELF, dug)?);
                }
            }
            Here::Nothing => {
                if page.agreed.is_none() || page.gone {
                    return Ok(changes);
                }
                page.gone = true;
                let state = page.document.state();
                self.keep(shelf, name)?;
                if matches!(name::about(name), About::Recipe(_)) {
                    let bury = |document: &mut Document| {
                        // The state was written a moment ago.
                        document.bury(name, at, &state).ok().flatten()
                    };
                    changes.extend(self.change(shelf, SHELF, bury)?);
                }
            }
        }
        Ok(changes)
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
                let Ok(merged) = merged::recipe(&page.document) else {
                    return Ok(came);
                };
                let now = merged::object(&merged.recipe);
                let before = page.agreed.clone();
                let was_gone = page.gone;
                if page.gone || page.agreed.as_ref() != Some(&now) {
                    shelf.adopt(id, &merged.recipe, at)?;
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
            let recipe = Recipe::deserialize(&past.object).ok()?;
            recipe.check_kept().is_empty().then_some((past, recipe))
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

    /// Keeps what a recipe was before, unless it was changed just now.
    fn remember(
        &mut self,
        shelf: &Shelf,
        id: &str,
        old: &Value,
        at: u64,
        by: &str,
    ) -> Result<Vec<Change>, Refused> {
        let name = name::of_past(id);
        let last = self.open(shelf, &name).document.past();
        if last
            .first()
            .is_some_and(|last| at < last.at.saturating_add(PAUSE))
        {
            return Ok(Vec::new());
        }
        self.change(shelf, &name, |document| document.remember(at, by, old))
    }

    /// How many sheets there are of each paper.
    pub(super) fn paper(&mut self, shelf: &Shelf) -> BTreeMap<String, i64> {
        self.open(shelf, SHELF).document.counts()
    }

    /// Adds so many sheets of a paper; takes some away with less than nothing.
    pub(super) fn add_paper(
        &mut self,
        shelf: &Shelf,
        paper: &str,
        by: i64,
    ) -> Result<Vec<Change>, Refused> {
        self.change(shelf, SHELF, |document| document.add(paper, by))
    }

    /// Every document, as the text of one file.
    pub(super) fn everything(&mut self, shelf: &Shelf) -> String {
        let mut documents = Map::new();
        for name in names(shelf) {
            let bytes = self.open(shelf, &name).document.bytes();
            documents.insert(name, BASE64_STANDARD.encode(bytes).into());
        }
        json!({ BACKUP: 1, "documents": documents }).to_string()
    }

    /// What of a document is here that one who has seen `state` lacks; `None`
    /// where that is nothing.
    pub(super) fn since(
        &mut self,
        shelf: &Shelf,
        name: &str,
        state: &[u8],
    ) -> Result<Option<Vec<u8>>, Malformed> {
        let page = self.open(shelf, name);
        let theirs = Seen::of(state)?;
        let own = Seen::of(&page.document.state())?;
        // What was taken away does not show in what was seen.
        if theirs.covers(&own) && !page.unsent {
            return Ok(None);
        }
        page.document.since(state).map(Some)
    }

    /// What has been seen of a document here.
    pub(super) fn state(&mut self, shelf: &Shelf, name: &str) -> Vec<u8> {
        self.open(shelf, name).document.state()
    }

    /// Whether changes of a document have come whose beginnings are missing.
    pub(super) fn waits(&mut self, shelf: &Shelf, name: &str) -> bool {
        self.open(shelf, name).document.waits()
    }

    /// Whether the server may lack something of the documents at hand.
    pub(super) fn has_unsent(&self) -> bool {
        self.pages.values().any(|page| page.unsent)
    }

    /// How many recipes the server may lack something of.
    pub(super) fn recipes_unsent(&mut self, shelf: &Shelf) -> usize {
        let names = names(shelf).into_iter();
        names
            .filter(|name| matches!(name::about(name), About::Recipe(_)))
            .filter(|name| self.open(shelf, name).unsent)
            .count()
    }

    /// Notes that the server may lack anything of these documents: it was put
    /// back to what it was before. What was taken away here does not show in
    /// what it has seen.
    pub(super) fn doubt(&mut self, shelf: &Shelf, names: &[String]) -> Result<(), Refused> {
        for name in names {
            self.open(shelf, name).unsent = true;
            self.keep(shelf, name)?;
        }
        Ok(())
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
        let text = shelf.port().read(&key(name));
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
            gone: false,
            unsent: false,
            turn: 0,
            told: BTreeSet::new(),
        });
        if let Some(text) = text
            && text != page.text
        {
            let kept = versioned::body(&text).and_then(|body| Kept::deserialize(body).ok());
            if let Some(kept) = kept
                && let Ok(bytes) = BASE64_STANDARD.decode(&kept.bytes)
                && page.document.apply(&bytes).is_ok()
            {
                page.agreed = kept.agreed;
                page.gone = kept.gone;
                page.unsent = kept.unsent;
                page.told = kept.told;
                page.turn += 1;
                page.text = text;
            }
        }
        page
    }

    fn keep(&mut self, shelf: &Shelf, name: &str) -> Result<(), Refused> {
        let Some(page) = self.pages.get_mut(name) else {
            return Ok(());
        };
        let text = versioned::text(&Kept {
            bytes: BASE64_STANDARD.encode(page.document.bytes()),
            agreed: page.agreed.clone(),
            gone: page.gone,
            unsent: page.unsent,
            told: page.told.clone(),
        });
        if text != page.text {
            shelf.port().write(&key(name), &text)?;
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

fn here(shelf: &Shelf, name: &str) -> Here {
    let Some(key) = name::key(name) else {
        return Here::Unreadable;
    };
    let Some(text) = shelf.port().read(&key) else {
        let aside = shelf.asides().iter().any(|aside| aside.name() == key);
        return if aside {
            Here::Unreadable
        } else {
            Here::Nothing
        };
    };
    let value = match name::about(name) {
        About::Recipe(_) => {
            let record = Record::parse(&text).ok();
            record.map(|record| merged::object(&record.recipe))
        }
        About::Bench(_) => {
            Progress::parse(&text).and_then(|progress| serde_json::to_value(progress).ok())
        }
        About::Other => None,
    };
    value.map_or(Here::Unreadable, Here::This)
}
