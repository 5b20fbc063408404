//! From entries to the object they stand for.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Map, Value};

use crate::path::{self, Step};
use crate::shape::{id_of, id_value};
use crate::text;

/// Something that came of merging and is not as its makers meant it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Oddity {
    /// Two devices gave two new things the same number. Both are there, and
    /// one has another number now: what speaks of that number means the other.
    Renumbered {
        /// The list.
        list: String,
        /// The number both had, as text.
        was: String,
        /// The number of the one that gave way.
        now: u64,
    },
    /// An item that was deleted is back, since something still speaks of it.
    Revived {
        /// The list.
        list: String,
        /// Its number, as text.
        id: String,
    },
    /// A list was cut or filled up to go with another.
    Fitted {
        /// The list.
        list: String,
    },
    /// An item is left out, since it speaks of something that is gone for
    /// good or contradicts the rest. It stays in the document.
    LeftOut {
        /// The list.
        list: String,
        /// The item.
        item: Value,
    },
    /// The whole does not hold together, and nothing helped.
    Unsound,
}

/// One item of a list.
#[derive(Debug, Clone, Default)]
pub(crate) struct Item {
    /// Where it stands.
    pub(crate) place: String,
    /// Whether it is there, rather than deleted.
    pub(crate) there: bool,
    /// Whether it is there only since somebody changed it who did not know
    /// that it was deleted.
    pub(crate) back: bool,
    /// What it is, where it has no fields.
    pub(crate) value: Option<Value>,
    /// Its fields.
    pub(crate) node: Node,
}

/// What is under one path.
#[derive(Debug, Clone, Default)]
pub(crate) struct Node {
    /// The value kept at the path itself.
    pub(crate) leaf: Option<Value>,
    /// The text that is there letter by letter.
    pub(crate) text: Option<String>,
    pub(crate) fields: BTreeMap<String, Node>,
    pub(crate) items: BTreeMap<String, Item>,
}

/// What an entry of the document holds.
pub(crate) enum Entry {
    /// The value of a field.
    Leaf(Value),
    /// The text of a field, letter by letter.
    Text(String),
    /// An item's place, whether it is there, and its value if it has one.
    Item(String, bool, Option<Value>),
}

/// The keys of a list's items by their ids.
#[derive(Debug, Default)]
pub(crate) struct Keys<'a> {
    there: BTreeMap<String, &'a str>,
    deleted: BTreeMap<String, &'a str>,
}

impl<'a> Keys<'a> {
    /// The key of the item with that id: one that is there, or else one that
    /// was deleted.
    pub(crate) fn of(&self, id: &str) -> Option<&'a str> {
        let there = self.there.get(id).copied();
        there.or_else(|| self.deleted(id))
    }

    /// The key of a deleted item with that id.
    pub(crate) fn deleted(&self, id: &str) -> Option<&'a str> {
        self.deleted.get(id).copied()
    }
}

/// How deep paths go. Our own bound; a recipe needs six steps.
const DEEPEST: usize = 32;

impl Node {
    /// Adds what is at `path`. What no writer of ours makes is passed over.
    pub(crate) fn add(&mut self, path: &str, entry: Entry) {
        let steps = path::steps(path).filter(|steps| steps.len() <= DEEPEST);
        let mut before = steps.unwrap_or_default();
        let Some(end) = before.pop() else {
            return;
        };
        let mut node = self;
        for step in before {
            node = match step {
                Step::Field(name) => node.fields.entry(name).or_default(),
                Step::Item(name, key) => {
                    let list = node.fields.entry(name).or_default();
                    &mut list.items.entry(key).or_default().node
                }
            };
        }
        match (end, entry) {
            (Step::Field(name), Entry::Leaf(value)) => {
                node.fields.entry(name).or_default().leaf = Some(value);
            }
            (Step::Field(name), Entry::Text(text)) => {
                node.fields.entry(name).or_default().text = Some(text);
            }
            (Step::Item(name, key), Entry::Item(place, there, value)) => {
                let list = node.fields.entry(name).or_default();
                let item = list.items.entry(key).or_default();
                (item.place, item.there, item.value) = (place, there, value);
            }
            _ => {}
        }
    }

