//! One device's connection.
//!
//! The device first sends, as text, `{"key": …, "since": n}`: its key and the
//! number of the last change it has; 0 if none. Binary frames then carry
//! messages of y-sync in both directions, each with the name of its document.
//! A large one goes in pieces, either way (see [`pieces`]). Text frames tell the
//! rest: `{"saved": n}`, that the first n changes sent over this connection are
//! on the disk; `{"pieces": n}`, that the first n pieces sent over it have come;
//! `{"last": n}`, that everything up to change n has been sent;
//! `{"removed": …}`, the name of the device that removed this one, and
//! `{"trouble": …}`, why the connection ends. The device may ask in text whether
//! the server is there, and is told the last number again.

use std::collections::VecDeque;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

use axum::Router;
use axum::body::Bytes;
use axum::extract::ws::{CloseFrame, Message as Frame, Utf8Bytes, WebSocket};
use axum::extract::{State, WebSocketUpgrade};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse as _, Response};
use axum::routing::get;
use foldwright_api::{ARE_YOU_THERE, Ailing, SPOKEN, of_another_site};
use foldwright_document::frame::{self, Message};
use foldwright_document::pieces::{self, Gathering, LARGEST, WHOLE};
use futures_util::SinkExt as _;
use serde::Deserialize;
use serde_json::json;
use tokio::sync::{broadcast, mpsc, watch};
use tokio::task::spawn_blocking;
use tokio::time::{Instant, sleep_until, timeout};

use crate::hub::{Hub, Passing, Pending, Room, Saved, now, whole};
use crate::secret;
use crate::store::{Change, Device, Hash, Trouble};

/// How long a device may take to show its key.
const GREETING: Duration = Duration::from_secs(10);
/// How long the other side may take to hear why it ended.
const FAREWELL: Duration = Duration::from_secs(5);
/// How often the other side is asked whether it is still there.
const PULSE: Duration = Duration::from_secs(25);
/// How long it may stay silent.
const SILENCE: Duration = Duration::from_mins(1);
/// Bytes read at once: more than an edit takes. Each connection holds room for
/// as many, emptied before each reading.
const AT_ONCE: usize = 4 * 1024;
/// Changes of one connection that wait to be written.
const IN_FLIGHT: usize = 128;

/// The key opens nothing any more: its device was removed.
const CLOSED_OUT: u16 = 4401;
/// The key was never known here.
const UNKNOWN: u16 = 4404;
/// What was sent is no message.
const NOT_UNDERSTOOD: u16 = 4400;
/// The page is of an earlier release.
const EARLIER: u16 = 4426;
/// The store is in trouble; come again later.
const LATER: u16 = 1013;

static CONNECTIONS: AtomicU64 = AtomicU64::new(1);

#[derive(Deserialize)]
struct Greeting {
    key: String,
    #[serde(default)]
    since: i64,
    /// See [`SPOKEN`].
    #[serde(default)]
    speaks: u32,
}

/// Why a connection ends from this side.
enum End {
    /// The other side is gone.
    Gone,
    /// The device has no key of this server.
    Unknown,
    /// It is told why.
    Told(u16, Ailing),
    /// The device was removed, by one of this name.
    Removed(String),
}

impl From<axum::Error> for End {
    fn from(_: axum::Error) -> Self {
        Self::Gone
    }
}

impl From<Trouble> for End {
    fn from(trouble: Trouble) -> Self {
        tracing::error!(%trouble, "a connection was ended");
        Self::Told(LATER, trouble.ailing())
    }
}

fn unreadable(name: &str) -> End {
    tracing::error!(name, "a document cannot be read");
    End::Told(LATER, Ailing::Damaged)
}

fn earlier() -> End {
    End::Told(EARLIER, Ailing::EarlierPage)
}

fn not_understood() -> End {
    End::Told(NOT_UNDERSTOOD, Ailing::NotUnderstood)
}

/// The address of the socket, for this site's own pages only.
pub(crate) fn route(hub: Arc<Hub>) -> Router {
    Router::new()
        .route("/api/sync", get(connect))
        .with_state(hub)
}

async fn connect(
    State(hub): State<Arc<Hub>>,
    headers: HeaderMap,
    upgrade: WebSocketUpgrade,
) -> Response {
    if of_another_site(&headers) {
        return StatusCode::FORBIDDEN.into_response();
    }
    upgrade
        .max_message_size(WHOLE)
        .max_frame_size(WHOLE)
        .read_buffer_size(AT_ONCE)
        .on_upgrade(|socket| serve(hub, socket))
}

