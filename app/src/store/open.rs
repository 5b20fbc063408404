//! A recipe in hand: one signal that is kept with every change.

use std::sync::Arc;
use std::time::Duration;

use foldwright_engine::recipe::{Ids, Recipe};
use leptos::ev;
use leptos::prelude::*;
use web_sys::StorageEvent;

use super::elsewhere::Hand;
use super::shelf::{Apart, Arrived, Held, NotLoaded, Saved, recipe_key};
use super::{Store, fresh_id, now};
use crate::history::History;
use crate::notice::Notice;
use crate::random;
use crate::spoken::first;

/// An open recipe. Lives as long as the page that opened it.
#[derive(Clone, Copy)]
pub struct Open {
    /// The recipe; every change is kept at once.
    pub recipe: RwSignal<Recipe>,
    /// Undo and redo for it.
    pub history: History,
}

impl Store {
    /// Opens a recipe for the page at hand.
    pub fn open(self, id: &str) -> Result<Open, NotLoaded> {
        let held = self.shelf.with_value(|shelf| shelf.open(id));
        let held = held.inspect_err(|why| self.report(why))?;
        let mut recipe = held.saved().clone();
        // What is added here is named as nothing added elsewhere is.
        recipe.ids = Ids::from_start(random::short() | 1);
        let recipe = RwSignal::new(recipe);
        let open = Open {
            recipe,
            history: History::of(recipe),
        };
        let key = recipe_key(id);
        let held = StoredValue::new(held);

        // A frame is for showing the change. It is kept right after, and where
        // the page goes before that, then.
        let waits = StoredValue::new(false);
        let save = move || {
            if waits.try_update_value(std::mem::take) == Some(true) {
                self.save(open, held);
            }
        };
        Effect::new(move || {
            open.recipe.track();
            waits.set_value(true);
            set_timeout(save, Duration::ZERO);
        });
        let leaving = window_event_listener(ev::pagehide, move |_| save());
        let listener = window_event_listener(ev::storage, move |event: StorageEvent| {
            if event.key().is_none_or(|changed| changed == key) {
                self.arrived(open, held, event.new_value().as_deref());
            }
        });
        let hand = Hand {
            key: recipe_key(id),
            save: Arc::new(save),
            came: Arc::new(move |text| self.arrived(open, held, text)),
        };
        self.elsewhere.hand.set_value(Some(hand));
        self.say_joined(id);
        on_cleanup(move || {
            save();
            self.elsewhere.hand.set_value(None);
            leaving.remove();
            listener.remove();
            // What could not be kept has been said, and is offered as a file.
            self.unsaved.set(false);
        });
        Ok(open)
    }

    fn save(self, open: Open, held: StoredValue<Held>) {
        let recipe = open.recipe.get_untracked();
        let saved = held
            .try_update_value(|held| {
                self.shelf
                    .with_value(|shelf| shelf.save(held, &recipe, fresh_id, now()))
            })
            .unwrap_or(Ok(Saved::Unchanged));
        self.unsaved.set(saved.is_err());
        match self.told(saved, || vec![recipe]) {
            None | Some(Saved::Unchanged) => {}
            Some(Saved::Kept) => self.changed(),
            Some(Saved::Revived) => {
                self.changed();
                self.notices.show(Notice::plain(first().revived));
            }
            Some(Saved::Apart(apart)) => self.apart(open, apart),
        }
    }

    fn arrived(self, open: Open, held: StoredValue<Held>, text: Option<&str>) {
        let Some(present) = open.recipe.try_get_untracked() else {
            return;
        };
        let arrived = held
            .try_update_value(|held| {
                self.shelf
                    .with_value(|shelf| shelf.arrived(held, &present, text, fresh_id, now()))
            })
            .unwrap_or(Ok(Arrived::Nothing));
        match self.told(arrived, || vec![present]) {
            None | Some(Arrived::Nothing) => {}
            Some(Arrived::Taken(mut theirs)) => {
                theirs.ids = open.recipe.with_untracked(|recipe| recipe.ids);
                open.history.arrived(*theirs);
            }
            Some(Arrived::Deleted) => {
                self.notices.show(Notice::plain(first().deleted_elsewhere));
            }
            Some(Arrived::Apart(apart)) => self.apart(open, apart),
        }
    }

    fn apart(self, open: Open, mut apart: Box<Apart>) {
        self.changed();
        open.history.forget();
        apart.theirs.ids = open.recipe.with_untracked(|recipe| recipe.ids);
        open.recipe.set(apart.theirs);
        let address = format!("/recipe/{}", apart.copy);
        self.notices.show(
            Notice::warning("apart", first().changed_in_another_tab)
                .with_link(first().open_my_copy, address),
        );
    }
}
