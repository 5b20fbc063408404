//! Noting what the app has changed: first it is written into the document at hand,
//! then that is kept, and only then sent. Each of the two takes long for a large
//! recipe, so that the page may have its turn in between.

use foldwright_document::{Document, Said};
use serde_json::Value;

use super::kept::{self, Head};
use super::{Change, Ledger, Page};
use crate::store::{Progress, Record, Refused, Shelf, recipe_key};
use crate::sync::name::{self, About, SHELF};
use crate::sync::{counted, merged};

/// How long after the last kept state of a recipe another is kept, in
/// milliseconds: what is changed in one go is one step back.
const PAUSE: u64 = 10 * 60 * 1000;

/// A change that was written into its document, and what follows from it once
/// that is kept.
pub(super) struct Written {
    update: Option<Vec<u8>>,
    /// What the app kept before, where it was something.
    old: Option<Value>,
    /// What came and was written over without having been seen.
    unseen: Vec<Said>,
    /// Whether it was gone and is here again.
    returned: bool,
    at: u64,
    by: String,
}

/// What the app keeps of something.
pub(super) enum Here {
    Nothing,
    /// A later version's, or something broken that was set aside.
    Unreadable,
    /// This; of a recipe, with the recipe itself.
    This(Value, Option<Box<Record>>),
}

impl Ledger {
    /// Opens the document of something that is to be noted, which takes long for a
    /// large one.
    pub(in crate::sync) fn make_ready(&mut self, shelf: &Shelf, name: &str) {
        if !self.is_noted(shelf, name) {
            self.open(shelf, name);
        }
    }

    /// Notes what the app has changed in something. Returns what is to be
    /// sent.
    pub(in crate::sync) fn note(
        &mut self,
        shelf: &Shelf,
        name: &str,
        at: u64,
        by: &str,
    ) -> Result<Vec<Change>, Refused> {
        let mut changes = self.write_down(shelf, name, at, by)?;
        changes.extend(self.keep_written(shelf, name)?);
        Ok(changes)
    }

    /// The first half of noting: writes what the app has changed into the document
    /// at hand. What is to be sent of that comes once it is kept, so that a page
    /// which is left in between notes it anew; what is returned was noted before.
    pub(in crate::sync) fn write_down(
        &mut self,
        shelf: &Shelf,
        name: &str,
        at: u64,
        by: &str,
    ) -> Result<Vec<Change>, Refused> {
        let mut changes = self.keep_written(shelf, name)?;
        if let About::Recipe(id) = name::about(name)
            && shelf.port().has(&recipe_key(id))
        {
            // Deleted or not, it is back.
            shelf.unmark_deleted(id);
        }
        if self.is_noted(shelf, name) {
            return Ok(changes);
        }
        match here(shelf, name) {
            Here::Unreadable => {}
            Here::This(now, read) => {
                let page = self.open(shelf, name);
                page.write_down(name, now, read, at, by);
                if page.written.is_none() {
                    self.keep(shelf, name)?;
                }
            }
            Here::Nothing => changes.extend(self.bury(shelf, name, at)?),
        }
        Ok(changes)
    }

    /// The second half: keeps what was written down, and what follows from it.
    /// Returns what is to be sent.
    pub(in crate::sync) fn keep_written(
        &mut self,
        shelf: &Shelf,
        name: &str,
    ) -> Result<Vec<Change>, Refused> {
        let page = self.pages.get_mut(name);
        let Some(written) = page.and_then(|page| page.written.take()) else {
            return Ok(Vec::new());
        };
        self.keep(shelf, name)?;
        let update = written.update.map(|update| (name.to_owned(), update));
        let mut changes = Vec::from_iter(update);
        if let (About::Recipe(id), Some(old)) = (name::about(name), &written.old) {
            let lose = |document: &mut Document| document.lose(&written.unseen);
            changes.extend(self.change(shelf, &name::of_past(id), lose)?);
            changes.extend(self.remember(shelf, id, old, written.at, &written.by)?);
        }
        if written.returned {
            let dug = |document: &mut Document| document.unbury(name);
            changes.extend(self.change(shelf, SHELF, dug)?);
        }
        Ok(changes)
    }

