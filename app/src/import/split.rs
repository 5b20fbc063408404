//! Cuts the text of a file into the parts it lists, as it comes slice by
//! slice, so that no step of the way is longer than a slice or a part.
//!
//! The files meant are objects in which one field tells what the file is and
//! in which version, and another is the list. They may stand in any order, be
//! laid out in any way and have other fields beside them, which are passed
//! over; the first line may be the stamp of a kept text. Whether a part makes
//! sense is not asked here.

use foldwright_engine::recipe::FileError;
use serde::{Deserialize, Serialize};
use serde_json::Value;

use crate::spoken::texts;
use crate::store::file_in;

/// Names, versions and what stands before the file's object are no longer than
/// this, in bytes. Our own bound: several times the longest we write.
const LONGEST: usize = 256;

/// How deep a file may be nested, which is as deep as its parts can be read.
const DEEPEST: usize = 127;

/// The bytes that may change where a part ends, and those that end a line.
const MEANS: [bool; 256] = {
    let mut means = [false; 256];
    let mut these: &[u8] = b"\"\\{}[],\n";
    while let [byte, rest @ ..] = these {
        means[*byte as usize] = true;
        these = rest;
    }
    means
};

/// A kind of files.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Kind {
    /// The field that tells it from others, and holds the version.
    pub(crate) mark: &'static str,
    /// The field that is the list.
    pub(crate) list: &'static str,
    /// How large a part of the list may be, in bytes: it is read in one go.
    pub(crate) most: usize,
}

/// What a file of ours says it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Head {
    /// Which of the kinds that were looked for.
    pub(crate) kind: Kind,
    /// Its version.
    pub(crate) version: u64,
}

/// One part of the list, as it is written in the file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Part {
    /// JSON if the file is: a value, with its name before it where the list is
    /// an object.
    pub(crate) text: String,
    /// The line it begins in, counted from 1.
    pub(crate) line: usize,
}

/// A file in parts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Parted {
    pub(crate) head: Head,
    pub(crate) parts: Vec<Part>,
}

/// Why a file is not cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum Uncut {
    /// It is none of the files meant.
    NotOurs,
    /// It stops making sense in this line, counted from 1, or ends there too
    /// soon.
    Broken {
        /// The line.
        line: usize,
    },
    /// A part is larger than any that is kept.
    TooLarge {
        /// Which, counted from 1.
        part: usize,
        /// The most, in bytes.
        most: usize,
    },
}

impl Uncut {
    /// What is said of it.
    pub(crate) fn words(self, not_json: impl FnOnce(&FileError) -> String) -> String {
        match self {
            Self::NotOurs => not_json(&FileError::NotOurs),
            Self::Broken { line } => not_json(&FileError::NotJson { line }),
            Self::TooLarge { part, most } => texts().import.part_too_large(part, most / 1_000_000),
        }
    }
}

/// Where in the file the cutting is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum At {
    /// Before the file's object.
    Before,
    /// Where a field must begin, or the object may end.
    FirstField,
    Field,
    /// In the name of a field.
    Name,
    /// Between a name and its value.
    Colon,
    /// Before a value.
    Value,
    /// In a value that is no list of ours.
    Other,
    /// After a list.
    AfterList,
    /// Where a part of a list may begin, or the list end.
    FirstPart,
    /// Where a part must begin, after a comma.
    NextPart,
    /// In a part.
    Part,
    /// After the file's object.
    After,
}

/// Cuts a file whose slices are fed to it in order.
#[derive(Debug)]
pub(crate) struct Splitter {
    kinds: &'static [Kind],
    at: At,
    /// The brackets that are open within the value or the part at hand.
    open: Vec<u8>,
    in_string: bool,
    escaped: bool,
    line: usize,
    /// What stands before the object, a name or a short value, as far as it is
    /// not too long.
    short: Vec<u8>,
    /// The field at hand; none where its name is too long to be one of ours.
    field: Option<String>,
    /// Which kind the list at hand is of, and what ends it.
    list: usize,
    closes: u8,
    /// The part at hand, and the line it begins in.
    part: Vec<u8>,
    begins: usize,
    /// The versions and the lists, by kind.
    versions: Vec<Option<u64>>,
    lists: Vec<Option<Vec<Part>>>,
}

