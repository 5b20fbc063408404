//! Work for a server that passes edits on: `load PLACE ADDRESS` fills the
//! store of the service `alone` with workshops first and connects to it;
//! `load peer ADDRESS` connects to a y-websocket server. Prints one line of
//! JSON: the edits a second that arrived at another device, and the time to
//! there that 99 of 100 edits took, in milliseconds.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use foldwright_api::SPOKEN;
use foldwright_document::Document;
use foldwright_document::frame::{self, Message};
use foldwright_sync::Place;
use foldwright_sync::store::{Device, Hash, Workshop};
use futures_util::stream::{SplitSink, SplitStream};
use futures_util::{SinkExt as _, StreamExt as _};
use sha2::{Digest as _, Sha256};
use tokio::net::TcpStream;
use tokio::sync::Semaphore;
use tokio::task::JoinSet;
use tokio::time::{Instant, sleep, timeout};
use tokio_tungstenite::tungstenite::Message as Frame;
use tokio_tungstenite::tungstenite::protocol::WebSocketConfig;
use tokio_tungstenite::{MaybeTlsStream, WebSocketStream, connect_async_with_config};

type Trouble = Box<dyn std::error::Error + Send + Sync>;
type Socket = WebSocketStream<MaybeTlsStream<TcpStream>>;

/// Workshops; in each, one device writes and all others follow.
const WORKSHOPS: usize = 100;
/// Devices of each.
const DEVICES: usize = 10;
/// Edits of a workshop under way at once, where as many are made as go.
const UNDER_WAY: usize = 16;
/// Where time is measured, a workshop makes an edit this often.
const PACE: Duration = Duration::from_millis(500);
/// How long each part takes.
const SPAN: Duration = Duration::from_secs(6);
/// The document of a workshop.
const NAME: &str = "recipe/a";

/// What a server says when it passes an edit on, and how it is told one.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Manner {
    Ours,
    Peer,
}

impl Manner {
    fn edit(self, update: &[u8]) -> Vec<u8> {
        let frame = frame::write(NAME, Message::Update(update));
        match self {
            Self::Ours => frame,
            // The same without the name before it.
            Self::Peer => frame.get(NAME.len() + 1..).unwrap_or_default().to_vec(),
        }
    }

    fn is_edit(self, frame: &[u8]) -> bool {
        match self {
            Self::Ours => matches!(frame::read(frame), Some((_, Message::Update(_)))),
            Self::Peer => frame.starts_with(&[0, 2]),
        }
    }
}

/// The key of a device.
fn key(workshop: usize, device: usize) -> String {
    format!("key-{workshop}-{device}")
}

fn hash(key: &str) -> Hash {
    Sha256::digest(key.as_bytes()).into()
}

async fn fill(place: &str) -> Result<(), Trouble> {
    let store = Place::from(place).visit().await?;
    for number in 0..WORKSHOPS {
        let id = format!("workshop-{number}");
        let name = id.clone();
        let workshop = Workshop { id, name };
        store.add_workshop(&workshop, 1).await?;
        for device in 0..DEVICES {
            let made = Device {
                id: format!("device-{number}-{device}"),
                workshop: workshop.id.clone(),
                name: String::from("device"),
                made: 1,
                seen: 1,
                revoked: false,
            };
            store.add_device(&made, &hash(&key(number, device))).await?;
        }
    }
    Ok(())
}

async fn connect(
    manner: Manner,
    address: &str,
    workshop: usize,
    device: usize,
) -> Result<Socket, Trouble> {
    let url = match manner {
        Manner::Ours => format!("ws://{address}/api/sync"),
        Manner::Peer => format!("ws://{address}/workshop-{workshop}"),
    };
    // A thousand devices share this computer with the server.
    let config = WebSocketConfig::default().read_buffer_size(4 * 1024);
    let (mut socket, _) = connect_async_with_config(url, Some(config), true).await?;
    if manner == Manner::Ours {
        let key = key(workshop, device);
        let greeting = serde_json::json!({ "key": key, "since": 0, "speaks": SPOKEN }).to_string();
        socket.send(Frame::Text(greeting.into())).await?;
    }
    Ok(socket)
}

/// The edits of a workshop under way, and what came of the others.
struct Work {
    sent: Mutex<VecDeque<Instant>>,
    times: Mutex<Vec<Duration>>,
    room: Semaphore,
}

