//! A recipe to which something is added beside its card, wherever it is shown.

use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;

use crate::history::History;
use crate::store::Store;

/// A recipe that a page shows, with undo for it, and its name in the store.
#[derive(Clone, Copy)]
pub(crate) struct Edited {
    pub(crate) recipe: RwSignal<Recipe>,
    pub(crate) history: History,
    store: Store,
    id: StoredValue<String>,
}

impl Edited {
    pub(crate) fn new(
        recipe: RwSignal<Recipe>,
        history: History,
        store: Store,
        id: StoredValue<String>,
    ) -> Self {
        Self {
            recipe,
            history,
            store,
            id,
        }
    }

    /// Makes a change of the recipe later, also where its page was left by then.
    pub(crate) fn later(
        self,
        change: impl Fn(&mut Recipe) + Send + Sync + 'static,
    ) -> impl Fn() + Send + Sync + 'static {
        let id = self.id.get_value();
        move || {
            if self.history.is_here() {
                self.history.edit(&change);
            } else {
                self.store.change(&id, &change);
            }
        }
    }
}
