//! Recipes as plain values, read and written by one copy of the code for it.
//!
//! What serde derives is copied for each format that it reads from or writes to,
//! which for a recipe is a tenth of a megabyte each time. Here all of them pass
//! through the same narrow place; whoever reads or writes a recipe comes here.

use std::io;

use erased_serde::{Deserializer as Erased, Error};
use serde::{Deserialize, Deserializer};
use serde_json::Value;

use super::Recipe;

/// What is in a format, whatever that is.
pub(super) fn read<'de, T: Deserialize<'de>>(from: impl Deserializer<'de>) -> Result<T, Error> {
    let mut from = <dyn Erased<'_>>::erase(from);
    let from: &mut dyn Erased<'de> = &mut from;
    T::deserialize(from)
}

/// What is in a text in JSON; nothing else may stand in it.
pub(super) fn read_text<'de, T: Deserialize<'de>>(text: &'de str) -> Option<T> {
    let mut json = serde_json::Deserializer::from_str(text);
    let read = read(&mut json).ok()?;
    json.end().is_ok().then_some(read)
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
