//! Everything this device keeps for others as a file: its parts, and how they
//! are read again.

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use serde_json::Value;

use super::{Change, Ledger};
use crate::import::split::Kind;
use crate::store::Shelf;

/// Files of documents. A document may have whatever a browser can have kept of
/// it, since nothing that was saved is to be refused; our own bound.
pub(crate) const EVERYTHING: Kind = Kind {
    mark: "foldwright_backup",
    list: "documents",
    most: 16_000_000,
};

/// A document in a part of such a file, which is its name and its bytes.
pub(in crate::sync) fn document_in(part: &str) -> Option<Change> {
    let one: Value = serde_json::from_str(&format!("{{{part}}}")).ok()?;
    let (name, bytes) = one.as_object()?.iter().next()?;
    let bytes = BASE64_STANDARD.decode(bytes.as_str()?).ok()?;
    Some((name.clone(), bytes))
}

/// What stands in such a file before its documents, between two, and after the
/// last. With the texts that [`Ledger::document_part`] gives, it is the file.
pub(in crate::sync) fn around_documents() -> [String; 3] {
    let Kind { mark, list, .. } = EVERYTHING;
    [
        format!("{{\"{mark}\":1,\"{list}\":{{"),
        String::from(","),
        String::from("}}"),
    ]
}

impl Ledger {
    /// A document as it stands in a file of everything.
    pub(in crate::sync) fn document_part(&mut self, shelf: &Shelf, name: &str) -> String {
        let bytes = BASE64_STANDARD.encode(self.open(shelf, name).document.bytes());
        format!("{}:\"{bytes}\"", Value::from(name))
    }
}
