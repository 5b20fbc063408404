//! What the store offers to the one who keeps it alike on several devices, and what
//! it hears from other tabs.

use std::sync::Arc;

use leptos::prelude::*;

use super::progress::progress_key;
use super::shelf::{recipe_id, recipe_key};
use super::{Settings, Shelf, Store, now, settings, versioned};
use crate::notice::Notices;
use crate::sync::{CutOff, Member, Status, cut_off, member};

const SINCE: &str = "foldwright/since/";
const BACKED_UP: &str = "foldwright/backed-up";
/// In milliseconds.
const MONTH: u64 = 30 * 24 * 60 * 60 * 1000;

/// What is done when something was kept.
type Stirred = Arc<dyn Fn() + Send + Sync>;

/// What is done with the text that came, or with nothing if it was deleted.
type Came = Arc<dyn Fn(Option<&str>) + Send + Sync>;

/// The recipe that is open on this page.
#[derive(Clone)]
pub(super) struct Hand {
    pub(super) key: String,
    /// Keeps what has changed.
    pub(super) save: Arc<dyn Fn() + Send + Sync>,
    /// Takes up what came from elsewhere.
    pub(super) came: Came,
}

/// What the store knows of other devices.
#[derive(Clone, Copy)]
pub(super) struct Elsewhere {
    pub(super) member: RwSignal<Option<Member>>,
    pub(super) status: RwSignal<Status>,
    pub(super) cut_off: RwSignal<Option<CutOff>>,
    pub(super) hand: StoredValue<Option<Hand>>,
    /// Counts what came for the bench.
    pub(super) bench: RwSignal<u32>,
    stirred: StoredValue<Option<Stirred>>,
}

impl Elsewhere {
    pub(super) fn new(member: Option<Member>, cut_off: Option<CutOff>) -> Self {
        let status = match (&member, &cut_off) {
            (_, Some(_)) => Status::Ended,
            (Some(_), None) => Status::Waiting,
            (None, None) => Status::Alone,
        };
        Self {
            member: RwSignal::new(member),
            status: RwSignal::new(status),
            cut_off: RwSignal::new(cut_off),
            hand: StoredValue::new(None),
            bench: RwSignal::new(0),
            stirred: StoredValue::new(None),
        }
    }

    pub(super) fn stir(self) {
        if let Some(stirred) = self.stirred.get_value() {
            stirred();
        }
    }
}

impl Store {
    /// This device's place in a workshop. Tracks.
    pub(crate) fn member(self) -> Option<Member> {
        self.elsewhere.member.get()
    }

    /// The same without tracking.
    pub(crate) fn member_now(self) -> Option<Member> {
        self.elsewhere.member.get_untracked()
    }

    /// How this device was cut off from its workshop, if it was. Tracks.
    pub(crate) fn cut_off(self) -> Option<CutOff> {
        self.elsewhere.cut_off.get()
    }

    /// Whether it was, without tracking.
    pub(crate) fn is_cut_off(self) -> bool {
        self.elsewhere.cut_off.with_untracked(Option::is_some)
    }

    /// Keeps that this device was cut off, or that it is in a workshop again.
    pub(crate) fn set_cut_off(self, cut_off: Option<CutOff>) {
        match &cut_off {
            Some(cut_off) => self.keep(cut_off::KEY, &cut_off.text()),
            None => self
                .shelf
                .with_value(|shelf| shelf.port().remove(cut_off::KEY)),
        }
        self.elsewhere.cut_off.set(cut_off);
    }

    /// How far what is kept here has come. Tracks.
    pub(crate) fn status(self) -> Status {
        self.elsewhere.status.get()
    }

    /// Tracks what comes for the bench from elsewhere.
    pub(crate) fn track_bench(self) {
        self.elsewhere.bench.track();
    }

    pub(crate) fn when_stirred(self, stirred: impl Fn() + Send + Sync + 'static) {
        self.elsewhere.stirred.set_value(Some(Arc::new(stirred)));
    }

    /// The keys of what has changed since the last time.
    pub(crate) fn touched(self) -> Vec<String> {
        self.touched
            .with_value(|touched| touched.take().into_iter().collect())
    }

