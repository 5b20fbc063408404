//! Photographs go along with the recipes that use them: the one tab that has
//! the connection sends what the server lacks, once the recipes are there, and fetches
//! what is not here, also by the links of recipes that others share.
//!
//! What no recipe uses is forgotten here and at the server after as long as a deleted
//! recipe can be brought back, by a count that no clock can hurry: a recipe that is
//! brought back, or goes back to an earlier version of these days, has its paper again.

mod plan;
mod server;

use std::collections::{BTreeMap, BTreeSet};
use std::time::Duration;

use foldwright_api::{NotTaken, has_room_for};
use foldwright_engine::paper::PhotoId;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::Syncing;
use super::talk::Talk;
use super::waiting;
use crate::album::uses::Uses;
use crate::album::{self, NotKept};
use crate::notice::Notice;
use crate::store::{is_version, now, recipe_id};
use crate::turns::Turn;
use plan::{Plan, unused};
use server::Not;

/// How long is waited before the server is asked again for what another device is still
/// to send, first and at most.
const FIRST_WAIT: Duration = Duration::from_secs(2);
const LONGEST_WAIT: Duration = Duration::from_mins(5);

/// What this tab knows of photographs.
#[derive(Debug, Default)]
pub(super) struct Photos {
    uses: Uses,
    /// What the server has; nothing until it is asked, and when it is to be asked again.
    there: Option<BTreeMap<PhotoId, u64>>,
    /// Whether any photograph is known to be here, at the server or in a recipe.
    matter: bool,
    /// Whether the workshop has no room for one that is here.
    full: bool,
    /// What was tried, and will go no better while this page is there.
    given_up: BTreeSet<PhotoId>,
    /// Links that were asked for a photograph and have answered.
    asked: BTreeSet<(String, PhotoId)>,
    wait: Duration,
    /// Whether waiting for another try.
    waits: bool,
    course: Course,
}

/// Whether an exchange is under way: one at a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Course {
    #[default]
    Idle,
    Busy,
    /// And something came meanwhile, so that another follows.
    Again,
}

impl Photos {
    /// Whether the workshop has no room for a photograph that is here.
    pub(super) fn is_full(&self) -> bool {
        self.full
    }

    /// The server is to be asked again what it has.
    pub(super) fn doubt(&mut self) {
        self.there = None;
    }

    /// Whether an exchange may begin; where one is under way it goes on to another.
    fn begin(&mut self) -> bool {
        let begins = self.course == Course::Idle;
        self.course = if begins { Course::Busy } else { Course::Again };
        begins
    }

    /// Ends an exchange; whether another one is to follow.
    fn end(&mut self) -> bool {
        let follows = self.course == Course::Again;
        self.course = if follows { Course::Busy } else { Course::Idle };
        follows
    }

    /// What no recipe uses of these and of what the server has; `None` where that is not
    /// known for sure.
    fn unused(&self, here: &BTreeSet<PhotoId>) -> Option<BTreeMap<String, u64>> {
        let mut used = self.uses.own();
        used.extend(self.uses.of_links().into_iter().map(|(_, photo)| photo));
        let there = self.there.iter().flat_map(BTreeMap::keys);
        let sure = self.matter && self.uses.are_sure();
        sure.then(|| unused(here.iter().chain(there), &used))
    }
}

impl Syncing {
    /// Something may be to be sent, fetched or forgotten.
    pub(super) fn exchange_photos(self) {
        let begins = |photos: &mut Photos| photos.begin();
        if !self.leads.get_value() || self.photos.try_update_value(begins) != Some(true) {
            return;
        }
        spawn_local(async move {
            loop {
                self.exchange().await;
                if self.photos.try_update_value(Photos::end) != Some(true) {
                    break;
                }
            }
            self.show_status();
        });
    }

    /// Something was kept under these keys. What others share is no document, so that
    /// nothing else tells that it has come.
    pub(super) fn photos_of(self, keys: &[String]) {
        let mut ids = keys.iter().filter_map(|key| recipe_id(key));
        if ids.any(is_version) {
            self.exchange_photos();
        }
    }

