//! What was deleted long ago is erased: taken out of its documents, for
//! everybody, and cleared away here. A deletion itself stays known, so that a
//! device that comes late learns of it.

use std::collections::BTreeMap;

use foldwright_document::Document;

use super::{Change, Ledger, has, kept};
use crate::store::{Refused, Shelf, joined_key, recipe_key, rescued_key};
use crate::sync::merged::{self, NoRecipe};
use crate::sync::name::{self, About, SHELF};
use crate::sync::waiting;

impl Ledger {
    /// Erases what this device has known long enough to be deleted, by a count
    /// that a wrong clock cannot hurry (see [`waiting::look`]). To be called
    /// when all that others have done is here, so that nothing is erased that
    /// somebody has brought back; or in no workshop, `alone`. Returns what is
    /// to be sent.
    pub(in crate::sync) fn erase(
        &mut self,
        shelf: &Shelf,
        now: u64,
        alone: bool,
    ) -> Result<Vec<Change>, Refused> {
        let mut changes = Vec::new();
        for recipe in waiting::look(shelf.port(), waiting::DELETED, &self.buried(shelf), now) {
            let About::Recipe(id) = name::about(&recipe) else {
                continue;
            };
            let before = changes.len();
            shelf.port().remove(&rescued_key(id));
            shelf.port().remove(&joined_key(id));
            for name in name::of_all(id) {
                if !has(shelf, &name) {
                    continue;
                }
                take_from_app(shelf, &name);
                changes.extend(self.change(shelf, &name, Document::erase)?);
                let page = self.open(shelf, &name);
                page.agreed = None;
                // In no workshop there is nobody to send it to.
                page.unsent &= !alone;
                self.keep(shelf, &name)?;
            }
            if changes.len() > before {
                let noted = self.change(shelf, SHELF, |shelf| shelf.note_erased(&recipe))?;
                changes.extend(noted);
            }
            self.clear_away(shelf, &recipe);
        }
        Ok(changes)
    }

    /// Writes whole again what others have erased while it lived on here: it
    /// was changed or brought back on a device that had not heard of it for
    /// that long. Where only what was changed since would be left, nobody
    /// could read it. Returns what is to be sent.
    pub(in crate::sync) fn revive(
        &mut self,
        shelf: &Shelf,
        at: u64,
        by: &str,
    ) -> Result<Vec<Change>, Refused> {
        let mut changes = Vec::new();
        for recipe in self.open(shelf, SHELF).document.erased() {
            let About::Recipe(id) = name::about(&recipe) else {
                continue;
            };
            if !has(shelf, &recipe) || self.is_buried(shelf, &recipe) {
                continue;
            }
            let page = self.open(shelf, &recipe);
            let held = !page.gone && page.agreed.is_some();
            let whole = !matches!(
                merged::recipe(&page.document),
                Err(NoRecipe::Empty | NoRecipe::Unsound)
            );
            if !held || whole {
                continue;
            }
            for name in name::of_all(id) {
                // Noted as if nothing of it had ever been.
                self.open(shelf, &name).agreed = None;
                changes.extend(self.note(shelf, &name, at, by)?);
            }
        }
        Ok(changes)
    }

    /// Clears away here what was erased, here or elsewhere, of the recipe that
    /// document is about; once it is sent, where it is to be.
    pub(super) fn clear_away(&mut self, shelf: &Shelf, name: &str) {
        let emptied = self.open(shelf, name).document.is_empty();
        if !emptied {
            return;
        }
        for recipe in self.buried(shelf).into_keys() {
            let About::Recipe(id) = name::about(&recipe) else {
                continue;
            };
            for name in name::of_all(id) {
                let page = self.open(shelf, &name);
                if !has(shelf, &name) || page.unsent || !page.document.is_empty() {
                    continue;
                }
                self.pages.remove(&name);
                kept::remove(shelf, &name);
                self.unsent.remove(&name);
                take_from_app(shelf, &name);
                shelf.port().remove(&rescued_key(id));
                shelf.port().remove(&joined_key(id));
            }
        }
    }

    /// The deleted recipes that the app no longer keeps but of which there
    /// still is a document, and when each was deleted.
    fn buried(&mut self, shelf: &Shelf) -> BTreeMap<String, u64> {
        let mut buried = self.open(shelf, SHELF).document.graves();
        buried.retain(|name, grave| {
            let About::Recipe(id) = name::about(name) else {
                return false;
            };
            let kept = shelf.port().has(&recipe_key(id));
            let here = name::of_all(id).iter().any(|name| has(shelf, name));
            !kept && here && self.covers(shelf, name, grave)
        });
        let buried = buried.into_iter();
        buried.map(|(name, grave)| (name, grave.at)).collect()
    }
}

/// Takes away what the app keeps of what a document is about, so that it is
/// not noted anew.
fn take_from_app(shelf: &Shelf, name: &str) {
    if let Some(key) = name::key(name) {
        shelf.port().remove(&key);
    }
}
