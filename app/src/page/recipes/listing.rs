//! Which recipes the list shows: read and searched in turns, so that the page
//! is alive however many there are.

use std::collections::HashMap;
use std::time::Duration;

use leptos::prelude::*;
use web_sys::js_sys::Date;

use crate::spoken::texts;
use crate::store::{Listed, Store};
use crate::turns::Turn;

/// So many are shown at first, and so many more each time: about as many as a
/// thumb goes through. Our own bound.
const SHOWN: usize = 60;
/// How often what is found is shown while more is looked for, in milliseconds.
const OFTEN: f64 = 120.0;

/// How the search stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stands {
    /// So many recipes are looked at.
    Looking(usize),
    Done,
}

/// The recipes of the list.
#[derive(Clone, Copy)]
pub(super) struct Listing {
    store: Store,
    /// All of them, the one changed last first, once they are read.
    all: RwSignal<Option<Vec<Listed>>>,
    pub(super) sought: RwSignal<String>,
    found: RwSignal<Vec<Listed>>,
    stands: RwSignal<Stands>,
    /// How many of those found are wanted on the page, and how many are there: they are
    /// drawn one by one, with time for the page in between.
    wanted: RwSignal<usize>,
    drawn: RwSignal<usize>,
    /// What recipes are called in the state that was read last, in small
    /// letters.
    titles: StoredValue<HashMap<Listed, String>>,
    /// Which reading and which search are the present ones.
    reading: StoredValue<u32>,
    search: StoredValue<u32>,
}

impl Listing {
    pub(super) fn new(store: Store) -> Self {
        let listing = Self {
            store,
            all: RwSignal::new(None),
            sought: RwSignal::default(),
            found: RwSignal::default(),
            stands: RwSignal::new(Stands::Done),
            wanted: RwSignal::new(SHOWN),
            drawn: RwSignal::new(1),
            titles: StoredValue::default(),
            reading: StoredValue::new(0),
            search: StoredValue::new(0),
        };
        let calm = store.calm();
        Effect::new(move || {
            calm.track();
            let number = next(listing.reading);
            listing.read_on(number, store.ids(), Vec::new());
        });
        Effect::new(move || {
            let words = words(&listing.sought.get());
            let all = listing.all.get().unwrap_or_default();
            let number = next(listing.search);
            if words.is_empty() {
                listing.found.set(all);
                listing.stands.set(Stands::Done);
            } else {
                listing.search_on(number, words, all, 0, Vec::new(), Date::now());
            }
        });
        Effect::new(move || {
            listing.sought.track();
            listing.wanted.set(SHOWN);
            listing.drawn.set(1);
        });
        Effect::new(move || {
            let found = listing.found.with(Vec::len);
            if listing.drawn.get() < listing.wanted.get().min(found) {
                set_timeout(
                    move || {
                        listing.drawn.try_update(|drawn| *drawn += 1);
                    },
                    Duration::ZERO,
                );
            }
        });
        listing
    }

    /// How many recipes there are. Tracks.
    pub(super) fn count(self) -> usize {
        self.all.with(|all| all.as_ref().map_or(0, Vec::len))
    }

    /// Those that are on the page. Tracks.
    pub(super) fn shown(self) -> Vec<Listed> {
        let most = self.drawn.get().min(self.wanted.get());
        self.found
            .with(|found| found.iter().take(most).cloned().collect())
    }

    /// Whether there are more than are wanted on the page. Tracks.
    pub(super) fn has_more(self) -> bool {
        self.found.with(Vec::len) > self.wanted.get()
    }

    /// Shows more, and returns how many there were before.
    pub(super) fn show_more(self) -> usize {
        let before = self.wanted.get_untracked();
        self.wanted.set(before + SHOWN);
        self.drawn.set(before + 1);
        before
    }

    /// What is told of it. Tracks.
    pub(super) fn told(self) -> String {
        let found = self.found.with(Vec::len);
        let sought = self.sought.get();
        let sought = sought.trim();
        let texts = &texts().list;
        match self.stands.get() {
            Stands::Looking(done) => texts.looking_at(done, self.count()),
            Stands::Done if found == 0 && !sought.is_empty() => texts.none_called(sought),
            Stands::Done if found > self.wanted.get() => texts.shown(self.wanted.get(), found),
            Stands::Done => String::new(),
        }
    }

    /// Reads the recipes' stamps until the turn is over, and goes on after the
    /// browser has had its own.
    fn read_on(self, number: u32, mut unread: Vec<String>, mut read: Vec<Listed>) {
        if self.reading.try_get_value() != Some(number) {
            return;
        }
        let turn = Turn::begin();
        while let Some(id) = unread.pop() {
            read.extend(self.store.listed(id));
            if turn.is_over() {
                set_timeout(move || self.read_on(number, unread, read), Duration::ZERO);
                return;
            }
        }
        // What came in one file stays in its order.
        read.sort_by(|one, other| {
            let last = other.stamp.at.cmp(&one.stamp.at);
            last.then_with(|| one.id.cmp(&other.id))
        });
        self.all.set(Some(read));
    }

    fn search_on(
        self,
        number: u32,
        words: Vec<String>,
        all: Vec<Listed>,
        from: usize,
        mut found: Vec<Listed>,
        mut shown: f64,
    ) {
        if self.search.try_get_value() != Some(number) {
            return;
        }
        let turn = Turn::begin();
        for (place, one) in all.iter().enumerate().skip(from) {
            if self.is_called(one, &words) {
                found.push(one.clone());
            }
            if turn.is_over() {
                if Date::now() - shown >= OFTEN {
                    self.found.set(found.clone());
                    self.stands.set(Stands::Looking(place + 1));
                    shown = Date::now();
                }
                set_timeout(
                    move || self.search_on(number, words, all, place + 1, found, shown),
                    Duration::ZERO,
                );
                return;
            }
        }
        self.found.set(found);
        self.stands.set(Stands::Done);
    }

    /// Whether a recipe's name or description has every word.
    fn is_called(self, one: &Listed, words: &[String]) -> bool {
        let known = self
            .titles
            .with_value(|titles| titles.get(one).map(|title| has(title, words)));
        known.unwrap_or_else(|| {
            let title = self.store.title(&one.id).unwrap_or_default().to_lowercase();
            let has = has(&title, words);
            self.titles
                .update_value(|titles| drop(titles.insert(one.clone(), title)));
            has
        })
    }
}

fn has(title: &str, words: &[String]) -> bool {
    words.iter().all(|word| title.contains(word))
}

fn words(sought: &str) -> Vec<String> {
    let small = sought.to_lowercase();
    small.split_whitespace().map(str::to_owned).collect()
}

fn next(number: StoredValue<u32>) -> u32 {
    let next = number.get_value().wrapping_add(1);
    number.set_value(next);
    next
}
