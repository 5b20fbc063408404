//! Keeps the documents up with the store, and the store up with other
//! devices.

use std::collections::BTreeMap;
use std::time::Duration;

use foldwright_api::{ARE_YOU_THERE, Joined, recover};
use foldwright_document::{Past, Said, frame};
use foldwright_engine::recipe::Recipe;
use leptos::ev;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::StorageEvent;
use web_sys::js_sys::Math;

use super::cut_off::{CutOff, Why};
use super::ledger::{Came, Change, Deleted, Failed, Ledger, names};
use super::link::{Event, Link, hold};
use super::talk::{Heard, Talk};
use super::{Member, Status, lost, name};
use crate::notice::Notice;
use crate::random;
use crate::store::{Refused, Shelf, Store, now};

/// How long after a change it is noted: what is typed in one go is one change.
const PAUSE: Duration = Duration::from_millis(400);
/// How long is waited before a connection is tried again, first and at most.
const FIRST_WAIT: Duration = Duration::from_secs(1);
const LONGEST_WAIT: Duration = Duration::from_mins(1);
/// How often the server is asked whether it is still there, and by when it has
/// answered: a network that swallows everything is told of within ten seconds.
const PULSE: Duration = Duration::from_millis(4500);
/// Codes with which the server ends a connection for good: the device was
/// removed, or is unknown.
const CLOSED_OUT: u16 = 4401;
const UNKNOWN: u16 = 4404;

/// The one who keeps documents, store and server together in this tab.
#[derive(Clone, Copy)]
pub(crate) struct Syncing {
    store: Store,
    ledger: StoredValue<Ledger, LocalStorage>,
    link: StoredValue<Option<Link>, LocalStorage>,
    talk: StoredValue<Talk, LocalStorage>,
    /// Whether of all tabs this one has the connection.
    leads: StoredValue<bool>,
    /// Whether the connection has been asked for its state of affairs.
    open: StoredValue<bool>,
    /// Whether noting is due.
    due: StoredValue<bool>,
    wait: StoredValue<Duration>,
    /// Which of the waits for another try is the last.
    tries: StoredValue<u32>,
    trouble: StoredValue<Option<String>>,
    /// Which device the server says has removed this one.
    removed: StoredValue<Option<String>>,
    /// Whether the server has been asked whether it is there, and has not
    /// answered yet.
    asked: StoredValue<bool>,
    /// Counts changes of what only the documents say.
    changes: RwSignal<u32>,
}

impl Syncing {
    /// Begins; once a tab.
    pub(crate) fn begin(store: Store) -> Self {
        let syncing = Self {
            store,
            ledger: StoredValue::new_local(Ledger::new(random::number)),
            link: StoredValue::new_local(None),
            talk: StoredValue::new_local(Talk::default()),
            leads: StoredValue::new(false),
            open: StoredValue::new(false),
            due: StoredValue::new(false),
            wait: StoredValue::new(FIRST_WAIT),
            tries: StoredValue::new(0),
            trouble: StoredValue::new(None),
            removed: StoredValue::new(None),
            asked: StoredValue::new(false),
            changes: RwSignal::new(0),
        };
        store.when_stirred(move || syncing.stirred());
        syncing.ask_to_lead(false);
        let _ = window_event_listener(ev::online, move |_| syncing.hurry());
        let _ = window_event_listener(ev::offline, move |_| syncing.hang_up());
        set_interval(move || syncing.ask(), PULSE);
        let _ = window_event_listener(ev::visibilitychange, move |_| {
            if document().hidden() {
                syncing.note();
            } else if syncing.leads.get_value() {
                syncing.hurry();
            } else {
                // The tab somebody looks at is never slowed down.
                syncing.ask_to_lead(true);
            }
        });
        let _ = window_event_listener(ev::storage, move |event: StorageEvent| {
            syncing.heard_of(event.key());
        });
        syncing
    }

    fn ask_to_lead(self, at_once: bool) {
        let got = move || {
            self.leads.set_value(true);
            // Everything that was changed while nobody noted it.
            self.note_in_turn(self.store.with_shelf(names));
        };
        let lost = move || {
            self.leads.set_value(false);
            self.hang_up();
        };
        hold(at_once, got, lost);
    }

    /// Something was kept: it is noted after a pause.
    fn stirred(self) {
        if self.leads.get_value() && !self.due.get_value() {
            self.due.set_value(true);
            set_timeout(move || self.note(), PAUSE);
        }
    }

