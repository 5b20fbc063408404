//! What is said on a connection, apart from the connection itself.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet, VecDeque};

use foldwright_api::{Ailing, SPOKEN};
use foldwright_document::Malformed;
use foldwright_document::frame::{self, Message};
use foldwright_document::pieces::{self, Gathering, LARGEST};
use serde::Deserialize;
use serde_json::json;

use super::ledger::{Came, Change, Failed, Ledger};
use crate::store::Shelf;

/// By how much the number of the last change never grows while a device is
/// away, unless the server was put back from a backup: that raises it by twice
/// as much.
const RESTORED: i64 = 1 << 31;

/// How many pieces are on their way before the server tells of the first. Our
/// own bound: enough to keep a fast network busy, and on a slow one whatever
/// comes between them waits a few seconds.
const AHEAD: u64 = 8;

/// What the server says besides changes.
#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum Said {
    /// So many changes sent over this connection are kept.
    Saved(u64),
    /// So many pieces sent over this connection have come.
    Pieces(u64),
    /// Everything up to this change has come.
    Last(i64),
    /// Why the connection ends.
    Trouble(Ailing),
    /// The name of the device that removed this one.
    Removed(String),
}

/// What comes of something heard.
#[derive(Default)]
pub(super) struct Heard {
    /// What to send.
    pub(super) answers: Vec<Vec<u8>>,
    /// What has changed here.
    pub(super) came: Vec<Came>,
    /// The number of the last change that is here, if it is news.
    pub(super) last: Option<i64>,
    /// Why the server is about to end the connection.
    pub(super) trouble: Option<Ailing>,
    /// Which device removed this one from the workshop.
    pub(super) removed: Option<String>,
    /// There was no room for a change.
    pub(super) full: bool,
    /// Everything others have done so far is here now.
    pub(super) caught_up: bool,
    /// All documents are to be compared with the server's; `true` where it may
    /// lack anything of them.
    pub(super) compare: Option<bool>,
    /// The document of which there turned out to be more than can be sent.
    pub(super) too_large: Option<String>,
}

/// A frame whose pieces are not all sent.
struct Large {
    name: String,
    /// Which change of the document it has come to; `None` where it only asks.
    turn: Option<u64>,
    pieces: VecDeque<Vec<u8>>,
}

/// How far a connection has come.
pub(super) struct Talk {
    /// Changes sent and not yet known to be kept: of which document, and which
    /// of its changes.
    under_way: VecDeque<(String, u64)>,
    saved: u64,
    /// Frames that are sent piece by piece, and what comes after them about the
    /// same documents.
    waiting: VecDeque<Large>,
    /// Pieces sent, and those that the server has told of.
    pieces: u64,
    come: u64,
    /// The pieces of a frame from the server.
    gathering: Gathering,
    /// Documents of which the server lacks more than can be sent, and how large
    /// all of each may be for what is lacking to fit.
    too_large: BTreeMap<String, usize>,
    /// The last change that was here when the connection began.
    since: i64,
    caught_up: bool,
    /// Whether all documents have been compared with the server's.
    compared: bool,
    /// A change was not taken in, so that what follows is not counted.
    missed: bool,
}

impl Default for Talk {
    fn default() -> Self {
        Self {
            under_way: VecDeque::new(),
            saved: 0,
            waiting: VecDeque::new(),
            pieces: 0,
            come: 0,
            // What the server keeps it may pass on.
            gathering: Gathering::new(usize::MAX),
            too_large: BTreeMap::new(),
            since: 0,
            caught_up: false,
            compared: false,
            missed: false,
        }
    }
}

impl Talk {
    /// Begins: who this is, and the number of the last change that is here.
    pub(super) fn begin(key: &str, since: i64) -> (Self, String) {
        let talk = Self {
            since,
            ..Self::default()
        };
        let greeting = json!({ "key": key, "since": since, "speaks": SPOKEN });
        (talk, greeting.to_string())
    }

    /// Whether everything sent is kept, and everything there was has come.
    pub(super) fn is_done(&self) -> bool {
        self.caught_up && self.compared && self.under_way.is_empty() && self.waiting.is_empty()
    }

    /// Whether changes of a document are being sent and not yet known to be
    /// kept.
    pub(super) fn is_under_way(&self, name: &str) -> bool {
        let mut under_way = self.under_way.iter();
        under_way.any(|(other, _)| other == name) || self.waits(name)
    }

    /// Whether something about a document waits to be sent.
    fn waits(&self, name: &str) -> bool {
        self.waiting.iter().any(|large| large.name == name)
    }

    /// The documents of which there is more here than can be sent.
    pub(super) fn too_large(&self) -> BTreeSet<String> {
        self.too_large.keys().cloned().collect()
    }

