//! What all connections share: the store, what was changed last in each
//! workshop, and the one who writes.

use std::collections::{HashMap, VecDeque};
use std::sync::{Arc, Mutex, PoisonError, Weak};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use axum::body::Bytes;
use foldwright_document::Document;
use foldwright_document::frame::{self, Message};
use tokio::sync::{broadcast, mpsc, watch};
use tokio::task::spawn_blocking;

use crate::api::readable;
use crate::rate::Rate;
use crate::secret::{self, NoRandomness};
use crate::store::{Change, Kept, News, Store, Trouble, Workshop};

/// Changes that are written together.
const TOGETHER: usize = 512;
/// Changes waiting to be written.
const WAITING: usize = 2048;
/// Changes of a workshop kept at hand for those who follow live.
const AT_HAND: usize = 256;
/// Their bytes.
const AT_HAND_BYTES: usize = 1024 * 1024;
/// Changes of a document after which they are merged into one.
const SCATTERED: i64 = 64;
/// How often that is looked for.
const TIDY: Duration = Duration::from_mins(1);
/// After how many times any changes that lie apart are merged: once a day. What
/// was erased is gone from a document only then.
const THOROUGHLY: u32 = 24 * 60;
/// How long a code to claim a server or a new workshop may be used.
const CLAIM: i64 = 24 * 60 * 60;

/// What came of a change.
pub(crate) type Saved = Result<(), Arc<Trouble>>;

/// A change on its way to the store, and who wants to know.
pub(crate) struct Pending {
    pub(crate) change: Change,
    pub(crate) from: u64,
    pub(crate) done: mpsc::UnboundedSender<Saved>,
}

/// A workshop that somebody is connected to.
pub(crate) struct Room {
    /// The number of the last change.
    pub(crate) last: watch::Sender<i64>,
    recent: Mutex<Recent>,
}

/// A change on its way to the devices of its workshop.
#[derive(Clone)]
pub(crate) struct Passing {
    /// Its number.
    pub(crate) number: i64,
    /// The connection it came over, which need not hear of it; 0 for none.
    pub(crate) from: u64,
    /// It as the devices are told it, written once for all.
    pub(crate) frame: Bytes,
}

impl Passing {
    pub(crate) fn new(document: &str, update: &[u8], number: i64, from: u64) -> Self {
        let frame = frame::write(document, Message::Update(update)).into();
        Self {
            number,
            from,
            frame,
        }
    }
}

#[derive(Default)]
struct Recent {
    changes: VecDeque<Passing>,
    bytes: usize,
}

impl Room {
    fn recent(&self) -> std::sync::MutexGuard<'_, Recent> {
        // Every state of the queue is a good one, whoever panicked.
        self.recent.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Adds a change for those who follow.
    fn push(&self, passing: Passing) {
        let number = passing.number;
        let mut recent = self.recent();
        let last = recent.changes.back().map(|last| last.number);
        if last.is_some_and(|last| last + 1 != number) {
            // Another server wrote in between.
            *recent = Recent::default();
        }
        recent.bytes += passing.frame.len();
        recent.changes.push_back(passing);
        while recent.changes.len() > AT_HAND || recent.bytes > AT_HAND_BYTES {
            let Some(old) = recent.changes.pop_front() else {
                break;
            };
            recent.bytes -= old.frame.len();
        }
    }

    /// Notes that there are changes up to a number, and wakes those who follow.
    fn heard(&self, number: i64) {
        self.last.send_if_modified(|last| {
            let newer = number > *last;
            *last = number.max(*last);
            newer
        });
    }

    /// The changes after a number, if all of them are at hand.
    pub(crate) fn after(&self, number: i64) -> Option<Vec<Passing>> {
        let recent = self.recent();
        if recent.changes.front()?.number > number + 1 {
            return None;
        }
        let known = recent.changes.partition_point(|it| it.number <= number);
        Some(recent.changes.range(known..).cloned().collect())
    }
}

