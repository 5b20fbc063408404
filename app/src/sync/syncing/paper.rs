//! The paper that the workshop has.

use std::collections::BTreeMap;

use foldwright_engine::paper::Pack;
use leptos::prelude::*;

use super::Syncing;
use crate::sync::ledger::Ledger;

impl Syncing {
    /// How many sheets there are of each paper. Tracks.
    pub(crate) fn paper(self) -> BTreeMap<String, i64> {
        self.changes.track();
        self.with(Ledger::paper)
    }

    /// Adds so many sheets of a paper; takes some away with less than nothing.
    pub(crate) fn add_paper(self, paper: &str, by: i64) {
        let changes = self.with(|ledger, shelf| ledger.add_paper(shelf, paper, by));
        self.tell(changes);
    }

    /// How the papers are bought that have a price. Tracks.
    pub(crate) fn packs(self) -> BTreeMap<String, Pack> {
        self.changes.track();
        self.with(Ledger::packs)
    }

    /// Keeps how a paper is bought; `None` forgets it.
    pub(crate) fn set_pack(self, paper: &str, pack: Option<Pack>) {
        let changes = self.with(|ledger, shelf| ledger.set_pack(shelf, paper, pack));
        self.tell(changes);
    }
}
