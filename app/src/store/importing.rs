//! What becomes of imports between tabs, and of those that were not finished.

use std::time::Duration;

use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::StorageEvent;

use super::import::{Import, JOURNAL, Leftover};
use super::shelf::{recipe_id, recipe_key};
use super::{Record, Refused, Store};
use crate::random;
use crate::turns::{Held, Turn, alone, pause};

/// Held by the tab that imports, or clears away after one that ended.
const LOCK: &str = "foldwright-import";

/// How long what another tab has kept may take to come here after that tab has
/// let go of the lock: no standard bounds it, and browsers carry the two on
/// different ways. Far more than was ever seen, also on a busy machine.
const COMING: Duration = Duration::from_secs(3);

impl Store {
    /// A kept recipe, where it can be read; nothing is said or done where not.
    pub(crate) fn peek(self, id: &str) -> Option<Recipe> {
        let key = recipe_key(id);
        let text = self.shelf.with_value(|shelf| shelf.port().read(&key))?;
        Some(Record::parse(&text).ok()?.recipe)
    }

    /// Waits until no other tab imports, and sees to it that none begins
    /// before what is returned is gone.
    pub(crate) async fn import_alone(self) -> Option<Held> {
        let held = alone(LOCK).await;
        self.clear_after_another().await;
        held
    }

    /// Clears away what the import of another tab has left, once it is certain
    /// that it is not finished.
    async fn clear_after_another(self) {
        if self.shelf.with_value(Leftover::of).is_some() {
            pause(COMING).await;
            self.clear_import().await;
        }
    }

    /// Begins an import.
    pub(crate) fn begin_import(self) -> Result<Import, Refused> {
        let beginning = format!("{:08x}{:04x}", random::short(), random::short() >> 16);
        self.shelf
            .with_value(|shelf| Import::begin(shelf, beginning))
    }

    /// Lets the recipes of an import be there. Whether they are: another tab
    /// may have ended it.
    pub(crate) async fn finish_import(self, mut import: Import) -> bool {
        let mut turn = Turn::begin();
        while self
            .shelf
            .with_value(|shelf| import.let_go(shelf, || turn.is_over()))
        {
            turn.or_next().await;
        }
        let ids = self.shelf.with_value(|shelf| import.finish(shelf));
        for id in ids.iter().flatten() {
            self.touched
                .with_value(|touched| touched.add(recipe_key(id)));
            turn.or_next().await;
        }
        self.changed();
        ids.is_some()
    }

    /// Clears away what an import has left that is not finished.
    pub(crate) async fn clear_import(self) {
        let Some(mut left) = self.shelf.with_value(Leftover::of) else {
            return;
        };
        let mut turn = Turn::begin();
        let clear = |left: &mut Leftover, turn: Turn| {
            self.shelf
                .with_value(|shelf| left.clear(shelf, || turn.is_over()))
        };
        while clear(&mut left, turn) {
            turn.or_next().await;
        }
        self.changed();
    }

    /// Clears away what a tab has left that ended while it imported.
    pub(super) fn clear_leftover(self) {
        let left = |shelf: &super::Shelf| shelf.port().read(JOURNAL).is_some();
        if self.shelf.with_value(left) {
            spawn_local(async move { drop(self.import_alone().await) });
        }
    }

    /// Another tab has begun an import or ended one.
    pub(super) fn heard_of_import(self, event: &StorageEvent) {
        if event.key().as_deref() != Some(JOURNAL) {
            return;
        }
        if event.new_value().is_some() {
            spawn_local(async move {
                // It gets its turn when that tab is done, or gone.
                if let Some(_held) = alone(LOCK).await {
                    self.clear_after_another().await;
                }
            });
        } else if let Some(beginning) = event.old_value() {
            let keys = self.shelf.with_value(|shelf| shelf.port().keys());
            for key in keys {
                if recipe_id(&key).is_some_and(|id| id.starts_with(&beginning)) {
                    self.touch(key);
                }
            }
            self.changed();
        }
    }
}