/// What all connections share.
pub struct Hub {
    pub(crate) store: Arc<dyn Store>,
    pub(crate) rate: Rate,
    pub(crate) revoked: broadcast::Sender<String>,
    rooms: Mutex<HashMap<String, Weak<Room>>>,
    queue: mpsc::Sender<Pending>,
}

impl Hub {
    /// Starts the one who writes, those who listen, and the one who tidies.
    pub async fn start(store: Arc<dyn Store>) -> Result<Arc<Self>, Trouble> {
        let (queue, waiting) = mpsc::channel(WAITING);
        let (revoked, _) = broadcast::channel(64);
        let hub = Arc::new(Self {
            store,
            rate: Rate::default(),
            revoked,
            rooms: Mutex::default(),
            queue,
        });
        tokio::spawn(write(Arc::downgrade(&hub), waiting));
        if let Some(news) = hub.store.listen().await? {
            tokio::spawn(hear(Arc::downgrade(&hub), news));
        }
        tokio::spawn(tidy(Arc::downgrade(&hub)));
        Ok(hub)
    }

    /// The code by which a server nobody uses yet is claimed; `None` once it
    /// has a workshop.
    pub async fn claim(&self) -> Result<Option<String>, Trouble> {
        if self.store.workshops().await?.is_empty() {
            self.invite("Workshop").await.map(Some)
        } else {
            Ok(None)
        }
    }

    /// A code by which a device comes into the workshop of that name; where
    /// there is none it is made when the code is used.
    pub async fn invite(&self, name: &str) -> Result<String, Trouble> {
        let name = readable(name).ok_or(Trouble::Nameless)?;
        let workshops = self.store.workshops().await?;
        let workshop = match workshops.into_iter().find(|it| it.name == name) {
            Some(workshop) => workshop,
            None => Workshop {
                id: secret::name().map_err(no_randomness)?,
                name,
            },
        };
        let code = secret::code().map_err(no_randomness)?;
        let hash = secret::code_hash(&code);
        self.store.offer(&hash, &workshop, now() + CLAIM).await?;
        Ok(code)
    }

    /// Merges the changes of documents that have at least so many.
    pub async fn compact(&self, scattered: i64) -> Result<(), Trouble> {
        for (workshop, name) in self.store.scattered(scattered).await? {
            let kept = self.store.document(&workshop, &name).await?;
            let Some(upto) = kept.last().map(|kept| kept.number) else {
                continue;
            };
            if let Some(document) = whole(kept).await {
                // Its bytes are without what came too early, which stays as it
                // came until what it goes on from is here.
                if document.waits() {
                    continue;
                }
                let bytes = document.bytes();
                self.store.compact(&workshop, &name, upto, &bytes).await?;
            } else {
                tracing::warn!(workshop, name, "a document cannot be merged");
            }
        }
        Ok(())
    }

    /// Lets go of what it is kept in. Whoever ends the process first may leave
    /// a file half closed: sound, but with something beside it.
    pub async fn close(&self) {
        self.store.close().await;
    }

    pub(crate) async fn queue(&self, pending: Pending) -> Result<(), ()> {
        self.queue.send(pending).await.map_err(drop)
    }

    /// The room of a workshop, made when somebody comes in.
    pub(crate) async fn room(&self, workshop: &str) -> Result<Arc<Room>, Trouble> {
        let last = self.store.last(workshop).await?;
        let mut rooms = self.rooms();
        if let Some(room) = rooms.get(workshop).and_then(Weak::upgrade) {
            room.heard(last);
            return Ok(room);
        }
        rooms.retain(|_, room| room.strong_count() > 0);
        let room = Arc::new(Room {
            last: watch::Sender::new(last),
            recent: Mutex::default(),
        });
        rooms.insert(workshop.to_owned(), Arc::downgrade(&room));
        Ok(room)
    }

    fn rooms(&self) -> std::sync::MutexGuard<'_, HashMap<String, Weak<Room>>> {
        // The map is whole after each call, whoever panicked.
        self.rooms.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn open_room(&self, workshop: &str) -> Option<Arc<Room>> {
        self.rooms().get(workshop).and_then(Weak::upgrade)
    }
}

