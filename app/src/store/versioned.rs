//! Small things kept as JSON with a version.

use serde::Serialize;
use serde_json::{Value, json};

/// The version written now.
const VERSION: u64 = 1;

/// The text to keep.
pub(crate) fn text(body: &impl Serialize) -> String {
    json!({ "foldwright": VERSION, "kept": body }).to_string()
}

/// What a kept text holds; `None` if it is none of ours or of a later version.
pub(crate) fn body(text: &str) -> Option<Value> {
    let mut json: Value = serde_json::from_str(text).ok()?;
    let version = json.get("foldwright")?.as_u64()?;
    if version != VERSION {
        return None;
    }
    json.get_mut("kept").map(Value::take)
}