    /// A message that came over the socket, once all of it is here. What is no
    /// message, nor the next piece of one, is refused: what should have come is
    /// missing, so that nothing after it can be counted.
    pub(super) fn gather<'a>(
        &mut self,
        bytes: &'a [u8],
    ) -> Result<Option<Cow<'a, [u8]>>, Malformed> {
        let gathered = self.gathering.take(bytes);
        let gathered = gathered.and_then(|whole| match whole {
            Some(whole) if frame::read(&whole).is_none() => Err(Malformed),
            other => Ok(other),
        });
        self.missed |= gathered.is_err();
        gathered
    }

    /// Notes that all documents have been compared.
    pub(super) fn compared(&mut self) {
        self.compared = true;
    }

    /// Tells changes made here.
    pub(super) fn tell(
        &mut self,
        ledger: &mut Ledger,
        shelf: &Shelf,
        changes: Vec<Change>,
    ) -> Heard {
        let mut heard = Heard::default();
        for (name, update) in changes {
            if let Some(fits) = self.too_large.get(&name) {
                // It goes on from what the server lacks. Only where that may
                // have become little enough is the server asked what it has.
                if ledger.size(shelf, &name) <= *fits {
                    heard.answers.extend(self.compare(ledger, shelf, &name));
                }
            } else {
                let frame = frame::write(&name, Message::Update(&update));
                self.send_change(&mut heard, ledger, shelf, &name, &frame);
            }
        }
        heard
    }

    /// Asks what the server lacks of a document.
    pub(super) fn compare(
        &mut self,
        ledger: &mut Ledger,
        shelf: &Shelf,
        name: &str,
    ) -> Vec<Vec<u8>> {
        let frame = frame::write(name, Message::State(&ledger.state(shelf, name)));
        self.send(name, None, &frame)
    }

    /// Sends a change, unless it is too large.
    fn send_change(
        &mut self,
        heard: &mut Heard,
        ledger: &mut Ledger,
        shelf: &Shelf,
        name: &str,
        frame: &[u8],
    ) {
        if frame.len() <= LARGEST {
            self.too_large.remove(name);
            let turn = ledger.turn(name);
            heard.answers.extend(self.send(name, Some(turn), frame));
        } else {
            let over = frame.len() - LARGEST;
            let fits = ledger.size(shelf, name).saturating_sub(over);
            if self.too_large.insert(name.to_owned(), fits).is_none() {
                heard.too_large = Some(name.to_owned());
            }
            // What was told of it meanwhile goes on from what the server lacks.
            heard.full |= ledger.doubt(shelf, name).is_err();
        }
    }

    /// What of a frame goes over the socket now, behind all that waits about
    /// the same document.
    fn send(&mut self, name: &str, turn: Option<u64>, frame: &[u8]) -> Vec<Vec<u8>> {
        let pieces = VecDeque::from(pieces::cut(frame));
        let name = name.to_owned();
        if pieces.len() == 1 && !self.waits(&name) {
            self.under_way.extend(turn.map(|turn| (name, turn)));
            return pieces.into();
        }
        self.waiting.push_back(Large { name, turn, pieces });
        self.go_on()
    }

    /// The next pieces, while not too many are on their way.
    fn go_on(&mut self) -> Vec<Vec<u8>> {
        let mut all = Vec::new();
        while self.pieces - self.come < AHEAD
            && let Some(first) = self.waiting.front_mut()
        {
            if let Some(piece) = first.pieces.pop_front() {
                self.pieces += u64::from(pieces::is_piece(&piece));
                all.push(piece);
            }
            if first.pieces.is_empty()
                && let Some(Large { name, turn, .. }) = self.waiting.pop_front()
            {
                self.under_way.extend(turn.map(|turn| (name, turn)));
            }
        }
        all
    }

    /// Takes in what the server says.
    pub(super) fn said(&mut self, ledger: &mut Ledger, shelf: &Shelf, text: &str) -> Heard {
        let mut heard = Heard::default();
        match serde_json::from_str(text) {
            Ok(Said::Saved(saved)) => {
                while self.saved < saved {
                    self.saved += 1;
                    let Some((name, turn)) = self.under_way.pop_front() else {
                        break;
                    };
                    if !self.too_large.contains_key(&name) {
                        heard.full |= ledger.sent(shelf, &name, turn).is_err();
                    }
                }
            }
            Ok(Said::Pieces(come)) => {
                self.come = come.min(self.pieces);
                heard.answers = self.go_on();
            }
            Ok(Said::Last(last)) => {
                if !self.caught_up {
                    self.caught_up = true;
                    heard.caught_up = !self.missed;
                    // Everything is compared once, whatever either side
                    // believes: one of them may have been restored.
                    heard.compare = Some(!(0..RESTORED).contains(&(last - self.since)));
                }
                if !self.missed {
                    heard.last = (last != self.since).then_some(last);
                    self.since = last;
                }
            }
            Ok(Said::Trouble(why)) => heard.trouble = Some(why),
            Ok(Said::Removed(by)) => heard.removed = Some(by),
            // A later server may say more.
            Err(_) => {}
        }
        heard
    }

    /// Takes in a message about a document.
    pub(super) fn hear(
        &mut self,
        ledger: &mut Ledger,
        shelf: &Shelf,
        bytes: &[u8],
        at: u64,
    ) -> Heard {
        let mut heard = Heard::default();
        let Some((name, message)) = frame::read(bytes) else {
            return heard;
        };
        match message {
            Message::State(state) => {
                if let Ok(Some(rest)) = ledger.since(shelf, name, state) {
                    let frame = frame::write(name, Message::Rest(&rest));
                    self.send_change(&mut heard, ledger, shelf, name, &frame);
                } else {
                    let turn = ledger.turn(name);
                    let busy = self.is_under_way(name);
                    if !busy {
                        heard.full = ledger.sent(shelf, name, turn).is_err();
                    }
                }
            }
            Message::Rest(update) | Message::Update(update) => {
                if let Some(fits) = self.too_large.get_mut(name) {
                    // All of it grows by what the server has.
                    *fits = usize::MAX;
                }
                match ledger.take(shelf, name, update, at) {
                    Ok(came) => {
                        let own = ledger.take_own();
                        heard = self.tell(ledger, shelf, own);
                        heard.came = came;
                        // What it goes on from was cleared away here. The rest
                        // is asked for once: the server may not have it.
                        if matches!(message, Message::Update(_)) && ledger.waits(shelf, name) {
                            heard.answers.extend(self.compare(ledger, shelf, name));
                        }
                    }
                    // It will come again no better.
                    Err(Failed::Malformed) => {}
                    Err(Failed::Refused) => {
                        self.missed = true;
                        heard.full = true;
                    }
                }
            }
        }
        heard
    }
}
