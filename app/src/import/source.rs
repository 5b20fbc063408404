//! The way a file comes: read, cut and made ready by a worker, or in turns on the page
//! where the file is small, or there is no worker.

use std::collections::VecDeque;
use std::pin::pin;
use std::time::Duration;

use futures::StreamExt as _;
use futures::channel::mpsc::{UnboundedReceiver, unbounded};
use futures::future::{Either, select};
use serde::{Deserialize, Serialize};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::Blob;
use web_sys::js_sys::{ArrayBuffer, Promise, Uint8Array};
use web_sys::wasm_bindgen::JsCast as _;

use super::ready::Ready;
use super::split::{Head, Kind, Part, Parted, Splitter, Uncut};
use super::taking::RECIPES;
use crate::beside::{self, Work, Worker};
use crate::sync::EVERYTHING;
use crate::turns::{Turn, pause};

/// How much of a file is read at a time, in bytes. Our own bound: about what a
/// slow phone cuts in a turn.
const SLICE: usize = 512 * 1024;

/// From how many bytes on a file is worth a worker. Our own bound: about as long as one
/// takes to start, smaller ones are read on the page.
const LARGE: usize = 1_000_000;

/// So long may a worker take to show that it works. Our own bound: the page has the same
/// code already.
const PATIENCE: Duration = Duration::from_secs(5);

/// The files that can be taken in.
const KINDS: &[Kind] = &[RECIPES, EVERYTHING];

/// Why a file does not come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum Not {
    /// Somebody cancelled it.
    Cancelled,
    /// The browser does not give it out.
    Unread,
    /// It can't be cut into its parts.
    Uncut(Uncut),
    /// The worker is gone. On the page it may come.
    Gone,
}

/// What a worker says of a file.
#[derive(Debug, Serialize, Deserialize)]
enum Said {
    /// So much of it is read, in bytes.
    Read(usize),
    /// It does not come.
    Not(Not),
    /// It is cut: its kind by its place among [`KINDS`], its version, and how many parts
    /// follow.
    Cut(usize, u64, usize),
    /// The next parts.
    Ready(Vec<Ready>),
}

/// A file that is cut.
#[derive(Debug)]
pub(crate) struct Source {
    /// What it says it is.
    pub(crate) head: Head,
    /// How many parts it has.
    pub(crate) all: usize,
    from: From,
}

/// Where its parts come from.
#[derive(Debug)]
enum From {
    Here {
        parts: std::vec::IntoIter<Part>,
        done: usize,
    },
    Beside {
        worker: Reader,
        come: usize,
    },
}

impl Source {
    /// Opens a file; `go_on` is told how many bytes of how many are read, and says
    /// whether to go on. Where a worker is gone, `here` does without.
    pub(crate) async fn open(
        file: &Blob,
        here: bool,
        go_on: impl Fn(usize, usize) -> bool,
    ) -> Result<Self, Not> {
        if !here
            && size(file) >= LARGE
            && let Some(reader) = Reader::start().await
        {
            return Self::beside(reader, file, go_on).await;
        }
        let Parted { head, parts } = cut(file, go_on).await?;
        Ok(Self {
            head,
            all: parts.len(),
            from: From::Here {
                parts: parts.into_iter(),
                done: 0,
            },
        })
    }

    async fn beside(
        mut worker: Reader,
        file: &Blob,
        go_on: impl Fn(usize, usize) -> bool,
    ) -> Result<Self, Not> {
        worker.worker.post(file);
        loop {
            match worker.next().await? {
                Said::Read(read) if go_on(read, size(file)) => {}
                Said::Read(_) => return Err(Not::Cancelled),
                Said::Not(not) => return Err(not),
                Said::Cut(kind, version, all) => {
                    let kind = *KINDS.get(kind).ok_or(Not::Gone)?;
                    return Ok(Self {
                        head: Head { kind, version },
                        all,
                        from: From::Beside { worker, come: 0 },
                    });
                }
                Said::Ready(_) => return Err(Not::Gone),
            }
        }
    }

    /// The next parts, as many as are there or are made ready in a turn; none after the
    /// last.
    pub(crate) async fn next(&mut self) -> Result<VecDeque<Ready>, Not> {
        match &mut self.from {
            From::Here { parts, done } => Ok(some(self.head, parts, done).into()),
            From::Beside { come, .. } if *come >= self.all => Ok(VecDeque::new()),
            From::Beside { worker, come } => match worker.next().await? {
                Said::Ready(ready) if !ready.is_empty() => {
                    *come += ready.len();
                    Ok(ready.into())
                }
                _ => Err(Not::Gone),
            },
        }
    }
}

