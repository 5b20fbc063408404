//! The search, in slices short enough that the page stays alive.

use std::collections::VecDeque;
use std::time::Duration;

use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Recipe, starters};
use foldwright_engine::refit::{ScrapFit, scrap_fit};
use leptos::prelude::*;
use web_sys::js_sys::Date;

use crate::spoken::starting;
use crate::store::Store;

/// How long a slice may take, and how often what is found is shown, in
/// milliseconds: a frame is 16. Our own bounds.
const SLICE: f64 = 8.0;
const SHOWN: f64 = 120.0;

/// How long typing must pause before a search begins.
const PAUSE: Duration = Duration::from_millis(120);

/// Where a recipe comes from.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) enum From {
    /// The maker's own, by its name in the store.
    Own(String),
    /// A fold to start from.
    Starter(&'static str),
}

/// A recipe that a scrap is large enough for.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Found {
    pub(super) from: From,
    /// The recipe as it is.
    pub(super) recipe: Recipe,
    pub(super) fit: ScrapFit,
}

/// How the search stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stands {
    /// No size is given yet.
    Idle,
    /// So many recipes are looked at, of so many.
    Looking(usize, usize),
    /// All are.
    Done(usize),
}

/// A search that begins anew with each size.
#[derive(Clone, Copy)]
pub(super) struct Search {
    pub(super) stands: RwSignal<Stands>,
    /// What is found so far, the least compromise first.
    pub(super) found: RwSignal<Vec<Found>>,
    store: Store,
    scrap: Memo<Option<Size>>,
    /// Every recipe that has been read, with where it comes from.
    known: StoredValue<Vec<(From, Recipe)>>,
    unread: StoredValue<VecDeque<From>>,
    /// Which search is the present one.
    number: StoredValue<u32>,
}

impl Search {
    pub(super) fn new(store: Store, scrap: Memo<Option<Size>>) -> Self {
        let own = store.ids().into_iter().map(From::Own);
        let folds = starters().iter();
        let folds = folds.map(|starter| From::Starter(starter.id.as_str()));
        let search = Self {
            stands: RwSignal::new(Stands::Idle),
            found: RwSignal::default(),
            store,
            scrap,
            known: StoredValue::default(),
            unread: StoredValue::new(own.chain(folds).collect()),
            number: StoredValue::new(0),
        };
        Effect::new(move || {
            let size = scrap.get();
            let number = search.number.get_value().wrapping_add(1);
            search.number.set_value(number);
            match size {
                None => {
                    search.found.set(Vec::new());
                    search.stands.set(Stands::Idle);
                }
                Some(size) => set_timeout(move || search.begin(number, size), PAUSE),
            }
        });
        search
    }

    fn begin(self, number: u32, size: Size) {
        self.go_on(number, size, 0, Vec::new(), 0.0);
    }

    /// Looks at recipes until the slice is over, and goes on after the browser
    /// has had its turn. A search that is no longer the present one ends.
    fn go_on(self, number: u32, size: Size, from: usize, mut fits: Vec<Found>, shown: f64) {
        if self.number.try_get_value() != Some(number) {
            return;
        }
        let begin = Date::now();
        let mut place = from;
        while Date::now() - begin < SLICE {
            let Some((from, recipe)) = self.recipe(place) else {
                self.show(&fits);
                self.stands.set(Stands::Done(place));
                return;
            };
            if let Some(fit) = scrap_fit(&recipe, place, size, None) {
                let found = Found { from, recipe, fit };
                let at =
                    fits.partition_point(|other| other.fit.compromise() < found.fit.compromise());
                fits.insert(at, found);
            }
            place = place.saturating_add(1);
        }
        let now = Date::now();
        let shown = if now - shown < SHOWN {
            shown
        } else {
            self.show(&fits);
            let all = place.saturating_add(self.unread.with_value(VecDeque::len));
            let all = all.max(self.known.with_value(Vec::len));
            self.stands.set(Stands::Looking(place, all));
            now
        };
        set_timeout(
            move || self.go_on(number, size, place, fits, shown),
            Duration::ZERO,
        );
    }

    fn show(self, fits: &[Found]) {
        self.found.set(fits.to_vec());
    }

    /// The recipe at a place; reads it where it has not been read yet. What
    /// can't be read is left out.
    fn recipe(self, place: usize) -> Option<(From, Recipe)> {
        loop {
            let known = self.known.with_value(|known| known.get(place).cloned());
            if known.is_some() {
                return known;
            }
            let from = self.unread.try_update_value(VecDeque::pop_front)??;
            let recipe = match &from {
                From::Own(id) => self.store.read(id),
                From::Starter(id) => {
                    let starter = starters().iter().find(|starter| starter.id == *id);
                    let notation = untrack(|| self.store.settings().notation);
                    starter.map(|starter| starting(starter, notation))
                }
            };
            if let Some(recipe) = recipe {
                self.known.update_value(|known| known.push((from, recipe)));
            }
        }
    }

    /// The size that is searched for.
    pub(super) fn scrap(self) -> Option<Size> {
        self.scrap.get()
    }
}
