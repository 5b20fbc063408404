//! How documents are kept.
//!
//! Those that grow with their recipe are kept packed, under a first line that
//! says what is asked of all of them at once. Releases that packed them otherwise,
//! or not at all, keep and read them under other keys, so that neither writes over
//! the other's. The rest are short, and kept as all releases do.

use std::collections::BTreeSet;
use std::fmt;
use std::str::FromStr;

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use foldwright_document::Document;
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::Page;
use crate::store::{Shelf, Stamp, pack, unpack, versioned};
use crate::sync::letters;
use crate::sync::name;

/// What the keys of packed documents begin with.
const PACKED: &str = "foldwright/leaf/";
/// What they began with where documents were packed after the first dictionary.
const FORMER: &str = "foldwright/page/";
/// What the keys of the others begin with, and of all before documents were packed.
const PLAIN: &str = "foldwright/document/";

/// The key under which a document is kept.
pub(super) fn key(name: &str) -> String {
    let kind = if name::grows(name) { PACKED } else { PLAIN };
    format!("{kind}{name}")
}

/// The keys under which earlier releases keep a document that is packed now, the
/// last one's first.
fn former_keys(name: &str) -> impl Iterator<Item = String> {
    let former = name::grows(name).then_some([FORMER, PLAIN]);
    former
        .into_iter()
        .flatten()
        .map(move |kind| format!("{kind}{name}"))
}

/// All keys under which a document may be kept. What an earlier release has kept
/// counts only where there is nothing newer.
fn keys(name: &str) -> impl Iterator<Item = String> {
    std::iter::once(key(name)).chain(former_keys(name))
}

/// The document that is kept under a key.
pub(in crate::sync) fn document(key: &str) -> Option<&str> {
    [PACKED, FORMER, PLAIN]
        .iter()
        .find_map(|kind| key.strip_prefix(kind))
}

/// The text of a document.
pub(super) fn read(shelf: &Shelf, name: &str) -> Option<String> {
    keys(name).find_map(|key| shelf.port().read(&key))
}

/// Whether a document is kept.
pub(super) fn has(shelf: &Shelf, name: &str) -> bool {
    keys(name).any(|key| shelf.port().has(&key))
}

/// Takes a document away.
pub(super) fn remove(shelf: &Shelf, name: &str) {
    shelf.port().remove(&key(name));
    remove_former(shelf, name);
}

/// Takes away what earlier releases have kept of a document.
pub(super) fn remove_former(shelf: &Shelf, name: &str) {
    for key in former_keys(name) {
        shelf.port().remove(&key);
    }
}

/// What is asked of many documents without opening them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Head {
    /// Which state of the recipe it has noted last.
    pub(super) noted: Option<Stamp>,
    /// Whether the app and the document have ever agreed.
    pub(super) agreed: bool,
    /// Whether the app keeps it no longer.
    pub(super) gone: bool,
    /// Whether the server may lack something of it.
    pub(super) unsent: bool,
}

impl Head {
    /// What the first line of a packed document says; `None` where there is
    /// none.
    pub(super) fn of(shelf: &Shelf, name: &str) -> Option<Self> {
        let line = keys(name).find_map(|key| shelf.port().head(&key))?;
        line.parse().ok()
    }
}

impl fmt::Display for Head {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            noted,
            agreed,
            gone,
            unsent,
        } = self;
        let flag = |flag: &bool, letter| if *flag { letter } else { "-" };
        let (agreed, gone, unsent) = (flag(agreed, "a"), flag(gone, "g"), flag(unsent, "u"));
        write!(f, "{agreed}{gone}{unsent}")?;
        noted.map_or(Ok(()), |noted| write!(f, " {noted}"))
    }
}

impl FromStr for Head {
    type Err = ();

    fn from_str(line: &str) -> Result<Self, ()> {
        let (flags, noted) = match line.split_once(' ') {
            Some((flags, noted)) => (flags, Some(noted.parse()?)),
            None => (line, None),
        };
        let flag = |flag, letter| match flag {
            b'-' => Ok(false),
            other if other == letter => Ok(true),
            _ => Err(()),
        };
        let [agreed, gone, unsent] = <[u8; 3]>::try_from(flags.as_bytes()).map_err(drop)?;
        Ok(Self {
            noted,
            agreed: flag(agreed, b'a')?,
            gone: flag(gone, b'g')?,
            unsent: flag(unsent, b'u')?,
        })
    }
}

/// A document, and what is to be known of it.
pub(super) struct Kept {
    pub(super) bytes: Vec<u8>,
    pub(super) agreed: Option<Value>,
    pub(super) head: Head,
    pub(super) told: BTreeSet<String>,
}

/// What stands under the first line of a packed document.
#[derive(Serialize, Deserialize)]
struct Packed {
    letters: String,
    /// What was agreed on, unless it is what the document says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    agreed: Option<Value>,
    #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
    told: BTreeSet<String>,
    #[serde(default, skip_serializing_if = "is_false")]
    as_it_says: bool,
}

/// A document that is not packed.
#[derive(Serialize, Deserialize)]
struct Plain {
    bytes: String,
    agreed: Option<Value>,
    #[serde(default)]
    gone: bool,
    #[serde(default)]
    unsent: bool,
    #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
    told: BTreeSet<String>,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde passes fields by reference"
)]
fn is_false(value: &bool) -> bool {
    !value
}

impl Kept {
    /// The document in a kept text; `None` where it can't be understood.
    pub(super) fn parse(text: &str) -> Option<Self> {
        match text.split_once('\n') {
            Some((head, packed)) => Self::packed(head.parse().ok()?, packed),
            None => Self::plain(text),
        }
    }

    fn packed(head: Head, text: &str) -> Option<Self> {
        let body = versioned::body(&unpack(text)?)?;
        let packed = Packed::deserialize(body).ok()?;
        let bytes = letters::read(&packed.letters)?;
        let agreed = if packed.as_it_says {
            Document::open(0, &bytes).ok()?.read().0
        } else {
            packed.agreed
        };
        Some(Self {
            bytes,
            agreed,
            head,
            told: packed.told,
        })
    }

    fn plain(text: &str) -> Option<Self> {
        let plain = Plain::deserialize(versioned::body(text)?).ok()?;
        Some(Self {
            bytes: BASE64_STANDARD.decode(&plain.bytes).ok()?,
            head: Head {
                noted: None,
                agreed: plain.agreed.is_some(),
                gone: plain.gone,
                unsent: plain.unsent,
            },
            agreed: plain.agreed,
            told: plain.told,
        })
    }
}

impl Page {
    /// What is to be known of it without opening it.
    pub(super) fn head(&self) -> Head {
        Head {
            noted: self.noted,
            agreed: self.agreed.is_some(),
            gone: self.gone,
            unsent: self.unsent,
        }
    }

    /// The text to keep for a document of that name.
    pub(super) fn kept(&self, name: &str) -> String {
        let bytes = self.document.bytes();
        if !name::grows(name) {
            return versioned::text(&Plain {
                bytes: BASE64_STANDARD.encode(bytes),
                agreed: self.agreed.clone(),
                gone: self.gone,
                unsent: self.unsent,
                told: self.told.clone(),
            });
        }
        let as_it_says = self.agreed.is_some() && self.agreed == self.document.read().0;
        let agreed = self.agreed.clone().filter(|_| !as_it_says);
        let packed = Packed {
            letters: letters::write(&bytes),
            agreed,
            told: self.told.clone(),
            as_it_says,
        };
        format!("{}\n{}", self.head(), pack(&versioned::text(&packed)))
    }
}
