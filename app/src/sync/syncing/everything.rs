//! Everything this device keeps for others as one file, and such a file
//! merged with what is here. Both in turns, since it may be a lot.

use foldwright_document::Document;
use web_sys::js_sys::Array;

use super::super::ledger::{self, Came, Failed, names};
use super::Syncing;
use crate::store::now;
use crate::turns::Turn;

/// What became of merging a file of everything.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Merged {
    /// All of it is here.
    All {
        /// How many recipes that changed.
        recipes: usize,
    },
    /// It was ended before all of it was here; what had come stays.
    Ended {
        /// How many recipes that changed.
        recipes: usize,
        /// Whether there was no room for the rest.
        full: bool,
    },
}

/// A document of a file of everything, sound by itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Sound {
    name: String,
    update: Vec<u8>,
}

impl Sound {
    /// The document in a part of the file, where it can be read and merged.
    pub(crate) fn read(part: &str) -> Option<Self> {
        let (name, update) = ledger::document_in(part)?;
        Document::new(0).apply(&update).ok()?;
        Some(Self { name, update })
    }
}

impl Syncing {
    /// Notes everything, for what must not miss anything.
    async fn note_everything(self) {
        let names = self.store.with_shelf(names);
        self.note_these(names, || true).await;
    }

    /// Everything this device keeps for others: the texts that together are one
    /// file.
    pub(crate) async fn everything(self) -> Array {
        self.note_everything().await;
        let [before, between, after] = ledger::around_documents();
        let parts = Array::new();
        let mut turn = Turn::begin();
        let mut next = before.as_str();
        for name in self.store.with_shelf(names) {
            let document = self.with(|ledger, shelf| ledger.document_part(shelf, &name));
            parts.push(&next.into());
            parts.push(&document.into());
            next = &between;
            self.close();
            turn.or_next().await;
        }
        if parts.length() == 0 {
            parts.push(&next.into());
        }
        parts.push(&after.into());
        parts
    }

    /// Merges documents with what is here. `go_on` is told how many are done
    /// and says whether to go on.
    pub(crate) async fn take_everything(
        self,
        documents: Vec<Sound>,
        go_on: impl Fn(usize) -> bool,
    ) -> Merged {
        self.note_everything().await;
        let mut turn = Turn::begin();
        let mut recipes = 0;
        let mut ended = None;
        for (done, Sound { name, update }) in documents.into_iter().enumerate() {
            if !go_on(done) {
                ended = Some(false);
                break;
            }
            let taken = self.with(|ledger, shelf| ledger.take(shelf, &name, &update, now()));
            match taken {
                Ok(came) => {
                    let changed = came.iter().filter(|came| matches!(came, Came::Recipe(_)));
                    recipes += changed.count();
                    for came in came {
                        self.came(came);
                    }
                }
                Err(Failed::Refused) => {
                    ended = Some(true);
                    break;
                }
                // It was sound by itself, and does not go with what is here.
                Err(Failed::Malformed) => {}
            }
            self.close();
            turn.or_next().await;
        }
        // The server is asked for its state of everything, and gets the rest.
        self.hang_up();
        self.hurry();
        match ended {
            None => Merged::All { recipes },
            Some(full) => Merged::Ended { recipes, full },
        }
    }
}