    /// A recipe has come from another device.
    pub(super) fn photos_of_recipe(self, id: &str) {
        self.photos.update_value(|photos| {
            self.store
                .with_shelf(|shelf| photos.uses.look_at(shelf, id));
            if photos.uses.has_photos(id) {
                photos.matter = true;
                photos.doubt();
            }
        });
    }

    async fn exchange(self) {
        let Ok(here) = album::here().await else {
            return;
        };
        let member = self.store.member_now();
        let alone = member.is_none();
        // Photographs follow recipes.
        let connected = self.open.get_value() && self.talk.with_value(Talk::is_done);
        let key = member.map(|member| member.key).filter(|_| connected);
        if let Some(key) = &key
            && self.photos.with_value(|photos| photos.there.is_none())
        {
            match server::list(key).await {
                Ok(there) => self
                    .photos
                    .update_value(|photos| photos.there = Some(there)),
                Err(_) => self.photos_later(),
            }
        }
        self.look_at_recipes(!here.is_empty()).await;
        self.fetch_by_links(&here).await;
        let Some(key) = key else {
            if alone {
                self.forget_unused(&here, None).await;
            }
            return;
        };
        let plan = self.photos.with_value(|photos| {
            let there = photos.there.as_ref()?;
            Some(Plan::new(&here, &photos.uses.own(), there))
        });
        if let Some(plan) = plan {
            self.send_photos(&key, plan.send, &here).await;
            self.fetch_photos(&key, plan.fetch).await;
            if !plan.awaited.is_empty() {
                self.photos_later();
            }
            self.forget_unused(&here, Some(&key)).await;
        }
    }

    /// Looks at the recipes that may use photographs, with time for the page in between:
    /// all of them where there is any photograph, and else those that others share.
    async fn look_at_recipes(self, any_here: bool) {
        let matter = self.photos.try_update_value(|photos| {
            let there = photos.there.as_ref();
            photos.matter |= any_here || there.is_some_and(|there| !there.is_empty());
            photos.matter
        });
        let mut ids: BTreeSet<String> = self.store.with_shelf(|shelf| {
            let keys = shelf.port().keys();
            keys.iter()
                .filter_map(|key| recipe_id(key).map(str::to_owned))
                .collect()
        });
        if matter != Some(true) {
            ids.retain(|id| is_version(id));
        }
        let mut turn = Turn::begin();
        for id in &ids {
            self.photos.update_value(|photos| {
                self.store
                    .with_shelf(|shelf| photos.uses.look_at(shelf, id));
            });
            turn.or_next().await;
        }
        self.photos
            .update_value(|photos| photos.uses.keep_only(&ids));
    }

    /// Fetches what recipes use that others share by link.
    async fn fetch_by_links(self, here: &BTreeSet<PhotoId>) {
        let wanted = self.photos.with_value(|photos| {
            let mut wanted = photos.uses.of_links();
            wanted.retain(|it| !here.contains(&it.1) && !photos.asked.contains(it));
            wanted
        });
        for (token, photo) in wanted {
            match server::of_link(&token, photo).await {
                Ok(file) => self.keep_photo(photo, file).await,
                // As soon as there is a network again.
                Err(Not::Reached) => continue,
                Err(Not::Done(_)) => {}
            }
            self.photos
                .update_value(|photos| photos.asked.extend([(token, photo)]));
        }
    }

    /// Sends photographs. Where there is no room for one, what no recipe uses makes room
    /// at once: a device that has it sends it again when it is used again.
    async fn send_photos(self, key: &str, send: BTreeSet<PhotoId>, here: &BTreeSet<PhotoId>) {
        let mut full = false;
        for photo in send {
            if self.has_given_up(photo) {
                continue;
            }
            let Some(file) = album::bytes(photo).await else {
                continue;
            };
            let bytes = file.len() as u64;
            let has_room = || {
                self.photos.with_value(|photos| {
                    let there = photos.there.iter().flat_map(BTreeMap::values);
                    has_room_for(bytes, there.copied())
                })
            };
            if !has_room() {
                for unused in self.unused_photos(here).unwrap_or_default().keys() {
                    if let Ok(unused) = unused.parse() {
                        self.delete_photo(key, unused).await;
                    }
                }
            }
            let sent = if has_room() {
                server::put(key, photo, &file).await
            } else {
                Err(Not::Done(NotTaken::Full))
            };
            match sent {
                Ok(()) => self.photos.update_value(|photos| {
                    photos.there.iter_mut().for_each(|there| {
                        there.insert(photo, bytes);
                    });
                }),
                Err(Not::Done(NotTaken::Full)) => full = true,
                Err(Not::Reached | Not::Done(NotTaken::Refused(_))) => self.photos_later(),
                Err(Not::Done(_)) => self.give_up(photo),
            }
        }
        self.photos.update_value(|photos| photos.full = full);
    }

