//! Paper on hand, and what it costs.

use std::collections::BTreeMap;

use foldwright_engine::paper::Pack;
use serde::Deserialize as _;
use serde_json::{Map, Value};

use super::{Change, Ledger};
use crate::store::{Refused, Shelf};
use crate::sync::name::SHELF;

impl Ledger {
    /// How many sheets there are of each paper.
    pub(in crate::sync) fn paper(&mut self, shelf: &Shelf) -> BTreeMap<String, i64> {
        self.open(shelf, SHELF).document.counts()
    }

    /// Adds so many sheets of a paper; takes some away with less than nothing.
    pub(in crate::sync) fn add_paper(
        &mut self,
        shelf: &Shelf,
        paper: &str,
        by: i64,
    ) -> Result<Vec<Change>, Refused> {
        self.change(shelf, SHELF, |document| document.add(paper, by))
    }

    /// How the papers are bought that have a price.
    pub(in crate::sync) fn packs(&mut self, shelf: &Shelf) -> BTreeMap<String, Pack> {
        let (object, _) = self.open(shelf, SHELF).document.read();
        let packs = object.and_then(|object| object.as_object().cloned());
        let packs = packs.into_iter().flatten();
        let packs = packs.filter_map(|(paper, pack)| Some((paper, Pack::deserialize(pack).ok()?)));
        packs.collect()
    }

    /// Keeps how a paper is bought; `None` forgets it.
    pub(in crate::sync) fn set_pack(
        &mut self,
        shelf: &Shelf,
        paper: &str,
        pack: Option<Pack>,
    ) -> Result<Vec<Change>, Refused> {
        self.change(shelf, SHELF, |document| {
            let old = document
                .read()
                .0
                .unwrap_or_else(|| Value::Object(Map::new()));
            let mut new = old.clone();
            let fields = new.as_object_mut()?;
            match pack {
                Some(pack) => fields.insert(paper.to_owned(), serde_json::to_value(pack).ok()?),
                None => fields.remove(paper),
            };
            document.write(&old, &new)
        })
    }
}
