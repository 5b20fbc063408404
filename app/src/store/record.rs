//! How a recipe is kept: a stamp on the first line, then the text of a file
//! with this one recipe, packed. What is kept can so be read by everything that
//! reads recipe files, old versions included.

use std::fmt;
use std::str::FromStr;

use foldwright_engine::recipe::{self, FileError, Recipe};

use super::packing::{pack_as_file, unpack};

/// Tells one saved state of a recipe from all others.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Stamp {
    /// How often the recipe has been saved.
    pub revision: u64,
    /// The tab that saved it; two tabs may reach the same revision.
    pub tab: u32,
    /// When, in milliseconds since 1970. Only for sorting lists: clocks differ
    /// and decide nothing.
    pub at: u64,
}

impl fmt::Display for Stamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {} {}", self.revision, self.tab, self.at)
    }
}

impl FromStr for Stamp {
    type Err = ();

    fn from_str(text: &str) -> Result<Self, ()> {
        let mut words = text.split(' ');
        let mut word = || words.next().ok_or(());
        let stamp = Self {
            revision: word()?.parse().map_err(drop)?,
            tab: word()?.parse().map_err(drop)?,
            at: word()?.parse().map_err(drop)?,
        };
        words.next().map_or(Ok(stamp), |_| Err(()))
    }
}

impl Stamp {
    /// The text to keep of a recipe in this state.
    pub fn text_of(self, recipe: &Recipe) -> String {
        self.before(&packed(recipe))
    }

    /// The same of one that is packed.
    pub(super) fn before(self, packed: &str) -> String {
        format!("{self}\n{packed}")
    }
}

/// A recipe as it is kept, without its stamp.
pub(crate) fn packed(recipe: &Recipe) -> String {
    pack_as_file(&recipe::write_dense(std::slice::from_ref(recipe)))
}

/// A recipe as it was saved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Record {
    /// Which state this is.
    pub stamp: Stamp,
    /// The recipe.
    pub recipe: Recipe,
}

/// Why a kept text is no recipe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unreadable {
    /// The stamp or the number of recipes is wrong.
    NotARecord,
    /// The recipe itself can't be read.
    File(FileError),
}

impl Unreadable {
    /// Whether a later Foldwright wrote it, so that it is not broken at all.
    pub fn is_newer(&self) -> bool {
        matches!(self, Self::File(FileError::Newer { .. }))
    }
}

impl Record {
    /// The recipe in a kept text.
    pub fn parse(text: &str) -> Result<Self, Unreadable> {
        let (stamp, file) = split(text).ok_or(Unreadable::NotARecord)?;
        let file = unpack(file).ok_or(Unreadable::NotARecord)?;
        let recipes = recipe::read_kept(&file).map_err(Unreadable::File)?;
        match <[Recipe; 1]>::try_from(recipes) {
            Ok([recipe]) => Ok(Self { stamp, recipe }),
            Err(_) => Err(Unreadable::NotARecord),
        }
    }
}

/// The stamp of a kept text, or in its first line, without reading the recipe.
pub(crate) fn stamp_of(text: &str) -> Option<Stamp> {
    let stamp = text.split('\n').next()?;
    stamp.parse().ok()
}

/// A kept text as people and other programs read it: unpacked, where it can be.
pub(crate) fn readable(text: &str) -> String {
    let unpacked = split(text).and_then(|(stamp, file)| {
        let file = unpack(file)?;
        Some(format!("{stamp}\n{file}"))
    });
    unpacked.unwrap_or_else(|| text.to_owned())
}

/// Whether the file in a kept text says something, without reading the recipe; `None`
/// for what is no such text.
pub(crate) fn mentions(text: &str, what: &str) -> Option<bool> {
    let (_, file) = split(text)?;
    Some(unpack(file)?.contains(what))
}

/// The text of a file that is in a readable text, or that the text is.
pub fn file_in(text: &str) -> &str {
    let file = split(text).map_or(text, |(_, file)| file);
    file.trim_start_matches('\u{FEFF}')
}

fn split(text: &str) -> Option<(Stamp, &str)> {
    let (stamp, file) = text.split_once('\n')?;
    Some((stamp.parse().ok()?, file))
}