    async fn fetch_photos(self, key: &str, fetch: BTreeSet<PhotoId>) {
        for photo in fetch {
            if self.has_given_up(photo) {
                continue;
            }
            match server::get(key, photo).await {
                Ok(file) => {
                    self.keep_photo(photo, file).await;
                    self.photos
                        .update_value(|photos| photos.wait = Duration::ZERO);
                }
                // It may be gone meanwhile, and come again.
                Err(_) => self.photos_later(),
            }
        }
    }

    /// Keeps what was fetched, if it is what was asked for.
    async fn keep_photo(self, photo: PhotoId, file: Vec<u8>) {
        let kept = if album::name(&file) == photo {
            album::keep(file).await.map(drop)
        } else {
            Err(NotKept::NoPhotograph)
        };
        if let Err(why) = kept {
            self.give_up(photo);
            if why != NotKept::NoPhotograph {
                let notice = Notice::warning("photographs", why.words());
                self.store.notices().show(notice);
            }
        }
    }

    fn has_given_up(self, photo: PhotoId) -> bool {
        self.photos
            .with_value(|photos| photos.given_up.contains(&photo))
    }

    fn give_up(self, photo: PhotoId) {
        self.photos
            .update_value(|photos| photos.given_up.extend([photo]));
    }

    /// Forgets what no recipe has used for long, here and, with a key, at the server.
    async fn forget_unused(self, here: &BTreeSet<PhotoId>, key: Option<&str>) {
        let Some(unused) = self.unused_photos(here) else {
            return;
        };
        let over = self
            .store
            .with_shelf(|shelf| waiting::look(shelf.port(), waiting::UNUSED, &unused, now()));
        for photo in over.iter().filter_map(|name| name.parse().ok()) {
            album::forget(photo).await;
            if let Some(key) = key {
                self.delete_photo(key, photo).await;
            }
        }
    }

    /// What of these and of what the server has no recipe uses, by name; `None` where
    /// that is not known for sure, since a recipe cannot be read or was set aside.
    fn unused_photos(self, here: &BTreeSet<PhotoId>) -> Option<BTreeMap<String, u64>> {
        let unread = self.store.with_shelf(|shelf| !shelf.asides().is_empty());
        let unused = self.photos.with_value(|photos| photos.unused(here));
        unused.filter(|_| !unread)
    }

    /// Has the server forget a photograph, if it has it.
    async fn delete_photo(self, key: &str, photo: PhotoId) {
        let there = |photos: &Photos| Some(photos.there.as_ref()?.contains_key(&photo));
        if self.photos.with_value(there) == Some(true) && server::delete(key, photo).await.is_ok() {
            self.photos.update_value(|photos| {
                photos.there.iter_mut().for_each(|there| {
                    there.remove(&photo);
                });
            });
        }
    }

    /// Asks the server again after a while.
    fn photos_later(self) {
        let wait = self.photos.try_update_value(|photos| {
            let waits = std::mem::replace(&mut photos.waits, true);
            photos.wait = (photos.wait * 2).clamp(FIRST_WAIT, LONGEST_WAIT);
            (!waits).then_some(photos.wait)
        });
        let again = move || {
            self.photos.update_value(|photos| {
                photos.waits = false;
                photos.doubt();
            });
            // Once somebody looks again it is asked anew.
            if !document().hidden() {
                self.exchange_photos();
            }
        };
        if let Some(Some(wait)) = wait {
            set_timeout(again, wait);
        }
    }
}
