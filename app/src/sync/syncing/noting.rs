//! Noting what the app has kept in the documents, and telling it to others.

use std::time::Duration;

use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::js_sys::Date;

use super::Syncing;
use crate::store::now;
use crate::sync::name;
use crate::turns::Turn;

/// How long after a change it is noted: what is typed in one go is one change.
const PAUSE: Duration = Duration::from_millis(400);
/// For how long things are noted in one go, in milliseconds, since the page may be
/// left right after; the rest follows with time for the page in between. Our own
/// bound: a few things, also on a slow phone.
const AT_ONCE: f64 = 50.0;

impl Syncing {
    /// Something was kept: it is noted after a pause.
    pub(super) fn stirred(self) {
        if self.leads.get_value() && !self.due.get_value() {
            self.due.set_value(true);
            set_timeout(move || self.note_in_turns(), PAUSE);
        }
    }

    /// Notes what was kept since the last time, with time for the page in between.
    fn note_in_turns(self) {
        let names = self.to_note();
        self.note_rest(names);
    }

    /// Notes what was kept since the last time: some of it at once, since the page
    /// may be left or something may come that goes together with it.
    pub(super) fn note(self) {
        let begun = Date::now();
        let mut names = self.to_note().into_iter();
        for name in names.by_ref() {
            self.note_one(&name);
            if !(0.0..AT_ONCE).contains(&(Date::now() - begun)) {
                break;
            }
        }
        self.note_rest(names.collect());
    }

    /// The names of what was kept since the last time; none where another tab notes
    /// it.
    fn to_note(self) -> Vec<String> {
        self.due.set_value(false);
        if !self.leads.get_value() {
            return Vec::new();
        }
        self.store.save_open();
        let keys = self.store.touched();
        self.photos_of(&keys);
        keys.iter().filter_map(|key| name::of_key(key)).collect()
    }

    fn note_rest(self, names: Vec<String>) {
        if names.is_empty() {
            return;
        }
        let leads = move || self.leads.get_value();
        spawn_local(async move {
            self.note_these(names, leads).await;
        });
    }

    /// Notes these, for as long as this is wanted; `true` where all are noted.
    pub(super) async fn note_these(self, names: Vec<String>, wanted: impl Fn() -> bool) -> bool {
        let mut turn = Turn::begin();
        for name in names {
            if !wanted() {
                return false;
            }
            self.find_again(&name);
            self.with(|ledger, shelf| ledger.make_ready(shelf, &name));
            turn.or_next().await;
            self.write_down(&name);
            turn.or_next().await;
            self.keep_written(&name);
            self.close();
            turn.or_next().await;
        }
        true
    }

    pub(super) fn note_one(self, name: &str) {
        self.find_again(name);
        self.write_down(name);
        self.keep_written(name);
    }

    fn find_again(self, name: &str) {
        let found = self.with(|ledger, shelf| ledger.find_again(shelf, name, now()));
        // Without room it is looked for again when the page is next loaded.
        for came in found.unwrap_or_default() {
            self.came(came);
        }
    }

    fn write_down(self, name: &str) {
        let by = self.own_name();
        let changes = self.with(|ledger, shelf| ledger.write_down(shelf, name, now(), &by));
        self.tell(changes);
    }

    fn keep_written(self, name: &str) {
        let changes = self.with(|ledger, shelf| ledger.keep_written(shelf, name));
        self.tell(changes);
    }
}
