//! What was deleted, here or elsewhere, and how it comes back; and what is missing
//! although nobody has deleted it.

use std::collections::BTreeMap;

use foldwright_document::{Grave, Seen};

use super::noting::{Here, here};
use super::{Came, Change, Ledger, kept, names};
use crate::store::{Refused, Shelf, recipe_key};
use crate::sync::merged;
use crate::sync::name::{self, About, SHELF};
use crate::sync::waiting::RECOVERABLE;

/// Something deleted that can be brought back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Deleted {
    /// The recipe's name in the store.
    pub(crate) id: String,
    /// What it is called.
    pub(crate) title: String,
    /// When it was deleted, in milliseconds since 1970.
    pub(crate) at: u64,
}

impl Ledger {
    /// Writes a recipe again that is missing although nobody has deleted it, where
    /// its document is still here: browsers take things away.
    pub(in crate::sync) fn find_again(
        &mut self,
        shelf: &Shelf,
        name: &str,
        at: u64,
    ) -> Result<Vec<Came>, Refused> {
        let About::Recipe(id) = name::about(name) else {
            return Ok(Vec::new());
        };
        if shelf.port().has(&recipe_key(id))
            || shelf.was_deleted(id)
            || !matches!(here(shelf, name), Here::Nothing)
            || !kept::has(shelf, name)
        {
            return Ok(Vec::new());
        }
        let page = self.open(shelf, name);
        if page.gone || page.agreed.take().is_none() {
            return Ok(Vec::new());
        }
        let came = self.show(shelf, name, at)?;
        self.keep(shelf, name)?;
        Ok(came)
    }

    /// Takes away here what others have deleted, and brings back what they
    /// have brought back.
    pub(super) fn deleted_elsewhere(
        &mut self,
        shelf: &Shelf,
        at: u64,
    ) -> Result<Vec<Came>, Refused> {
        let mut came = Vec::new();
        let graves = self.open(shelf, SHELF).document.graves();
        for name in names(shelf) {
            let About::Recipe(id) = name::about(&name) else {
                continue;
            };
            let grave = graves.get(&name);
            let buried = grave.is_some_and(|grave| self.covers(shelf, &name, grave));
            let head = self.head(shelf, &name);
            if buried && !head.gone && head.agreed {
                self.open(shelf, &name).gone = true;
                shelf.port().remove(&recipe_key(id));
                self.keep(shelf, &name)?;
                came.push(Came::Deleted(id.to_owned()));
            } else if !buried && (head.gone || !head.agreed) {
                came.extend(self.show(shelf, &name, at)?);
                self.keep(shelf, &name)?;
            }
        }
        Ok(came)
    }

    /// The recipes that somebody has deleted, which these graves do not know
    /// of, and that are here for all that.
    pub(super) fn outlived(&mut self, shelf: &Shelf, known: &BTreeMap<String, Grave>) -> Vec<Came> {
        let mut graves = self.open(shelf, SHELF).document.graves();
        graves.retain(|name, grave| known.get(name) != Some(grave));
        let mut outlived = Vec::new();
        for (name, grave) in graves {
            if let About::Recipe(id) = name::about(&name)
                && self.open(shelf, &name).agreed.is_some()
                && !self.covers(shelf, &name, &grave)
            {
                outlived.push(Came::Outlived(id.to_owned()));
            }
        }
        outlived
    }

    /// Whether something is deleted.
    pub(super) fn is_buried(&mut self, shelf: &Shelf, name: &str) -> bool {
        let graves = self.open(shelf, SHELF).document.graves();
        let grave = graves.get(name);
        grave.is_some_and(|grave| self.covers(shelf, name, grave))
    }

    /// Whether a deletion has seen all there is of something: a change nobody
    /// had seen then brings it back.
    pub(super) fn covers(&mut self, shelf: &Shelf, name: &str, grave: &Grave) -> bool {
        let state = self.open(shelf, name).document.state();
        Seen::of(&state).is_ok_and(|state| grave.seen.covers(&state))
    }

    /// What was deleted and can be brought back, the last first.
    pub(in crate::sync) fn deleted(&mut self, shelf: &Shelf, now: u64) -> Vec<Deleted> {
        let graves = self.open(shelf, SHELF).document.graves();
        let mut deleted = Vec::new();
        for (name, grave) in graves {
            let About::Recipe(id) = name::about(&name) else {
                continue;
            };
            if now.saturating_sub(grave.at) > RECOVERABLE || !self.covers(shelf, &name, &grave) {
                continue;
            }
            let page = self.open(shelf, &name);
            if let Ok(merged) = merged::recipe(&page.document) {
                deleted.push(Deleted {
                    id: id.to_owned(),
                    title: merged.recipe.name,
                    at: grave.at,
                });
            }
        }
        deleted.sort_by_key(|deleted| std::cmp::Reverse(deleted.at));
        deleted
    }

    /// Brings back a deleted recipe.
    pub(in crate::sync) fn bring_back(
        &mut self,
        shelf: &Shelf,
        id: &str,
        at: u64,
    ) -> Result<Vec<Change>, Refused> {
        let name = name::of_recipe(id);
        let changes = self.change(shelf, SHELF, |document| document.unbury(&name))?;
        self.show(shelf, &name, at)?;
        self.keep(shelf, &name)?;
        Ok(changes)
    }
}