    /// Another tab has kept something.
    fn heard_of(self, key: Option<String>) {
        let Some(key) = key else { return };
        if key == super::member::KEY {
            self.hang_up();
            self.store.look_up_member();
            self.connect();
        } else if name::of_key(&key).is_some() {
            self.store.touch(key);
            self.stirred();
        } else if let Some(name) = super::ledger::document(&key) {
            self.changes.update(|count| *count = count.wrapping_add(1));
            if self.open.get_value() && self.leads.get_value() {
                let frames =
                    self.with(|ledger, shelf| Talk::compare(ledger, shelf, &[name.to_owned()]));
                self.send(&frames);
            }
        }
    }

    /// Notes what was kept since the last time.
    fn note(self) {
        self.due.set_value(false);
        if !self.leads.get_value() {
            return;
        }
        self.store.save_open();
        for key in self.store.touched() {
            if let Some(name) = name::of_key(&key) {
                self.note_one(&name);
            }
        }
    }

    /// Notes these one after the other, with time for the page in between, and
    /// then connects.
    fn note_in_turn(self, mut names: Vec<String>) {
        if !self.leads.get_value() {
            return self.show_status();
        }
        if let Some(name) = names.pop() {
            self.note_one(&name);
            set_timeout(move || self.note_in_turn(names), Duration::ZERO);
            return;
        }
        if self.store.member_now().is_none() {
            self.erase();
        }
        self.connect();
    }

    /// Notes everything at once, for what must not miss anything.
    fn note_all(self) {
        for name in self.store.with_shelf(names) {
            self.note_one(&name);
        }
    }

    fn note_one(self, name: &str) {
        let by = self.own_name();
        let changes = self.with(|ledger, shelf| ledger.note(shelf, name, now(), &by));
        self.tell(changes);
    }

    /// What people call this device; nothing where it is in no workshop.
    fn own_name(self) -> String {
        let member = self.store.member_now();
        member.map(|member| member.device_name).unwrap_or_default()
    }

    /// Sends changes made here, now or as soon as there is a connection.
    fn tell(self, changes: Result<Vec<Change>, Refused>) {
        // Without room for documents the store still has everything; it is
        // compared anew the next time.
        let changes = changes.unwrap_or_default();
        if changes.is_empty() {
            return;
        }
        self.changes.update(|count| *count = count.wrapping_add(1));
        if self.open.get_value() {
            let frames = self.ledger.with_value(|ledger| {
                let told = self
                    .talk
                    .try_update_value(|talk| talk.tell(ledger, changes));
                told.unwrap_or_default()
            });
            self.send(&frames);
        }
        self.show_status();
    }

    fn send(self, frames: &[Vec<u8>]) {
        self.link.with_value(|link| {
            if let Some(link) = link {
                for frame in frames {
                    link.send(frame);
                }
            }
        });
    }

    /// Connects, where there is a workshop to connect to.
    fn connect(self) {
        let there = self.link.with_value(Option::is_some);
        if !self.leads.get_value() || there {
            return self.show_status();
        }
        if self.store.member_now().is_none() {
            self.find_back();
            return self.show_status();
        }
        self.trouble.set_value(None);
        self.link
            .set_value(Link::open(move |event| self.happens(event)));
        self.show_status();
    }

    /// Asks for the place in the workshop that this device lost with all that
    /// the browser cleared.
    fn find_back(self) {
        if !lost::was_paired() {
            return;
        }
        spawn_local(async move {
            // Without the network it is asked again when that is back.
            let Ok(Some(joined)) = recover().await else {
                return;
            };
            if self.store.member_now().is_none() {
                let words = format!(
                    "This browser had cleared what it kept. What the workshop “{}” has comes back.",
                    joined.workshop_name
                );
                self.joined(joined);
                self.store.notices().show(Notice::plain(words));
            }
        });
    }

    fn hang_up(self) {
        self.open.set_value(false);
        self.asked.set_value(false);
        self.link.set_value(None);
        self.show_status();
    }

    /// Tries again at once.
    fn hurry(self) {
        self.wait.set_value(FIRST_WAIT);
        self.tries
            .update_value(|tries| *tries = tries.wrapping_add(1));
        self.note();
        if !self.open.get_value() {
            // What is under way may never come about.
            self.link.set_value(None);
        }
        self.connect();
    }

    /// Asks the server whether it is still there. Where nothing has come since
    /// the last time, not even the connection, it is not.
    fn ask(self) {
        let there = self.link.with_value(Option::is_some);
        if !there || document().hidden() {
            return;
        }
        if self.asked.get_value() {
            self.hang_up();
            return self.connect();
        }
        self.asked.set_value(true);
        if self.open.get_value() {
            self.link.with_value(|link| {
                if let Some(link) = link {
                    link.say(ARE_YOU_THERE);
                }
            });
        }
    }