    /// Notes that the app keeps something no longer. Returns what is to be sent.
    fn bury(&mut self, shelf: &Shelf, name: &str, at: u64) -> Result<Vec<Change>, Refused> {
        let page = self.open(shelf, name);
        if page.agreed.is_none() || page.gone || !kept::has(shelf, name) {
            return Ok(Vec::new());
        }
        let About::Recipe(id) = name::about(name) else {
            page.gone = true;
            self.keep(shelf, name)?;
            return Ok(Vec::new());
        };
        // Browsers take things away too.
        if !shelf.was_deleted(id) {
            return Ok(Vec::new());
        }
        page.gone = true;
        let state = page.document.state();
        self.keep(shelf, name)?;
        let bury = |document: &mut Document| {
            // The state was written a moment ago.
            document.bury(name, at, &state).ok().flatten()
        };
        let changes = self.change(shelf, SHELF, bury)?;
        shelf.unmark_deleted(id);
        Ok(changes)
    }

    /// Whether something was written down and is not kept yet.
    pub(super) fn is_written(&self, name: &str) -> bool {
        self.pages
            .get(name)
            .is_some_and(|page| page.written.is_some())
    }

    /// Whether a document knows the recipe just as it is kept, or that it is
    /// kept no longer.
    fn is_noted(&self, shelf: &Shelf, name: &str) -> bool {
        let About::Recipe(id) = name::about(name) else {
            return false;
        };
        let open = self.pages.get(name).map(Page::head);
        let Some(head) = open.or_else(|| Head::of(shelf, name)) else {
            return false;
        };
        let stamp = shelf.stamp(id);
        if head.gone {
            stamp.is_none() && !shelf.port().has(&recipe_key(id))
        } else {
            head.agreed && stamp.is_some() && head.noted == stamp
        }
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
}

impl Page {
    /// Writes what the app has now into the document; nothing where it had that
    /// before.
    fn write_down(&mut self, name: &str, now: Value, read: Option<Box<Record>>, at: u64, by: &str) {
        let returned = std::mem::take(&mut self.gone);
        let noted = self.noted;
        let was = std::mem::replace(&mut self.read, read);
        let was = was.filter(|was| noted == Some(was.stamp));
        self.noted = self.read.as_ref().map(|read| read.stamp);
        if !returned && self.agreed.as_ref() == Some(&now) {
            return;
        }
        let old = self.agreed.take().unwrap_or(Value::Null);
        let document = &mut self.document;
        // What came and could not be shown may be written over.
        let mut unseen = document.losing(&old);
        let update = match name::about(name) {
            About::Bench(_) => counted::write(document, &old, &now),
            About::Recipe(_) | About::Other => {
                let recipes = [&was, &self.read].map(|read| read.as_ref().map(|read| &read.recipe));
                merged::write(document, [&old, &now], recipes, at, by)
            }
        };
        let left = self.document.said();
        unseen.retain(|said| !left.contains(said));
        if update.is_some() {
            self.unsent = true;
            self.turn += 1;
        }
        self.agreed = Some(now);
        self.written = Some(Written {
            update,
            old: Some(old).filter(Value::is_object),
            unseen,
            returned,
            at,
            by: by.to_owned(),
        });
    }
}

pub(super) fn here(shelf: &Shelf, name: &str) -> Here {
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
            record.map(|record| (merged::object(&record.recipe), Some(Box::new(record))))
        }
        About::Bench(_) => {
            let progress = Progress::parse(&text);
            let value = progress.and_then(|progress| serde_json::to_value(progress).ok());
            value.map(|value| (value, None))
        }
        About::Other => None,
    };
    value.map_or(Here::Unreadable, |(value, read)| Here::This(value, read))
}