impl Work {
    fn arrived(&self) {
        let sent = self
            .sent
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .pop_front();
        if let Some(sent) = sent {
            let mut times = self.times.lock().unwrap_or_else(PoisonError::into_inner);
            times.push(sent.elapsed());
            self.room.add_permits(1);
        }
    }
}

async fn watch(manner: Manner, mut from: SplitStream<Socket>, work: Option<Arc<Work>>) {
    while let Some(Ok(frame)) = from.next().await {
        if let (Frame::Binary(bytes), Some(work)) = (frame, &work)
            && manner.is_edit(&bytes)
        {
            work.arrived();
        }
    }
}

async fn write(
    manner: Manner,
    to: &mut SplitSink<Socket, Frame>,
    document: &mut Document,
    work: &Work,
    pace: Option<Duration>,
) -> Result<(), Trouble> {
    let until = Instant::now() + SPAN;
    while Instant::now() < until {
        if let Some(pace) = pace {
            sleep(pace).await;
        }
        let Ok(room) = timeout(SPAN, work.room.acquire()).await else {
            return Err("edits do not arrive".into());
        };
        room?.forget();
        let update = document
            .add("sheets", 1)
            .ok_or("an edit changes something")?;
        work.sent
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .push_back(Instant::now());
        to.send(Frame::Binary(manner.edit(&update).into())).await?;
    }
    Ok(())
}

#[expect(
    clippy::cast_precision_loss,
    clippy::print_stdout,
    reason = "edits are counted in thousands, and this is what is printed"
)]
#[tokio::main]
async fn main() -> Result<(), Trouble> {
    let mut arguments = std::env::args().skip(1);
    let place = arguments.next().ok_or("load PLACE|peer ADDRESS")?;
    let address = arguments.next().ok_or("load PLACE|peer ADDRESS")?;
    let manner = if place == "peer" {
        Manner::Peer
    } else {
        Manner::Ours
    };
    if manner == Manner::Ours {
        fill(&place).await?;
    }
    let mut writers = Vec::new();
    let mut works = Vec::new();
    let mut watching = JoinSet::new();
    let mut open = Vec::new();
    for workshop in 0..WORKSHOPS {
        let work = Arc::new(Work {
            sent: Mutex::default(),
            times: Mutex::default(),
            room: Semaphore::new(UNDER_WAY),
        });
        for device in 0..DEVICES {
            let (to, from) = connect(manner, &address, workshop, device).await?.split();
            let seen = (device == 1).then(|| Arc::clone(&work));
            watching.spawn(watch(manner, from, seen));
            if device == 0 {
                let writer = u64::try_from(workshop)? + 1;
                writers.push((to, Document::new(writer), Arc::clone(&work)));
            } else {
                open.push(to);
            }
        }
        works.push(work);
    }
    sleep(Duration::from_secs(2)).await;
    let mut said = serde_json::Map::new();
    for pace in [Some(PACE), None] {
        for work in &works {
            work.times
                .lock()
                .unwrap_or_else(PoisonError::into_inner)
                .clear();
        }
        let begun = Instant::now();
        let mut writing = JoinSet::new();
        for (mut to, mut document, work) in writers.drain(..) {
            writing.spawn(async move {
                write(manner, &mut to, &mut document, &work, pace).await?;
                Ok::<_, Trouble>((to, document, work))
            });
        }
        while let Some(done) = writing.join_next().await {
            writers.push(done??);
        }
        let span = begun.elapsed();
        let mut times: Vec<Duration> = works
            .iter()
            .flat_map(|work| {
                work.times
                    .lock()
                    .unwrap_or_else(PoisonError::into_inner)
                    .clone()
            })
            .collect();
        times.sort_unstable();
        if pace.is_some() {
            let p99 = times.get(times.len() * 99 / 100).ok_or("no edit arrived")?;
            said.insert("p99_ms".to_owned(), (p99.as_secs_f64() * 1000.0).into());
        } else {
            let each = times.len() as f64 / span.as_secs_f64();
            said.insert("edits_per_s".to_owned(), each.into());
            said.insert("edits".to_owned(), times.len().into());
        }
        // What is still under way arrives before the next part.
        sleep(Duration::from_millis(500)).await;
    }
    println!("{}", serde_json::Value::Object(said));
    Ok(())
}
