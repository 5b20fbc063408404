//! Deleted things. A document says of others that they are deleted, and what
//! of them was seen then; a change nobody had seen brings a thing back.

use std::collections::BTreeMap;

use yrs::updates::decoder::Decode as _;
use yrs::updates::encoder::Encode as _;
use yrs::{Any, Map as _, Out, StateVector, Transact as _};

use crate::document::{Document, Malformed, whole};
use crate::{path, sane};

const GRAVES: &str = "deleted";

/// How much of a document somebody has seen.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Seen(StateVector);

impl Seen {
    /// What the bytes of [`Document::state`] tell.
    pub fn of(state: &[u8]) -> Result<Self, Malformed> {
        sane::state(state)?;
        StateVector::decode_v1(state)
            .map(Self)
            .map_err(|_| Malformed)
    }

    /// Whether everything `other` has seen was seen here.
    pub fn covers(&self, other: &Self) -> bool {
        other
            .0
            .iter()
            .all(|(client, clock)| self.0.get(client) >= *clock)
    }
}

/// A deletion.
#[derive(Debug, Clone, PartialEq)]
pub struct Grave {
    /// When it was last deleted, in milliseconds since 1970 by the clock of
    /// the device that did it.
    pub at: u64,
    /// What had been seen of it then.
    pub seen: Seen,
}

impl Document {
    /// Deletes the thing of that name, of which the bytes of
    /// [`Document::state`] say what was seen. Returns the change to send.
    pub fn bury(
        &mut self,
        name: &str,
        at: u64,
        state: &[u8],
    ) -> Result<Option<Vec<u8>>, Malformed> {
        let seen = Seen::of(state)?;
        let key = path::item(&path::field("", name), &self.draw.unique());
        let at = Any::from(i64::try_from(at).unwrap_or(i64::MAX));
        let entry = vec![at, Any::from(seen.0.encode_v1())];
        let graves = self.doc.get_or_insert_map(GRAVES);
        Ok(self.encoded(|transaction| {
            graves.insert(transaction, key, Any::from(entry));
        }))
    }

    /// Brings the thing of that name back. Returns the change to send.
    pub fn unbury(&mut self, name: &str) -> Option<Vec<u8>> {
        let list = path::field("", name);
        let graves = self.doc.get_or_insert_map(GRAVES);
        let keys: Vec<String> = graves
            .keys(&self.doc.transact())
            .filter(|key| key.split_once('/').is_some_and(|(of, _)| of == list))
            .map(str::to_owned)
            .collect();
        self.encoded(|transaction| {
            for key in &keys {
                graves.remove(transaction, key);
            }
        })
    }

    /// Everything deleted, by name. A thing is gone while its [`Grave::seen`]
    /// covers what there is of it.
    pub fn graves(&self) -> BTreeMap<String, Grave> {
        let map = self.doc.get_or_insert_map(GRAVES);
        let transaction = self.doc.transact();
        let mut graves: BTreeMap<String, Grave> = BTreeMap::new();
        for (key, out) in map.iter(&transaction) {
            let (Some(steps), Out::Any(Any::Array(parts))) = (path::steps(key), out) else {
                continue;
            };
            let [path::Step::Item(name, _)] = &steps[..] else {
                continue;
            };
            let [Any::Number(at), Any::Buffer(seen), ..] = &parts[..] else {
                continue;
            };
            let at = whole(*at).and_then(|at| u64::try_from(at).ok());
            let (Some(at), Ok(seen)) = (at, Seen::of(seen)) else {
                continue;
            };
            graves
                .entry(name.clone())
                .and_modify(|grave| {
                    grave.at = grave.at.max(at);
                    grave.seen.0.merge(seen.0.clone());
                })
                .or_insert(Grave { at, seen });
        }
        graves
    }
}