/// Serves a connection until either side ends it.
async fn serve(hub: Arc<Hub>, mut socket: WebSocket) {
    let told = match follow(&hub, &mut socket).await {
        Ok(()) | Err(End::Gone) => None,
        Err(End::Unknown) => Some((UNKNOWN, None)),
        Err(End::Told(code, why)) => Some((code, Some(json!({ "trouble": why })))),
        Err(End::Removed(by)) => Some((CLOSED_OUT, Some(json!({ "removed": by })))),
    };
    if let Some((code, why)) = told {
        // The other side may be gone by now.
        if let Some(why) = why {
            let _ = socket.send(Frame::Text(why.to_string().into())).await;
        }
        let reason = Utf8Bytes::from_static("");
        let _ = socket
            .send(Frame::Close(Some(CloseFrame { code, reason })))
            .await;
        // Whatever is still coming is read: a connection dropped with bytes
        // unread is reset, and the other side never learns why it ended.
        let rest = async { while let Some(Ok(_)) = socket.recv().await {} };
        let _ = timeout(FAREWELL, rest).await;
    }
}

struct Connection<'a> {
    hub: &'a Hub,
    socket: &'a mut WebSocket,
    device: Device,
    room: Arc<Room>,
    /// This connection among all.
    number: u64,
    /// The last change it has been sent.
    sent: i64,
    /// The last change it was told it has.
    told: Option<i64>,
    /// The pieces of a large frame that have come, and how many came in all.
    gathering: Gathering,
    pieces: u64,
    /// How large the changes are that were taken from it and wait to be
    /// written, how many are kept, and of how many of these it was told.
    in_flight: VecDeque<usize>,
    saved: u64,
    acknowledged: u64,
    done: mpsc::UnboundedSender<Saved>,
}

async fn follow(hub: &Hub, socket: &mut WebSocket) -> Result<(), End> {
    let greeting = timeout(GREETING, socket.recv()).await;
    let Ok(Some(Ok(Frame::Text(text)))) = greeting else {
        return Err(End::Unknown);
    };
    let greeting: Greeting = serde_json::from_str(&text).map_err(|_| End::Unknown)?;
    if greeting.speaks < SPOKEN {
        return Err(earlier());
    }
    // Before the key is looked up, so that nothing is missed in between.
    let mut revoked = hub.revoked.subscribe();
    let key = secret::hash(&greeting.key);
    let Some(device) = hub.store.device(&key).await? else {
        return Err(closed_out(hub, &key).await?);
    };
    seen(hub, &device).await;
    let room = hub.room(&device.workshop).await?;
    let mut news = room.last.subscribe();
    news.mark_changed();
    let (done, mut results) = mpsc::unbounded_channel();
    // A number from before a backup was restored says nothing about now.
    let known = 0..=*room.last.borrow();
    let sent = Some(greeting.since).filter(|since| known.contains(since));
    let mut connection = Connection {
        hub,
        socket,
        device,
        room,
        number: CONNECTIONS.fetch_add(1, Ordering::Relaxed),
        sent: sent.unwrap_or(0),
        told: None,
        gathering: Gathering::new(LARGEST),
        pieces: 0,
        in_flight: VecDeque::new(),
        saved: 0,
        acknowledged: 0,
        done,
    };
    let mut pulse = Instant::now() + PULSE;
    let mut heard = Instant::now();
    loop {
        let room_for_more = connection.has_room();
        tokio::select! {
            frame = connection.socket.recv(), if room_for_more => {
                let Some(frame) = frame else { return Err(End::Gone) };
                heard = Instant::now();
                match frame? {
                    Frame::Binary(bytes) => connection.hear(&bytes).await?,
                    Frame::Close(_) => return Err(End::Gone),
                    Frame::Ping(_) | Frame::Pong(_) => {}
                    Frame::Text(text) if text.as_str() == ARE_YOU_THERE => {
                        connection.told = None;
                        connection.catch_up(&mut results, &mut news).await?;
                    }
                    Frame::Text(_) => return Err(not_understood()),
                }
            }
            Some(result) = results.recv() => {
                connection.count(result)?;
                connection.catch_up(&mut results, &mut news).await?;
            }
            changed = news.changed() => {
                if changed.is_err() {
                    return Err(End::Gone);
                }
                connection.catch_up(&mut results, &mut news).await?;
            }
            told = revoked.recv() => match told {
                Ok(device) if device == connection.device.id => {
                    return Err(closed_out(hub, &key).await?);
                }
                // Something was missed: look again whether the key still opens.
                Ok(device) if device.is_empty() => connection.still_open(&key).await?,
                Err(broadcast::error::RecvError::Lagged(_)) => connection.still_open(&key).await?,
                Ok(_) => {}
                Err(broadcast::error::RecvError::Closed) => return Err(End::Gone),
            },
            () = sleep_until(pulse) => {
                if heard.elapsed() > SILENCE {
                    return Err(End::Gone);
                }
                pulse = Instant::now() + PULSE;
                connection.socket.send(Frame::Ping(Bytes::new())).await?;
                seen(hub, &connection.device).await;
            }
        }
    }
}

/// Why a key opens nothing.
async fn closed_out(hub: &Hub, key: &Hash) -> Result<End, Trouble> {
    let remover = hub.store.remover(key).await?;
    Ok(remover.map_or(End::Unknown, End::Removed))
}

/// Notes that a device was here. One that cannot be noted is served all the
/// same: it can still read, where the disk is full.
async fn seen(hub: &Hub, device: &Device) {
    if let Err(trouble) = hub.store.seen(&device.id, now()).await {
        tracing::warn!(%trouble, "that a device was seen is not noted");
    }
}