    fn happens(self, event: Event) {
        // Whatever it says, it is there.
        self.asked.set_value(false);
        match event {
            Event::Open => {
                let Some(member) = self.store.member_now() else {
                    return self.hang_up();
                };
                let since = self.store.since(&member.workshop);
                let (talk, greeting) = Talk::begin(&member.key, since);
                self.talk.set_value(talk);
                self.open.set_value(true);
                self.link.with_value(|link| {
                    if let Some(link) = link {
                        link.say(&greeting);
                    }
                });
            }
            Event::Text(text) => {
                let heard = self.hear(|talk, ledger, shelf| talk.said(ledger, shelf, &text));
                self.digest(heard);
            }
            Event::Bytes(bytes) => {
                // What is changed here must be noted before it is merged.
                self.note();
                if let Some((name, _)) = frame::read(&bytes) {
                    self.note_one(name);
                }
                let heard =
                    self.hear(|talk, ledger, shelf| talk.hear(ledger, shelf, &bytes, now()));
                self.digest(heard);
            }
            Event::Closed(code) => {
                // Out of the handler of the very connection that goes.
                set_timeout(move || self.closed(code), Duration::ZERO);
            }
        }
    }

    fn closed(self, code: u16) {
        self.hang_up();
        let cut_off = |why| {
            let member = self.store.member_now();
            let workshop = member.map(|member| member.workshop_name);
            self.store
                .set_cut_off(workshop.map(|workshop| CutOff { workshop, why }));
        };
        match code {
            CLOSED_OUT => {
                let by = self.removed.try_update_value(Option::take).flatten();
                cut_off(Why::Removed(by.unwrap_or_default()));
                self.store.set_member(None);
                lost::unmark();
                return self.show_status();
            }
            // Its data may come back, and then this device is as it was.
            UNKNOWN => cut_off(Why::Unknown),
            _ => {}
        }
        let wait = self.wait.get_value();
        self.wait.set_value((wait * 2).min(LONGEST_WAIT));
        let tries = self.tries.get_value().wrapping_add(1);
        self.tries.set_value(tries);
        // Not all devices at the same moment.
        set_timeout(
            move || {
                if self.tries.get_value() == tries {
                    self.connect();
                }
            },
            wait.mul_f64(0.5 + Math::random()),
        );
    }

    fn hear(self, hear: impl FnOnce(&mut Talk, &mut Ledger, &Shelf) -> Heard) -> Heard {
        self.with(|ledger, shelf| {
            let heard = self.talk.try_update_value(|talk| hear(talk, ledger, shelf));
            heard.unwrap_or_default()
        })
    }

    fn digest(self, heard: Heard) {
        self.send(&heard.answers);
        if let (Some(last), Some(member)) = (heard.last, self.store.member_now()) {
            self.store.set_since(&member.workshop, last);
        }
        if self.talk.with_value(Talk::is_done) {
            self.wait.set_value(FIRST_WAIT);
        }
        if heard.trouble.is_some() {
            self.trouble.set_value(heard.trouble);
        }
        if heard.removed.is_some() {
            self.removed.set_value(heard.removed);
        }
        if heard.full {
            self.store.say_full();
        }
        if heard.caught_up {
            if self.store.is_cut_off() {
                self.store.set_cut_off(None);
            }
            self.erase();
        }
        for came in heard.came {
            self.came(came);
        }
        self.show_status();
    }

    fn came(self, came: Came) {
        match came {
            Came::Recipe(id) | Came::Deleted(id) => self.store.recipe_came(&id),
            Came::Joined(id) => {
                self.store.say_joined(&id);
                self.store.bench_came();
            }
            Came::Outlived(id) => self.say_outlived(&id),
            Came::Bench(_) => self.store.bench_came(),
            Came::Paper => self.changes.update(|count| *count = count.wrapping_add(1)),
        }
    }

    /// Says why a deleted recipe is here.
    fn say_outlived(self, id: &str) {
        let Some(recipe) = self.store.read(id) else {
            return;
        };
        let by = self.with(|ledger, shelf| ledger.last_by(shelf, id));
        let by = by.map_or_else(|| "another device".to_owned(), |by| format!("“{by}”"));
        let text = format!(
            "“{}” was deleted in one place while it was changed on {by}. The change keeps it. \
             Delete it again if nobody needs it.",
            recipe.name
        );
        self.store.notices().show(Notice::warning("outlived", text));
    }