impl Splitter {
    /// For a file of one of these kinds; of one that is several, it is the
    /// first.
    pub(crate) fn new(kinds: &'static [Kind]) -> Self {
        Self {
            kinds,
            at: At::Before,
            open: Vec::new(),
            in_string: false,
            escaped: false,
            line: 1,
            short: Vec::new(),
            field: None,
            list: 0,
            closes: b']',
            part: Vec::new(),
            begins: 1,
            versions: vec![None; kinds.len()],
            lists: vec![None; kinds.len()],
        }
    }

    /// Takes the next slice. After an error no more is taken.
    pub(crate) fn feed(&mut self, slice: &[u8]) -> Result<(), Uncut> {
        let mut rest = slice;
        while let Some((byte, after)) = rest.split_first() {
            let plain = self.plain(rest);
            if plain.is_empty() {
                self.take(*byte)?;
                self.line += usize::from(*byte == b'\n');
                rest = after;
            } else {
                self.part.extend_from_slice(plain);
                self.part_fits()?;
                rest = rest.get(plain.len()..).unwrap_or_default();
            }
        }
        Ok(())
    }

    /// What comes next of a part and changes nothing about where it ends: most
    /// of what a file is.
    fn plain<'a>(&self, rest: &'a [u8]) -> &'a [u8] {
        if self.at != At::Part || self.escaped {
            return &[];
        }
        let means = |byte: &u8| MEANS.get(usize::from(*byte)).copied().unwrap_or(false);
        let end = rest.iter().position(means).unwrap_or(rest.len());
        rest.get(..end).unwrap_or_default()
    }

    /// The whole file in parts, once all of it was fed.
    pub(crate) fn end(self) -> Result<Parted, Uncut> {
        let is_blank = self.short.trim_ascii().is_empty();
        if self.at == At::Before && !is_blank {
            return Err(Uncut::NotOurs);
        }
        if self.at != At::After {
            return Err(Uncut::Broken { line: self.line });
        }
        let kinds = self.kinds.iter().zip(self.versions).zip(self.lists);
        let mut known = kinds.filter_map(|((kind, version), parts)| {
            let head = Head {
                kind: *kind,
                version: version?,
            };
            Some((head, parts))
        });
        let (head, parts) = known.next().ok_or(Uncut::NotOurs)?;
        let parts = parts.ok_or(Uncut::NotOurs)?;
        Ok(Parted { head, parts })
    }

    fn take(&mut self, byte: u8) -> Result<(), Uncut> {
        let blank = matches!(byte, b' ' | b'\n' | b'\r' | b'\t');
        match self.at {
            At::Before => self.take_before(byte)?,
            At::Name => self.take_name(byte)?,
            At::Other => self.take_other(byte)?,
            At::Part => self.take_part(byte)?,
            _ if blank => {}
            At::FirstField | At::Field if byte == b'"' => {
                self.at = At::Name;
                self.in_string = true;
                self.short.push(byte);
            }
            At::Colon if byte == b':' => self.at = At::Value,
            At::Value => self.begin_value(byte)?,
            At::AfterList if byte == b',' => self.at = At::Field,
            At::FirstField | At::AfterList if byte == b'}' => self.at = At::After,
            At::FirstPart if byte == self.closes => self.at = At::AfterList,
            At::FirstPart | At::NextPart => {
                self.at = At::Part;
                self.begins = self.line;
                self.take_part(byte)?;
            }
            _ => return Err(self.broken()),
        }
        Ok(())
    }

    fn broken(&self) -> Uncut {
        Uncut::Broken { line: self.line }
    }

    fn take_before(&mut self, byte: u8) -> Result<(), Uncut> {
        self.short.push(byte);
        if byte == b'{' {
            let before = std::mem::take(&mut self.short);
            let before = String::from_utf8_lossy(&before);
            if file_in(&before).trim_ascii() != "{" {
                return Err(Uncut::NotOurs);
            }
            self.at = At::FirstField;
        } else if self.short.len() > LONGEST {
            if !self.short.trim_ascii().is_empty() {
                return Err(Uncut::NotOurs);
            }
            self.short.clear();
        }
        Ok(())
    }

    fn take_name(&mut self, byte: u8) -> Result<(), Uncut> {
        self.keep_short(byte);
        self.follow_string(byte);
        if !self.in_string {
            let name = std::mem::take(&mut self.short);
            self.field = if name.len() > LONGEST {
                None
            } else {
                Some(serde_json::from_slice(&name).map_err(|_| self.broken())?)
            };
            self.at = At::Colon;
        }
        Ok(())
    }

    fn begin_value(&mut self, byte: u8) -> Result<(), Uncut> {
        let field = self.field.as_deref();
        let mut kinds = self.kinds.iter();
        let list = kinds.position(|kind| field == Some(kind.list));
        if let (Some(list), b'[' | b'{') = (list, byte) {
            self.list = list;
            self.closes = if byte == b'{' { b'}' } else { b']' };
            // Of two of a name the last counts, as for all who read JSON.
            self.begin_list(Some(Vec::new()));
            self.at = At::FirstPart;
            return Ok(());
        }
        if let Some(list) = list {
            self.list = list;
            self.begin_list(None);
        }
        self.at = At::Other;
        self.take_other(byte)
    }

    fn begin_list(&mut self, parts: Option<Vec<Part>>) {
        if let Some(list) = self.lists.get_mut(self.list) {
            *list = parts;
        }
    }

    fn take_other(&mut self, byte: u8) -> Result<(), Uncut> {
        let outside = !self.in_string && self.open.is_empty();
        if outside && matches!(byte, b',' | b'}') {
            self.end_other()?;
            self.at = if byte == b',' { At::Field } else { At::After };
            return Ok(());
        }
        self.keep_short(byte);
        self.follow(byte)
    }

    /// A value that is no list of ours is over: it may be a version.
    fn end_other(&mut self) -> Result<(), Uncut> {
        let value = std::mem::take(&mut self.short);
        let value: Value = if value.len() > LONGEST {
            Value::Null
        } else {
            serde_json::from_slice(&value).map_err(|_| self.broken())?
        };
        let field = self.field.as_deref();
        let kinds = self.kinds.iter().zip(&mut self.versions);
        for (kind, version) in kinds {
            if field == Some(kind.mark) {
                *version = value.as_u64();
            }
        }
        Ok(())
    }

    fn take_part(&mut self, byte: u8) -> Result<(), Uncut> {
        if !self.in_string && self.open.is_empty() {
            let ends = byte == self.closes;
            if ends || byte == b',' {
                self.cut()?;
                self.at = if ends { At::AfterList } else { At::NextPart };
                return Ok(());
            }
        }
        self.follow(byte)?;
        self.part.push(byte);
        self.part_fits()
    }

    fn part_fits(&self) -> Result<(), Uncut> {
        let most = self.kinds.get(self.list).map_or(0, |kind| kind.most);
        if self.part.len() > most {
            let before = self.lists.get(self.list).and_then(Option::as_ref);
            let part = before.map_or(0, Vec::len) + 1;
            return Err(Uncut::TooLarge { part, most });
        }
        Ok(())
    }

    /// Keeps what is not too long, and a byte more to tell that it is.
    fn keep_short(&mut self, byte: u8) {
        if self.short.len() <= LONGEST {
            self.short.push(byte);
        }
    }

    /// Follows the brackets of a value, which close in the order they opened in.
    fn follow(&mut self, byte: u8) -> Result<(), Uncut> {
        let outside = !self.in_string;
        self.follow_string(byte);
        if outside {
            match byte {
                b'{' => self.open.push(b'}'),
                b'[' => self.open.push(b']'),
                b'}' | b']' if self.open.pop() != Some(byte) => return Err(self.broken()),
                _ => {}
            }
        }
        if self.open.len() > DEEPEST {
            return Err(self.broken());
        }
        Ok(())
    }

    fn follow_string(&mut self, byte: u8) {
        if self.escaped {
            self.escaped = false;
        } else if self.in_string && byte == b'\\' {
            self.escaped = true;
        } else if byte == b'"' {
            self.in_string = !self.in_string;
        }
    }

    fn cut(&mut self) -> Result<(), Uncut> {
        // The way that takes anything is much slower.
        let text = str::from_utf8(&self.part).map_or_else(
            |_| String::from_utf8_lossy(&self.part),
            std::borrow::Cow::Borrowed,
        );
        let text = text.trim_ascii_end();
        if text.is_empty() {
            return Err(self.broken());
        }
        let part = Part {
            text: text.to_owned(),
            line: self.begins,
        };
        if let Some(Some(parts)) = self.lists.get_mut(self.list) {
            parts.push(part);
        }
        self.part.clear();
        Ok(())
    }
}