impl Connection<'_> {
    /// Says something with whatever is sent next.
    async fn say(&mut self, what: &serde_json::Value) -> Result<(), End> {
        Ok(self
            .socket
            .feed(Frame::Text(what.to_string().into()))
            .await?)
    }

    async fn still_open(&mut self, key: &Hash) -> Result<(), End> {
        match self.hub.store.device(key).await? {
            Some(_) => Ok(()),
            None => Err(closed_out(self.hub, key).await?),
        }
    }

    /// Sends a frame, in pieces where it is large.
    async fn send(&mut self, frame: Bytes) -> Result<(), End> {
        if frame.len() <= WHOLE {
            return Ok(self.socket.feed(Frame::Binary(frame)).await?);
        }
        for piece in pieces::cut(&frame) {
            self.socket.feed(Frame::Binary(piece.into())).await?;
        }
        Ok(())
    }

    /// Whether more may come before what has come is written.
    fn has_room(&self) -> bool {
        self.in_flight.len() < IN_FLIGHT && self.in_flight.iter().sum::<usize>() < LARGEST
    }

    fn count(&mut self, result: Saved) -> Result<(), End> {
        // Changes are written in the order in which they came.
        self.in_flight.pop_front();
        self.saved += 1;
        result.map_err(|trouble| End::Told(LATER, trouble.ailing()))
    }

    /// Takes in a frame or a piece of one.
    async fn hear(&mut self, bytes: &[u8]) -> Result<(), End> {
        let frame = self.gathering.take(bytes).map_err(|_| not_understood())?;
        if let Some(frame) = frame {
            self.take(&frame).await?;
        }
        if pieces::is_piece(bytes) {
            self.pieces += 1;
            self.say(&json!({ "pieces": self.pieces })).await?;
            self.socket.flush().await?;
        }
        Ok(())
    }

    /// Takes a message in.
    async fn take(&mut self, bytes: &[u8]) -> Result<(), End> {
        let (name, message) = frame::read(bytes).ok_or_else(not_understood)?;
        match message {
            Message::State(state) => {
                let kept = self.hub.store.document(&self.device.workshop, name).await?;
                let document = whole(kept).await.ok_or_else(|| unreadable(name))?;
                let rest = document.since(state).map_err(|_| not_understood())?;
                let own = document.state();
                self.send(frame::write(name, Message::Rest(&rest)).into())
                    .await?;
                self.send(frame::write(name, Message::State(&own)).into())
                    .await?;
                self.socket.flush().await?;
            }
            Message::Rest(update) | Message::Update(update) => {
                let change = Change {
                    workshop: self.device.workshop.clone(),
                    document: name.to_owned(),
                    update: sound(update).await.ok_or_else(not_understood)?,
                };
                self.in_flight.push_back(update.len());
                let pending = Pending {
                    change,
                    from: self.number,
                    done: self.done.clone(),
                };
                self.hub.queue(pending).await.map_err(|()| End::Gone)?;
            }
        }
        Ok(())
    }

    /// Tells the device what came of its changes and passes on those of
    /// others, in as few packets as that fits into.
    async fn catch_up(
        &mut self,
        results: &mut mpsc::UnboundedReceiver<Saved>,
        news: &mut watch::Receiver<i64>,
    ) -> Result<(), End> {
        while let Ok(result) = results.try_recv() {
            self.count(result)?;
        }
        if self.saved > self.acknowledged {
            self.acknowledged = self.saved;
            self.say(&json!({ "saved": self.saved })).await?;
        }
        self.pass_on(news).await?;
        if self.told != Some(self.sent) {
            self.told = Some(self.sent);
            self.say(&json!({ "last": self.sent })).await?;
        }
        Ok(self.socket.flush().await?)
    }

    /// Passes on everything the device has not been sent.
    async fn pass_on(&mut self, news: &mut watch::Receiver<i64>) -> Result<(), End> {
        loop {
            let last = *news.borrow_and_update();
            if self.sent >= last {
                return Ok(());
            }
            let changes = match self.room.after(self.sent) {
                Some(changes) if !changes.is_empty() => changes,
                _ => {
                    let since = self.hub.store.since(&self.device.workshop, self.sent);
                    let since = since.await?.into_iter();
                    let passing =
                        since.map(|it| Passing::new(&it.document, &it.update, it.number, 0));
                    passing.collect()
                }
            };
            if changes.is_empty() {
                self.sent = last;
            }
            for passing in changes {
                if passing.from != self.number {
                    self.send(passing.frame).await?;
                }
                self.sent = passing.number;
            }
        }
    }
}

/// A change that is sound; a large one is looked through beside the
/// connections.
async fn sound(update: &[u8]) -> Option<Arc<[u8]>> {
    let update: Arc<[u8]> = update.into();
    if update.len() <= WHOLE {
        foldwright_document::check(&update).ok()?;
        return Some(update);
    }
    let looked = spawn_blocking(move || foldwright_document::check(&update).map(|()| update));
    looked.await.ok()?.ok()
}
