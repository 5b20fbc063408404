//! Which parts of the JSON merge how.
//!
//! Objects named here merge field by field. Lists whose items have an `id`
//! merge item by item, and so do the lists named here whose items have none.
//! Texts in the objects named here merge letter by letter.
//! Everything else is replaced whole: an object that stands for one of several
//! cases would otherwise become a mixture of two.

use serde_json::Value;

/// Objects of which every field is decided for itself.
const BY_FIELD: [&str; 11] = [
    "back",
    "base",
    "done",
    "face",
    "folding_in",
    "notation",
    "notes",
    "photos",
    "posting",
    "strip",
    "wishes",
];

/// Objects whose fields are texts that merge letter by letter.
const TEXTS: [&str; 1] = ["notes"];

/// Lists of things with an `id`, where an empty list must merge as well.
const BY_ID: [&str; 10] = [
    "cutouts",
    "layers",
    "lines",
    "measures",
    "own_steps",
    "panels",
    "pieces",
    "runs",
    "stocks",
    "supplies",
];

/// Lists of things without an `id`.
const BY_ITEM: [&str; 6] = ["flat", "folds", "joins", "on_top", "relations", "upright"];

/// How a value merges.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Each field for itself.
    ByField,
    /// Each item for itself, known by its `id`.
    ById,
    /// Each item for itself, known by what it is.
    ByItem,
    /// The one or the other, whole.
    Whole,
}

impl Shape {
    /// How `value`, found under `name`, merges.
    pub fn of(name: &str, value: &Value) -> Self {
        match value {
            Value::Object(_) if BY_FIELD.contains(&name) => Self::ByField,
            Value::Array(items) if BY_ITEM.contains(&name) => {
                // Too long to be compared item by item.
                if items.len() > MOST_ITEMS {
                    Self::Whole
                } else {
                    Self::ByItem
                }
            }
            Value::Array(items) => {
                let named = items.iter().all(|item| id_of(item).is_some());
                if named && (!items.is_empty() || BY_ID.contains(&name)) {
                    Self::ById
                } else {
                    Self::Whole
                }
            }
            _ => Self::Whole,
        }
    }
}

/// Whether the fields of the object of that name are texts that merge letter
/// by letter.
pub(crate) fn holds_texts(name: &str) -> bool {
    TEXTS.contains(&name)
}

/// The longest list that merges item by item. Our own bound, above what a
/// recipe may hold.
pub const MOST_ITEMS: usize = 1000;

/// The `id` of an item, as text.
pub fn id_of(item: &Value) -> Option<String> {
    match item.as_object()?.get("id")? {
        Value::Number(id) if id.is_u64() || id.is_i64() => Some(id.to_string()),
        Value::String(id) => Some(format!("\"{id}")),
        _ => None,
    }
}

/// The `id` that [`id_of`] wrote as text.
pub(crate) fn id_value(text: &str) -> Value {
    if let Some(text) = text.strip_prefix('"') {
        return Value::from(text);
    }
    match text.parse::<u64>() {
        Ok(number) => Value::from(number),
        Err(_) => text.parse::<i64>().map_or(Value::Null, Value::from),
    }
}
