//! Recipes as plain values, read and written by one copy of the code for it.
//!
//! What serde derives is copied for each format that it reads from or writes to,
//! which for a recipe is a tenth of a megabyte each time. Here all of them are read
//! from a value, with the way to what can't be read, and written through the same
//! narrow place; whoever reads or writes a recipe comes here. Only files of thousands are
//! read straight from their text (`file::read_part`), by code that comes with what takes
//! them in.

use std::io;

use serde::Deserialize;
use serde::de::DeserializeOwned;
use serde_json::{Error, Value};
use serde_path_to_error::{Deserializer, Path, Track};

use super::Recipe;

/// What is in a value, or else the way to what can't be read there, and why.
pub(super) fn read<'de, T: Deserialize<'de>>(value: &'de Value) -> Result<T, (Path, Error)> {
    let mut track = Track::new();
    let read = T::deserialize(Deserializer::new(value, &mut track));
    read.map_err(|why| (track.path(), why))
}

/// What is in a text in JSON; nothing else may stand in it.
pub(super) fn read_text<T: DeserializeOwned>(text: &str) -> Option<T> {
    read(&serde_json::from_str(text).ok()?).ok()
}

/// The recipe that is in a value, if that can be read. Whether it holds together is
/// not asked.
pub fn from_value(value: &Value) -> Option<Recipe> {
    read(value).ok()
}

/// A recipe as a value.
pub fn to_value(recipe: &Recipe) -> Value {
    // Fails for maps whose keys are no text; a recipe has none.
    serde_json::to_value(recipe as &dyn erased_serde::Serialize).unwrap_or_default()
}

/// Writes a recipe as dense JSON.
pub fn write_to(recipe: &Recipe, to: impl io::Write) -> io::Result<()> {
    let written = serde_json::to_writer(to, recipe as &dyn erased_serde::Serialize);
    written.map_err(io::Error::from)
}