    /// Brings back the deleted items on the way to `path`: somebody changed
    /// what is there and did not know.
    pub(crate) fn bring_back(&mut self, path: &str) {
        let mut node = self;
        for step in path::steps(path).unwrap_or_default() {
            let next = match step {
                Step::Field(name) => node.fields.get_mut(&name),
                Step::Item(name, key) => {
                    let list = node.fields.get_mut(&name);
                    let item = list.and_then(|list| list.items.get_mut(&key));
                    item.map(|item| {
                        if !item.there && !item.place.is_empty() {
                            (item.there, item.back) = (true, true);
                        }
                        &mut item.node
                    })
                }
            };
            let Some(next) = next else { return };
            node = next;
        }
    }

    /// The node of a field.
    pub(crate) fn field(&self, name: &str) -> Option<&Self> {
        self.fields.get(name)
    }

    /// The items that are there, in order.
    pub(crate) fn present(&self) -> Vec<(&str, &Item)> {
        let mut items: Vec<_> = self.items.iter().filter(|(_, item)| item.there).collect();
        items.sort_by(|(one, a), (other, b)| (&a.place, one).cmp(&(&b.place, other)));
        items
            .into_iter()
            .map(|(key, item)| (key.as_str(), item))
            .collect()
    }

    /// The present items with the id each has, and whom two devices gave the
    /// same: the first by key keeps it.
    pub(crate) fn named(&self) -> Vec<(&str, &Item, Value, Option<Value>)> {
        let present = self.present();
        let mut by_key: Vec<&str> = present.iter().map(|(key, _)| *key).collect();
        by_key.sort_unstable();
        let mut first: BTreeMap<String, &str> = BTreeMap::new();
        for key in by_key {
            first.entry(path::id(key)).or_insert(key);
        }
        let taken = present
            .iter()
            .filter_map(|(key, _)| path::id(key).parse::<u64>().ok());
        let mut next = taken.max().unwrap_or(0);
        present
            .into_iter()
            .map(|(key, item)| {
                let id = path::id(key);
                if first.get(&id) == Some(&key) {
                    (key, item, id_value(&id), None)
                } else {
                    next = next.saturating_add(1);
                    (key, item, Value::from(next), Some(id_value(&id)))
                }
            })
            .collect()
    }

    /// The value under this path; `None` where there is none.
    pub(crate) fn value(&self, name: &str, oddities: &mut Vec<Oddity>) -> Option<Value> {
        if let Some(text) = self.text.as_ref().filter(|text| !text.is_empty()) {
            let whole = self.leaf.as_ref().and_then(Value::as_str);
            return Some(Value::from(text::joined(text, whole)));
        }
        // A value that is replaced whole stands against all that is beneath.
        if let Some(leaf) = &self.leaf
            && !matches!(leaf, Value::Object(map) if map.is_empty())
            && !matches!(leaf, Value::Array(items) if items.is_empty())
        {
            return Some(leaf.clone());
        }
        if self.items.values().any(|item| item.there) {
            let items = self.named().into_iter().map(|(key, item, id, was)| {
                if let Some(value) = &item.value {
                    return value.clone();
                }
                if let Some(was) = was {
                    oddities.push(Oddity::Renumbered {
                        list: name.to_owned(),
                        was: id_of(&Value::from_iter([("id", was)])).unwrap_or_default(),
                        now: id.as_u64().unwrap_or_default(),
                    });
                }
                let mut object = item.node.object(oddities);
                if !path::id(key).is_empty() {
                    object.insert("id".to_owned(), id);
                }
                Value::Object(object)
            });
            return Some(items.collect());
        }
        // A list all of whose items were deleted has no fields.
        let object = self.object(oddities);
        if !object.is_empty() {
            return Some(Value::Object(object));
        }
        self.leaf.clone()
    }

    /// The fields as an object.
    pub(crate) fn object(&self, oddities: &mut Vec<Oddity>) -> Map<String, Value> {
        self.fields
            .iter()
            .filter_map(|(name, node)| Some((name.clone(), node.value(name, oddities)?)))
            .collect()
    }

    /// The keys of a list's items, by the ids its reader knows them by.
    pub(crate) fn keys(&self) -> Keys<'_> {
        let mut keys = Keys::default();
        for (key, _, value, _) in self.named() {
            let id = id_of(&Value::from_iter([("id", value)]));
            keys.there.entry(id.unwrap_or_default()).or_insert(key);
        }
        for (key, item) in &self.items {
            if !item.there && !item.place.is_empty() {
                keys.deleted.entry(path::id(key)).or_insert(key);
            }
        }
        keys
    }

    /// The ids of the items that are there.
    pub(crate) fn ids(&self) -> BTreeSet<String> {
        let there = self.items.iter().filter(|(_, item)| item.there);
        there.map(|(key, _)| path::id(key)).collect()
    }
}
