//! How many connections there may be, and who gives way to whom.

use std::collections::BTreeMap;
use std::net::SocketAddr;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio_util::sync::CancellationToken;

/// The most connections at a time. Our own bound.
const MOST: usize = 4096;
/// Files the program needs for other things: its database, its ports, its own
/// certificate. Our own bound, about twice of what is in use.
const OTHER_FILES: usize = 64;
/// So few connections are always allowed, however few files there may be.
const FEWEST: usize = 8;

/// Room for connections. Where there is none left, the one that has gone
/// longest without a request gives way; those that are being answered, and
/// sockets that stay open, never do.
#[derive(Clone, Debug)]
pub struct Room(Arc<Inside>);

#[derive(Debug)]
struct Inside {
    free: Arc<Semaphore>,
    waiting: Mutex<Waiting>,
}

/// Those from whom nothing is known but that they came, the longest first.
#[derive(Debug, Default)]
struct Waiting {
    turns: u64,
    all: BTreeMap<u64, CancellationToken>,
}

impl Room {
    /// Room for so many.
    pub fn for_connections(most: usize) -> Self {
        Self(Arc::new(Inside {
            free: Arc::new(Semaphore::new(most)),
            waiting: Mutex::default(),
        }))
    }

    /// Room for as many as this process may have files open, once it has asked
    /// the system for enough.
    pub fn of_this_process() -> Self {
        let files = files(MOST + OTHER_FILES).unwrap_or(MOST);
        Self::for_connections(files.saturating_sub(OTHER_FILES).clamp(FEWEST, MOST))
    }

    /// Comes in, in the place of somebody else if need be.
    pub(crate) async fn enter(&self) -> Option<OwnedSemaphorePermit> {
        let free = Arc::clone(&self.0.free);
        if let Ok(permit) = Arc::clone(&free).try_acquire_owned() {
            return Some(permit);
        }
        let longest = self.waiting().all.pop_first();
        if let Some((_, longest)) = longest {
            longest.cancel();
        }
        // It is never closed.
        free.acquire_owned().await.ok()
    }

    fn waiting(&self) -> MutexGuard<'_, Waiting> {
        // The map is whole after each call, whoever panicked.
        let waiting = self.0.waiting.lock();
        waiting.unwrap_or_else(PoisonError::into_inner)
    }
}

/// The other side of a connection.
#[derive(Clone, Debug)]
pub struct Peer {
    /// Where it is.
    pub address: SocketAddr,
    pub(crate) place: Arc<Place>,
}

/// A connection's place in the room.
#[derive(Debug)]
pub(crate) struct Place {
    room: Room,
    /// Its turn among those who wait, while it does.
    turn: Mutex<Option<u64>>,
    /// Tells it to give way.
    pub(crate) way: CancellationToken,
}

impl Place {
    pub(crate) fn in_room(room: Room) -> Arc<Self> {
        Arc::new(Self {
            room,
            turn: Mutex::default(),
            way: CancellationToken::new(),
        })
    }

    /// It waits for a request from now on.
    pub(crate) fn wait(&self) {
        let turn = {
            let mut waiting = self.room.waiting();
            waiting.turns += 1;
            let turn = waiting.turns;
            waiting.all.insert(turn, self.way.clone());
            turn
        };
        *self.turn.lock().unwrap_or_else(PoisonError::into_inner) = Some(turn);
    }

    /// It no longer waits: it has asked, or is gone.
    pub(crate) fn leave_queue(&self) {
        let turn = self.turn.lock();
        if let Some(turn) = turn.unwrap_or_else(PoisonError::into_inner).take() {
            self.room.waiting().all.remove(&turn);
        }
    }
}

/// An answer under way. Once it is dropped its connection waits again.
pub(crate) struct Busy(Option<Arc<Place>>);

impl Busy {
    pub(crate) fn with(peer: &Peer) -> Self {
        peer.place.leave_queue();
        Self(Some(Arc::clone(&peer.place)))
    }

    /// The connection is used for as long as it is open.
    pub(crate) fn for_good(mut self) {
        self.0 = None;
    }
}

impl Drop for Busy {
    fn drop(&mut self) {
        if let Some(place) = &self.0 {
            place.wait();
        }
    }
}

/// How many files this process may have open, after asking for so many.
#[cfg(unix)]
fn files(wanted: usize) -> Option<usize> {
    use rustix::process::{Resource, Rlimit, getrlimit, setrlimit};
    let granted = getrlimit(Resource::Nofile);
    let wanted = u64::try_from(wanted).ok()?;
    // None stands for no limit.
    let most = granted.maximum.map_or(wanted, |most| most.min(wanted));
    let current = granted.current.filter(|current| *current < most);
    let raised = current.is_some_and(|_| {
        let more = Rlimit {
            current: Some(most),
            maximum: granted.maximum,
        };
        setrlimit(Resource::Nofile, more).is_ok()
    });
    let files = if raised { Some(most) } else { granted.current };
    usize::try_from(files.unwrap_or(wanted)).ok()
}

#[cfg(not(unix))]
fn files(_: usize) -> Option<usize> {
    None
}
