//! Keeps the documents up with the store, and the store up with other
//! devices.

mod catching_up;
mod everything;
mod noting;
mod paper;

use std::borrow::Cow;
use std::time::Duration;

use foldwright_api::{ARE_YOU_THERE, Joined, recover};
use foldwright_document::{Malformed, Past, Said, frame};
use foldwright_engine::recipe::Recipe;
use leptos::ev;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::StorageEvent;
use web_sys::js_sys::Math;

use super::cut_off::{CutOff, Why};
use super::gave_way::carried;
use super::ledger::{Came, Change, Deleted, Ledger};
use super::link::{Event, Link, hold};
use super::photos::Photos;
use super::talk::{Heard, Talk};
use super::{Member, Status, Trouble, lost, name, too_large};
pub(crate) use everything::{Merged, Sound};

use crate::history::carried_by;
use crate::notice::Notice;
use crate::random;
use crate::spoken::texts;
use crate::store::{Refused, Shelf, Store, now};

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
/// The code with which either side ends a connection on which something came
/// that is no message.
const NOT_UNDERSTOOD: u16 = 4400;

/// The one who keeps documents, store and server together in this tab.
#[derive(Clone, Copy)]
pub(crate) struct Syncing {
    pub(super) store: Store,
    ledger: StoredValue<Ledger, LocalStorage>,
    link: StoredValue<Option<Link>, LocalStorage>,
    pub(super) talk: StoredValue<Talk, LocalStorage>,
    pub(super) photos: StoredValue<Photos, LocalStorage>,
    /// Whether of all tabs this one has the connection.
    pub(super) leads: StoredValue<bool>,
    /// Whether the connection has been asked for its state of affairs.
    pub(super) open: StoredValue<bool>,
    /// Counts connections.
    links: StoredValue<u32>,
    /// Whether noting is due.
    due: StoredValue<bool>,
    wait: StoredValue<Duration>,
    /// Which of the waits for another try is the last.
    tries: StoredValue<u32>,
    trouble: StoredValue<Option<Trouble>>,
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
            photos: StoredValue::new_local(Photos::default()),
            leads: StoredValue::new(false),
            open: StoredValue::new(false),
            links: StoredValue::new(0),
            due: StoredValue::new(false),
            wait: StoredValue::new(FIRST_WAIT),
            tries: StoredValue::new(0),
            trouble: StoredValue::new(None),
            removed: StoredValue::new(None),
            asked: StoredValue::new(false),
            changes: RwSignal::new(0),
        };
        carried_by(carried);
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
            self.catch_up();
        };
        let lost = move || {
            self.leads.set_value(false);
            self.hang_up();
        };
        hold(at_once, got, lost);
    }

    /// Another tab has kept something.
    fn heard_of(self, key: Option<String>) {
        let Some(key) = key else { return };
        self.photos_of(std::slice::from_ref(&key));
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
                self.compare(name);
            }
        }
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
            let told = self.hear(|talk, ledger, shelf| talk.tell(ledger, shelf, changes));
            return self.digest(told);
        }
        self.show_status();
    }

    /// Asks what the server lacks of a document.
    fn compare(self, name: &str) {
        let frames = self.with(|ledger, shelf| {
            let frames = self
                .talk
                .try_update_value(|talk| talk.compare(ledger, shelf, name));
            frames.unwrap_or_default()
        });
        self.send(&frames);
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
                let words = texts().devices.had_cleared(&joined.workshop_name);
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
        self.photos.update_value(Photos::doubt);
        self.exchange_photos();
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
                self.links
                    .update_value(|links| *links = links.wrapping_add(1));
                self.open.set_value(true);
                self.photos.update_value(Photos::doubt);
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
                let gathered = self.talk.try_update_value(|talk| {
                    let whole = talk.gather(&bytes)?;
                    Ok(whole.map(Cow::into_owned))
                });
                let bytes = match gathered {
                    Some(Ok(Some(bytes))) => bytes,
                    Some(Err(Malformed)) => return self.misunderstood(),
                    // More pieces are to come.
                    Some(Ok(None)) | None => return,
                };
                // What is changed here must be noted before it is merged.
                self.note();
                if let Some((name, _)) = frame::read(&bytes) {
                    self.note_one(name);
                }
                let heard =
                    self.hear(|talk, ledger, shelf| talk.hear(ledger, shelf, &bytes, now()));
                self.digest(heard);
            }
            Event::Closed(code) => self.close_with(code),
        }
    }

    /// The server sent what is no message. What it meant is missing, so the
    /// connection ends, and the next one begins from what is here.
    fn misunderstood(self) {
        self.open.set_value(false);
        self.trouble.set_value(Some(Trouble::Misunderstood));
        self.close_with(NOT_UNDERSTOOD);
    }

    /// Lets go of the connection, out of the handler of the very one that goes.
    fn close_with(self, code: u16) {
        set_timeout(move || self.closed(code), Duration::ZERO);
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
        if let Some(doubtful) = heard.compare {
            self.compare_all(doubtful);
        }
        if let (Some(last), Some(member)) = (heard.last, self.store.member_now()) {
            self.store.set_since(&member.workshop, last);
        }
        let is_done = self.talk.with_value(Talk::is_done);
        if is_done {
            self.wait.set_value(FIRST_WAIT);
        }
        if let Some(why) = heard.trouble {
            self.trouble.set_value(Some(Trouble::Told(why)));
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
        if let Some(words) = heard
            .too_large
            .and_then(|name| too_large::words(self.store, &name))
        {
            let notice = Notice::warning("too large", words);
            self.store.notices().show(notice);
        }
        if is_done {
            self.exchange_photos();
        }
        self.show_status();
    }

    fn came(self, came: Came) {
        match came {
            Came::Recipe(id) | Came::Deleted(id) => {
                self.photos_of_recipe(&id);
                self.store.recipe_came(&id);
            }
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
        let text = texts().devices.outlived(&recipe.name, by.as_deref());
        self.store.notices().show(Notice::warning("outlived", text));
    }

    pub(super) fn show_status(self) {
        let status = if self.store.is_cut_off() {
            Status::Ended
        } else if self.store.member_now().is_none() {
            Status::Alone
        } else if let Some(trouble) = self.trouble.get_value() {
            Status::Trouble(trouble)
        } else if !self.open.get_value() {
            Status::Waiting
        } else {
            self.talk.with_value(|talk| {
                self.ledger.with_value(|ledger| {
                    let too_large = talk.too_large();
                    if !talk.is_done() || !ledger.unsent().is_subset(&too_large) {
                        Status::Sending
                    } else if !ledger.unsent().is_empty() {
                        Status::TooLarge(too_large)
                    } else if self.photos.with_value(Photos::is_full) {
                        Status::Trouble(Trouble::PhotosFull)
                    } else {
                        Status::Everywhere
                    }
                })
            })
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
}