fn no_randomness(_: NoRandomness) -> Trouble {
    Trouble::Other(String::from("the system has no random numbers to give"))
}

/// Seconds since 1970.
pub(crate) fn now() -> i64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    since.map_or(0, |since| {
        i64::try_from(since.as_secs()).unwrap_or(i64::MAX)
    })
}

/// A document of all that is kept of it; `None` where that cannot be read.
/// Merging takes a while, so it runs beside the connections.
pub(crate) async fn whole(kept: Vec<Kept>) -> Option<Document> {
    let merged = spawn_blocking(move || {
        let mut document = Document::new(0);
        for kept in kept {
            document.apply(&kept.update).ok()?;
        }
        Some(document)
    });
    merged.await.ok().flatten()
}

/// Writes what waits, as much at once as there is: one commit for all.
async fn write(hub: Weak<Hub>, mut waiting: mpsc::Receiver<Pending>) {
    let mut batch = Vec::with_capacity(TOGETHER);
    while waiting.recv_many(&mut batch, TOGETHER).await > 0 {
        let Some(hub) = hub.upgrade() else { return };
        let changes: Vec<Change> = batch.iter().map(|pending| pending.change.clone()).collect();
        match hub.store.append(&changes).await {
            Ok(numbers) => kept(&hub, batch.drain(..).zip(numbers)),
            Err(trouble) => {
                tracing::error!(%trouble, "changes were not kept");
                let trouble = Arc::new(trouble);
                for pending in batch.drain(..) {
                    // Whoever left does not want to know.
                    let _ = pending.done.send(Err(Arc::clone(&trouble)));
                }
            }
        }
    }
}

/// Passes on what was kept: everybody hears at once of all that one commit
/// holds.
fn kept(hub: &Hub, written: impl Iterator<Item = (Pending, i64)>) {
    let mut rooms: HashMap<String, (Arc<Room>, i64)> = HashMap::new();
    let mut writers = Vec::new();
    for (Pending { change, from, done }, number) in written {
        if let Some(room) = hub.open_room(&change.workshop) {
            room.push(Passing::new(&change.document, &change.update, number, from));
            rooms.insert(change.workshop, (room, number));
        }
        writers.push(done);
    }
    for (room, number) in rooms.into_values() {
        room.heard(number);
    }
    for done in writers {
        // Whoever left does not want to know.
        let _ = done.send(Ok(()));
    }
}

/// Passes on what other servers did.
async fn hear(hub: Weak<Hub>, mut news: mpsc::Receiver<News>) {
    while let Some(news) = news.recv().await {
        let Some(hub) = hub.upgrade() else { return };
        match news {
            News::Changed(workshop, number) => {
                if let Some(room) = hub.open_room(&workshop) {
                    room.heard(number);
                }
            }
            News::Revoked(device) => {
                // Nobody may be connected.
                let _ = hub.revoked.send(device);
            }
            News::Missed => {
                // Everybody looks again who they are and what they lack.
                let _ = hub.revoked.send(String::new());
                let open: Vec<_> = {
                    let rooms = hub.rooms();
                    rooms
                        .iter()
                        .filter_map(|(id, room)| Some((id.clone(), room.upgrade()?)))
                        .collect()
                };
                for (workshop, room) in open {
                    if let Ok(last) = hub.store.last(&workshop).await {
                        room.heard(last);
                    }
                }
            }
        }
    }
}

/// Merges documents in many pieces from time to time.
async fn tidy(hub: Weak<Hub>) {
    for turn in (0..THOROUGHLY).cycle() {
        tokio::time::sleep(TIDY).await;
        let Some(hub) = hub.upgrade() else { return };
        let scattered = if turn == 0 { 2 } else { SCATTERED };
        if let Err(trouble) = hub.compact(scattered).await {
            tracing::warn!(%trouble, "documents were not merged");
        }
    }
}
