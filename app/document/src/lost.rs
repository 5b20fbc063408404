//! What somebody decided and is not so, since somebody else decided otherwise
//! without knowing of it. It is kept beside the states of former times.

use serde_json::Value;
use yrs::{Map as _, Transact as _};

use crate::address;
use crate::document::Document;
use crate::said::{Said, entry, read};

pub(crate) const LOST: &str = "lost";

/// How many are kept; the oldest goes first. Our own bound.
const MOST: usize = 400;

impl Document {
    /// What was decided and is not so in what the document stands for, the
    /// last first.
    pub fn losing(&self, object: &Value) -> Vec<Said> {
        let mut said = self.said();
        said.retain(|said| !address::is_so(object, said));
        said
    }

    /// Keeps what gave way. Whoever does this does the very same. Returns the
    /// change to send; `None` where all is kept.
    pub fn lose(&mut self, lost: &[Said]) -> Option<Vec<u8>> {
        let known = self.lost();
        let new: Vec<&Said> = lost
            .iter()
            .filter(|lost| known.iter().all(|known| known.key != lost.key))
            .collect();
        let surplus = known.iter().skip(MOST.saturating_sub(new.len()));
        let surplus: Vec<String> = surplus.map(|lost| lost.key.clone()).collect();
        let map = self.doc.get_or_insert_map(LOST);
        self.encoded(|transaction| {
            for lost in &new {
                map.insert(transaction, lost.key.as_str(), entry(lost));
            }
            for key in &surplus {
                map.remove(transaction, key);
            }
        })
    }

    /// What gave way, the last first.
    pub fn lost(&self) -> Vec<Said> {
        let map = self.doc.get_or_insert_map(LOST);
        read(&map, &self.doc.transact())
    }
}
