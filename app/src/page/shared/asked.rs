//! What the server says of a link, and what this device keeps of it.

use foldwright_api::{Refused, Shared, shared};
use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::shared::{Unreadable, first, recipe};
use crate::store::{Guest, Store};

/// What the server says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stands {
    /// It is being asked.
    Asking,
    /// It has the recipe, and so has this device.
    Here,
    /// The link opens nothing, or no longer.
    Nothing,
    /// A newer Foldwright wrote what it opens.
    Newer,
    /// The server was not reached.
    Unreached,
}

/// A link that was followed.
#[derive(Clone, Copy)]
pub(super) struct Asked {
    pub(super) store: Store,
    pub(super) token: StoredValue<String>,
    /// What this device keeps.
    pub(super) guest: RwSignal<Option<Guest>>,
    pub(super) stands: RwSignal<Stands>,
}

impl Asked {
    pub(super) fn new(token: String) -> Self {
        let store = expect_context::<Store>();
        Self {
            guest: RwSignal::new(store.guest(&token)),
            token: StoredValue::new(token),
            store,
            stands: RwSignal::new(Stands::Asking),
        }
    }

    /// Asks the server, and keeps what it says. What the reader has stays
    /// until they take something else.
    pub(super) fn ask(self) {
        self.stands.set(Stands::Asking);
        let token = self.token.get_value();
        spawn_local(async move {
            let stands = match shared(token).await {
                Ok(shared) => self.heard(&shared),
                Err(Refused::Missing) => {
                    self.change(|guest| guest.ended = true);
                    Stands::Nothing
                }
                Err(_) => Stands::Unreached,
            };
            // The page may have been left meanwhile.
            self.stands.try_set(stands);
        });
    }

    fn heard(self, shared: &Shared) -> Stands {
        let recipe = match recipe(shared) {
            Ok(recipe) => recipe,
            Err(Unreadable::Newer) => return Stands::Newer,
            Err(Unreadable::Nothing) => return Stands::Nothing,
        };
        let from = &shared.from;
        match self.guest.try_get_untracked() {
            None => {}
            Some(None) => self.begin(recipe, from.clone()),
            Some(Some(_)) => self.change(|guest| {
                guest.from.clone_from(from);
                guest.ended = false;
                guest.newer = (recipe != guest.shared).then_some(recipe);
            }),
        }
        Stands::Here
    }

    fn begin(self, shared: Recipe, from: String) {
        let guest = Guest {
            from,
            shared,
            newer: None,
            ended: false,
            own: None,
        };
        if let Some(token) = self.token.try_get_value() {
            self.store.set_guest(&token, &guest);
            self.guest.try_set(Some(guest));
        }
    }

    /// Changes what this device keeps, if it keeps anything.
    pub(super) fn change(self, change: impl FnOnce(&mut Guest)) {
        let Some(Some(mut guest)) = self.guest.try_get_untracked() else {
            return;
        };
        let before = guest.clone();
        change(&mut guest);
        if guest != before
            && let Some(token) = self.token.try_get_value()
        {
            self.store.set_guest(&token, &guest);
            self.guest.try_set(Some(guest));
        }
    }

    /// The recipe in the reader's unit.
    pub(super) fn first(self, shared: &Recipe) -> Recipe {
        let settings = untrack(|| self.store.settings());
        first(shared, settings.notation)
    }
}
