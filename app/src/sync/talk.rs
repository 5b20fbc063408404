//! What is said on a connection, apart from the connection itself.

use std::collections::VecDeque;

use foldwright_document::frame::{self, LARGEST, Message};
use serde::Deserialize;
use serde_json::json;

use super::ledger::{Came, Change, Failed, Ledger, names};
use crate::store::Shelf;

/// By how much the number of the last change never grows while a device is
/// away, unless the server was put back from a backup: that raises it by twice
/// as much.
const RESTORED: i64 = 1 << 31;

/// What the server says besides changes.
#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum Said {
    /// So many changes sent over this connection are kept.
    Saved(u64),
    /// Everything up to this change has come.
    Last(i64),
    /// Why the connection ends.
    Trouble(String),
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
    pub(super) trouble: Option<String>,
    /// Which device removed this one from the workshop.
    pub(super) removed: Option<String>,
    /// There was no room for a change.
    pub(super) full: bool,
    /// Everything others have done so far is here now.
    pub(super) caught_up: bool,
}

/// How far a connection has come.
#[derive(Default)]
pub(super) struct Talk {
    /// Changes sent and not yet known to be kept: of which document, and which
    /// of its changes.
    under_way: VecDeque<(String, u64)>,
    saved: u64,
    /// The last change that was here when the connection began.
    since: i64,
    caught_up: bool,
    /// A change was not taken in, so that what follows is not counted.
    missed: bool,
}

impl Talk {
    /// Begins: who this is, and the number of the last change that is here.
    pub(super) fn begin(key: &str, since: i64) -> (Self, String) {
        let talk = Self {
            since,
            ..Self::default()
        };
        (talk, json!({ "key": key, "since": since }).to_string())
    }

    /// Whether everything sent is kept, and everything there was has come.
    pub(super) fn is_done(&self) -> bool {
        self.caught_up && self.under_way.is_empty()
    }

    /// The frames that tell changes made here.
    pub(super) fn tell(&mut self, ledger: &Ledger, changes: Vec<Change>) -> Vec<Vec<u8>> {
        let mut frames = Vec::new();
        for (name, update) in changes {
            let frame = frame::write(&name, Message::Update(&update));
            if frame.len() <= LARGEST {
                let turn = ledger.turn(&name);
                self.under_way.push_back((name, turn));
                frames.push(frame);
            }
        }
        frames
    }

    /// The frames that ask what the server lacks of these documents.
    pub(super) fn compare(ledger: &mut Ledger, shelf: &Shelf, names: &[String]) -> Vec<Vec<u8>> {
        let frame = |name: &String| frame::write(name, Message::State(&ledger.state(shelf, name)));
        names.iter().map(frame).collect()
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
                    heard.full |= ledger.sent(shelf, &name, turn).is_err();
                }
            }
            Ok(Said::Last(last)) => {
                if !self.caught_up {
                    self.caught_up = true;
                    heard.caught_up = !self.missed;
                    // Everything is compared once, whatever either side
                    // believes: one of them may have been restored.
                    let names = names(shelf);
                    if !(0..RESTORED).contains(&(last - self.since)) {
                        heard.full |= ledger.doubt(shelf, &names).is_err();
                    }
                    heard.answers = Self::compare(ledger, shelf, &names);
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
                    if frame.len() <= LARGEST {
                        let turn = ledger.turn(name);
                        self.under_way.push_back((name.to_owned(), turn));
                        heard.answers.push(frame);
                    }
                } else {
                    let turn = ledger.turn(name);
                    let busy = self.under_way.iter().any(|(other, _)| other == name);
                    if !busy {
                        heard.full = ledger.sent(shelf, name, turn).is_err();
                    }
                }
            }
            Message::Rest(update) | Message::Update(update) => {
                match ledger.take(shelf, name, update, at) {
                    Ok(came) => {
                        heard.came = came;
                        let own = ledger.take_own();
                        heard.answers = self.tell(ledger, own);
                        // What it goes on from was cleared away here. The rest
                        // is asked for once: the server may not have it.
                        if matches!(message, Message::Update(_)) && ledger.waits(shelf, name) {
                            let names = [name.to_owned()];
                            heard.answers.extend(Self::compare(ledger, shelf, &names));
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