/// The next parts, as many as are made ready in a turn.
fn some(head: Head, parts: &mut std::vec::IntoIter<Part>, done: &mut usize) -> Vec<Ready> {
    let turn = Turn::begin();
    let mut ready = Vec::new();
    for part in parts {
        *done += 1;
        ready.push(if head.kind == RECIPES {
            Ready::of(head.version, *done, part)
        } else {
            Ready::Part(part)
        });
        if turn.is_over() {
            break;
        }
    }
    ready
}

/// A worker that reads files, until it is let go of.
#[derive(Debug)]
struct Reader {
    worker: Worker,
    said: UnboundedReceiver<String>,
}

impl Drop for Reader {
    fn drop(&mut self) {
        self.worker.end();
    }
}

impl Reader {
    /// Starts one; `None` where none comes.
    async fn start() -> Option<Self> {
        let (say, said) = unbounded();
        let gone = say.clone();
        let worker = Worker::start(
            Work::Files,
            // Nobody hears it once the file is let go of.
            move |text| drop(say.unbounded_send(text)),
            move || gone.close_channel(),
        )?;
        let mut reader = Self { worker, said };
        let late = pin!(pause(PATIENCE));
        match select(reader.said.next(), late).await {
            Either::Left((Some(here), _)) if here.is_empty() => Some(reader),
            _ => None,
        }
    }

    async fn next(&mut self) -> Result<Said, Not> {
        let said = self.said.next().await.ok_or(Not::Gone)?;
        serde_json::from_str(&said).map_err(|_| Not::Gone)
    }
}

/// Reads files in a worker for the page that started it.
pub(crate) fn serve() {
    beside::serve(|file| {
        let file: Option<Blob> = file.and_then(|file| file.dyn_into().ok());
        if let Some(file) = file {
            spawn_local(async move {
                if let Err(not) = tell(&file).await {
                    say(&Said::Not(not));
                }
            });
        }
    });
}

async fn tell(file: &Blob) -> Result<(), Not> {
    let read = |read, _| {
        say(&Said::Read(read));
        true
    };
    let Parted { head, parts } = cut(file, read).await?;
    let kind = KINDS.iter().position(|kind| *kind == head.kind);
    say(&Said::Cut(
        kind.unwrap_or_default(),
        head.version,
        parts.len(),
    ));
    let (mut parts, mut done) = (parts.into_iter(), 0);
    loop {
        let ready = some(head, &mut parts, &mut done);
        if ready.is_empty() {
            return Ok(());
        }
        say(&Said::Ready(ready));
    }
}

fn say(said: &Said) {
    if let Ok(text) = serde_json::to_string(said) {
        beside::say(&text);
    }
}

/// Reads a file and cuts it into its parts.
async fn cut(file: &Blob, go_on: impl Fn(usize, usize) -> bool) -> Result<Parted, Not> {
    let size = size(file);
    let mut splitter = Splitter::new(KINDS);
    let mut turn = Turn::begin();
    let mut from = 0;
    let mut coming = slice(file, from);
    while from < size {
        if !go_on(from, size) {
            return Err(Not::Cancelled);
        }
        let slice = bytes(coming).await.ok_or(Not::Unread)?;
        from += SLICE;
        // The next one is read while this one is cut.
        coming = self::slice(file, from);
        splitter.feed(&slice).map_err(Not::Uncut)?;
        turn.or_next().await;
    }
    splitter.end().map_err(Not::Uncut)
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the size of a file that is not too large is a small whole number"
)]
fn size(file: &Blob) -> usize {
    file.size() as usize
}

/// Some bytes of a file, as the browser begins to read them; none where the file
/// has ended.
fn slice(file: &Blob, from: usize) -> Option<Promise> {
    #[expect(
        clippy::cast_precision_loss,
        reason = "the size of a file that is not too large is a small whole number"
    )]
    let (from, to) = (from as f64, (from + SLICE) as f64);
    let slice = file.slice_with_f64_and_f64(from, to).ok()?;
    Some(slice.array_buffer())
}

/// The bytes, once they are read.
async fn bytes(coming: Option<Promise>) -> Option<Vec<u8>> {
    let bytes = JsFuture::from(coming?).await.ok()?;
    let bytes: ArrayBuffer = bytes.dyn_into().ok()?;
    Some(Uint8Array::new(&bytes).to_vec())
}