    /// Another tab has kept something; without a key it has cleared all.
    pub(super) fn heard(self, key: Option<&str>) {
        self.shelf
            .with_value(|shelf| shelf.port().changed_elsewhere());
        let read = |key| self.shelf.with_value(|shelf| shelf.port().read(key));
        if key.is_none_or(|key| key == settings::KEY)
            && let Some(settings) = read(settings::KEY).and_then(|text| Settings::parse(&text))
        {
            self.settings.set(settings);
        }
        let hidden = |key| self.shelf.with_value(|shelf| shelf.port().hides(key));
        if key.is_none_or(|key| recipe_id(key).is_some() && !hidden(key)) {
            self.changed();
        }
        if key.is_some_and(|key| key.starts_with(&progress_key(""))) {
            self.bench_came();
        }
    }

    /// Notes that another tab has changed something.
    pub(crate) fn touch(self, key: String) {
        if self.shelf.with_value(|shelf| shelf.port().hides(&key)) {
            return;
        }
        self.touched.with_value(|touched| touched.add(key));
    }

    /// Keeps what has changed in the open recipe.
    pub(crate) fn save_open(self) {
        if let Some(hand) = self.elsewhere.hand.get_value() {
            (hand.save)();
        }
    }

    /// A recipe has become another one elsewhere, or is gone.
    pub(crate) fn recipe_came(self, id: &str) {
        let key = recipe_key(id);
        if let Some(hand) = self.elsewhere.hand.get_value()
            && hand.key == key
        {
            let text = self.shelf.with_value(|shelf| shelf.port().read(&key));
            (hand.came)(text.as_deref());
        }
        self.changed();
    }

    /// Work at the bench has gone on elsewhere.
    pub(crate) fn bench_came(self) {
        self.elsewhere
            .bench
            .update(|count| *count = count.wrapping_add(1));
    }

    pub(crate) fn with_shelf<T>(self, run: impl FnOnce(&Shelf) -> T) -> T {
        self.shelf.with_value(run)
    }

    pub(crate) fn notices(self) -> Notices {
        self.notices
    }

    pub(crate) fn set_status(self, status: Status) {
        if self.elsewhere.status.get_untracked() != status {
            self.elsewhere.status.set(status);
        }
    }

    /// Takes up a place in a workshop, or gives it up.
    pub(crate) fn set_member(self, member: Option<Member>) {
        match &member {
            Some(member) => self.keep(member::KEY, &member.text()),
            None => self
                .shelf
                .with_value(|shelf| shelf.port().remove(member::KEY)),
        }
        self.elsewhere.member.set(member);
    }

    /// Another tab has taken up a place in a workshop, or given it up.
    pub(crate) fn look_up_member(self) {
        let text = self
            .shelf
            .with_value(|shelf| shelf.port().read(member::KEY));
        let member = text.as_deref().and_then(Member::parse);
        self.elsewhere.member.set(member);
    }

    /// The number of the last change of a workshop that is here.
    pub(crate) fn since(self, workshop: &str) -> i64 {
        let key = format!("{SINCE}{workshop}");
        let text = self.shelf.with_value(|shelf| shelf.port().read(&key));
        let since = text.as_deref().and_then(versioned::body);
        since.and_then(|since| since.as_i64()).unwrap_or(0)
    }

    /// Keeps the number of the last change of a workshop that is here. Where
    /// there is no room, more comes again the next time.
    pub(crate) fn set_since(self, workshop: &str, since: i64) {
        let key = format!("{SINCE}{workshop}");
        let text = versioned::text(&since);
        let _ = self
            .shelf
            .with_value(|shelf| shelf.port().write(&key, &text));
    }

    /// Notes that a copy of everything was made.
    pub(crate) fn backed_up(self) {
        self.keep(BACKED_UP, &versioned::text(&now()));
        self.changed();
    }

    /// Where there are recipes and no copy of them was ever made, counts the
    /// time without one from now on.
    pub(super) fn begin_to_remind(self) {
        let something = self.shelf.with_value(|shelf| !shelf.ids().is_empty());
        if something && self.last_backup().is_none() {
            self.keep(BACKED_UP, &versioned::text(&now()));
        }
    }

    /// Whether the last copy of everything is old, or there is none though
    /// there has been time for one.
    pub(crate) fn backup_is_due(self) -> bool {
        let last = self.last_backup();
        last.is_some_and(|last| now().saturating_sub(last) > MONTH)
    }

    fn last_backup(self) -> Option<u64> {
        let text = self.shelf.with_value(|shelf| shelf.port().read(BACKED_UP));
        let last = text.as_deref().and_then(versioned::body);
        last.and_then(|last| last.as_u64())
    }
}