    fn show_status(self) {
        let status = if self.store.is_cut_off() {
            Status::Ended
        } else if self.store.member_now().is_none() {
            Status::Alone
        } else if let Some(why) = self.trouble.get_value() {
            Status::Trouble(why)
        } else if !self.open.get_value() {
            Status::Waiting
        } else if self.talk.with_value(Talk::is_done) && !self.ledger.with_value(Ledger::has_unsent)
        {
            Status::Everywhere
        } else {
            Status::Sending
        };
        self.store.set_status(status);
    }

    fn with<T>(self, run: impl FnOnce(&mut Ledger, &Shelf) -> T) -> T {
        self.store
            .with_shelf(|shelf| run(&mut self.ledger.write_value(), shelf))
    }

    /// Takes up membership of a workshop.
    pub(crate) fn joined(self, joined: Joined) {
        self.store.set_member(Some(Member {
            key: joined.key,
            device: joined.device,
            workshop: joined.workshop,
            workshop_name: joined.workshop_name,
            device_name: joined.device_name,
        }));
        self.store.set_cut_off(None);
        self.hang_up();
        self.hurry();
    }

    /// Gives membership up. Everything stays on this device.
    pub(crate) fn left(self) {
        self.store.set_member(None);
        lost::unmark();
        self.store.set_cut_off(None);
        self.hang_up();
    }

    /// Erases what was deleted long ago, knowing all that others have done.
    fn erase(self) {
        let alone = self.store.member_now().is_none();
        let by = self.own_name();
        let revived = self.with(|ledger, shelf| ledger.revive(shelf, now(), &by));
        self.tell(revived);
        let erased = self.with(|ledger, shelf| ledger.erase(shelf, now(), alone));
        self.tell(erased);
    }

    /// How many recipes are on no other device as they are here. Tracks.
    pub(crate) fn only_here(self) -> usize {
        self.changes.track();
        self.with(Ledger::recipes_unsent)
    }

    /// What was deleted and can be brought back. Tracks.
    pub(crate) fn deleted(self) -> Vec<Deleted> {
        self.changes.track();
        self.with(|ledger, shelf| ledger.deleted(shelf, now()))
    }

    /// Brings back a deleted recipe.
    pub(crate) fn bring_back(self, id: &str) {
        let changes = self.with(|ledger, shelf| ledger.bring_back(shelf, id, now()));
        self.tell(changes);
        self.store.recipe_came(id);
    }

    /// What a recipe was before, the latest first. Tracks.
    pub(crate) fn past(self, id: &str) -> Vec<(Past, Recipe)> {
        self.changes.track();
        self.with(|ledger, shelf| ledger.past(shelf, id))
    }

    /// What was decided about a recipe and gave way, the last first. Tracks.
    pub(crate) fn lost(self, id: &str) -> Vec<Said> {
        self.changes.track();
        self.with(|ledger, shelf| ledger.lost(shelf, id))
    }

    /// Everything this device keeps for others, as the text of one file.
    pub(crate) fn everything(self) -> String {
        self.note_all();
        self.with(Ledger::everything)
    }

    /// Merges such a file with what is here; how many recipes that changed.
    /// `None` where it is no such file, or not a sound one.
    pub(crate) fn take_everything(self, text: &str) -> Option<usize> {
        let documents = super::ledger::documents_in(text)?;
        self.note_all();
        let mut changed = 0;
        for (name, update) in documents {
            let taken = self.with(|ledger, shelf| ledger.take(shelf, &name, &update, now()));
            match taken {
                Ok(came) => {
                    changed += came
                        .iter()
                        .filter(|came| matches!(came, Came::Recipe(_)))
                        .count();
                    for came in came {
                        self.came(came);
                    }
                }
                Err(Failed::Malformed) => return None,
                Err(Failed::Refused) => self.store.say_full(),
            }
        }
        // The server is asked for its state of everything, and gets the rest.
        self.hang_up();
        self.hurry();
        Some(changed)
    }

    /// How many sheets there are of each paper. Tracks.
    pub(crate) fn paper(self) -> BTreeMap<String, i64> {
        self.changes.track();
        self.with(Ledger::paper)
    }

    /// Adds so many sheets of a paper; takes some away with less than nothing.
    pub(crate) fn add_paper(self, paper: &str, by: i64) {
        let changes = self.with(|ledger, shelf| ledger.add_paper(shelf, paper, by));
        self.tell(changes);
    }
}
