//! Deleted things that are gone for good. Their documents are emptied, and a
//! document says of which things that was done.

use std::collections::BTreeSet;

use yrs::{Map as _, ReadTxn as _, Transact as _};

use crate::count::COUNTS;
use crate::document::{Document, OBJECT};
use crate::lost::LOST;
use crate::past::PAST;
use crate::path;
use crate::said::{MADE, SAID};
use crate::text;

const ERASED: &str = "erased";

impl Document {
    /// Takes away all there is of a thing, and what it was before. What was
    /// seen of it stays as it was, so that a deletion that had seen all of it
    /// still has; what others have written meanwhile is not touched. Returns
    /// the change to send; `None` where there was nothing to take away.
    pub fn erase(&mut self) -> Option<Vec<u8>> {
        let maps =
            [OBJECT, PAST, SAID, MADE, COUNTS, LOST].map(|name| self.doc.get_or_insert_map(name));
        let texts: Vec<_> = self.texts();
        let texts: Vec<_> = texts.iter().map(|(path, _)| self.text(path)).collect();
        self.encoded(|transaction| {
            for map in &maps {
                map.clear(transaction);
            }
            for text in &texts {
                text::clear(text, transaction);
            }
        })
    }

    /// Whether nothing is there of a thing or of what it was before, nor on
    /// its way. That something was taken away which is not here is nothing: an
    /// answer says so of all that was ever taken away, and may come when this
    /// copy begins anew.
    pub fn is_empty(&self) -> bool {
        let maps = [OBJECT, PAST, LOST].map(|name| self.doc.get_or_insert_map(name));
        if self.texts().iter().any(|(_, text)| !text.is_empty()) {
            return false;
        }
        let transaction = self.doc.transact();
        let empty = maps.iter().all(|map| map.len(&transaction) == 0);
        empty && transaction.store().pending_update().is_none() && self.early_is_nothing()
    }

    /// Notes that the thing of that name was erased. Returns the change to
    /// send; `None` where that was known.
    pub fn note_erased(&mut self, name: &str) -> Option<Vec<u8>> {
        let erased = self.doc.get_or_insert_map(ERASED);
        let key = path::field("", name);
        self.encoded(|transaction| {
            if erased.get(&*transaction, &key).is_none() {
                erased.insert(transaction, key, true);
            }
        })
    }

    /// The names of all that was ever erased. Some of it may have come back
    /// since, from a device that had not heard of it.
    pub fn erased(&self) -> BTreeSet<String> {
        let erased = self.doc.get_or_insert_map(ERASED);
        let transaction = self.doc.transact();
        let names = erased.keys(&transaction).filter_map(path::single);
        names.collect()
    }
}
