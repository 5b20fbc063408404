//! From a change of the object to changes of entries. Only what differs
//! between the old and the new object is written, so that whatever others
//! wrote meanwhile stays.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;

use crate::order::{Draw, between};
use crate::path;
use crate::read::{Item, Node};
use crate::shape::{Shape, holds_texts, id_of};

/// A change of one entry.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Op {
    /// A field's value.
    Set(String, Value),
    /// No such field.
    Unset(String),
    /// A text, from what it was to what it is.
    Text(String, String, String),
    /// An item's place, whether it is there, and its value if it has one.
    Item(String, String, bool, Option<Value>),
}

/// What somebody changed, as far as another may have changed it meanwhile.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Change {
    /// Of what.
    pub(crate) path: String,
    /// Whether it was given a value, rather than taken away.
    pub(crate) there: bool,
    /// The value, or what was taken away.
    pub(crate) value: Value,
}

/// Finds the changes that lead from `old` to `new` in a document that holds
/// `node`.
pub(crate) struct Writer<'a> {
    pub(crate) ops: Vec<Op>,
    pub(crate) changes: Vec<Change>,
    /// Whether all this is new, so that nobody else can have changed it.
    pub(crate) fresh: bool,
    pub(crate) draw: &'a mut Draw,
}

impl Writer<'_> {
    /// Changes the fields of the object at `path`.
    pub(crate) fn fields(&mut self, path: &str, node: &Node, old: &Value, new: &Value) {
        let empty = serde_json::Map::new();
        let [before, after] = [old, new].map(|value| value.as_object().unwrap_or(&empty));
        let names: BTreeSet<_> = before.keys().chain(after.keys()).collect();
        let texts = holds_texts(path.rsplit('.').next().unwrap_or_default());
        for name in names {
            let at = path::field(path, name);
            let child = node.field(name);
            if texts && self.text(&at, child, before.get(name), after.get(name)) {
                continue;
            }
            self.value(&at, name, child, before.get(name), after.get(name));
        }
    }

    /// Changes a text; tells whether it was one.
    fn text(
        &mut self,
        path: &str,
        node: Option<&Node>,
        old: Option<&Value>,
        new: Option<&Value>,
    ) -> bool {
        let is_text = |value: Option<&Value>| value.is_none_or(Value::is_string);
        if !is_text(old) || !is_text(new) {
            return false;
        }
        let mut ignored = Vec::new();
        // What is written whole again takes the place of what is left.
        let left = node.filter(|_| self.fresh);
        let left = left.and_then(|node| node.value("", &mut ignored));
        let [old, new] = [left.as_ref().or(old), new]
            .map(|value| value.and_then(Value::as_str).unwrap_or_default());
        if old != new {
            let [at, old, new] = [path, old, new].map(str::to_owned);
            self.ops.push(Op::Text(at, old, new));
            if node.is_some_and(|node| node.leaf.is_some()) {
                self.ops.push(Op::Unset(path.to_owned()));
            }
        }
        true
    }

    fn value(
        &mut self,
        path: &str,
        name: &str,
        node: Option<&Node>,
        old: Option<&Value>,
        new: Option<&Value>,
    ) {
        if old == new {
            return;
        }
        let nothing = Node::default();
        let node = node.unwrap_or(&nothing);
        let Some(new) = new else {
            let old = old.cloned().unwrap_or_default();
            self.changed(path, false, old);
            self.clear(path, node);
            self.ops.push(Op::Unset(path.to_owned()));
            return;
        };
        let shape = Shape::of(name, new);
        if shape == Shape::Whole {
            self.changed(path, true, new.clone());
            self.ops.push(Op::Set(path.to_owned(), new.clone()));
            return;
        }
        // What was replaced whole before, or was not there, starts anew.
        let old = old.filter(|old| shape == Shape::of(name, old) || empty_list(old));
        let bare = if shape == Shape::ByField {
            Value::Object(serde_json::Map::new())
        } else {
            Value::Array(Vec::new())
        };
        if node.leaf.as_ref() != Some(&bare) {
            self.ops.push(Op::Set(path.to_owned(), bare.clone()));
        }
        let old = old.unwrap_or(&bare);
        match shape {
            Shape::ByField => self.fields(path, node, old, new),
            Shape::ById => self.by_id(path, node, old, new),
            Shape::ByItem => self.by_item(path, node, old, new),
            Shape::Whole => {}
        }
    }

    /// Takes away what is there beneath `path`.
    fn clear(&mut self, path: &str, node: &Node) {
        for (name, field) in &node.fields {
            let at = path::field(path, name);
            self.clear(&at, field);
            if let Some(text) = &field.text {
                self.ops
                    .push(Op::Text(at.clone(), text.clone(), String::new()));
            }
            if field.leaf.is_some() {
                self.ops.push(Op::Unset(at));
            }
        }
        for (key, item) in &node.items {
            if item.value.is_some() {
                self.ops.push(Op::Unset(path::item(path, key)));
            } else if item.there {
                self.item(path, key, &item.place, false, None);
            }
        }
    }

    fn changed(&mut self, path: &str, there: bool, value: Value) {
        if !self.fresh {
            let path = path.to_owned();
            self.changes.push(Change { path, there, value });
        }
    }

    fn item(&mut self, list: &str, key: &str, place: &str, there: bool, value: Option<Value>) {
        let at = path::item(list, key);
        self.ops.push(Op::Item(at, place.to_owned(), there, value));
    }

    fn by_id(&mut self, path: &str, node: &Node, old: &Value, new: &Value) {
        let [before, after] =
            [old, new].map(|value| value.as_array().map_or(&[][..], Vec::as_slice));
        let known: BTreeMap<String, &Value> = before
            .iter()
            .filter_map(|item| Some((id_of(item)?, item)))
            .collect();
        let held = node.keys();
        let mut keys = Vec::with_capacity(after.len());
        let mut used = BTreeSet::new();
        for item in after {
            let id = id_of(item).unwrap_or_default();
            let had = known.get(&id).copied();
            let key = match had {
                Some(_) => held.of(&id),
                None => held.deleted(&id),
            };
            let key = key.filter(|key| !used.contains(*key)).map(str::to_owned);
            let (key, kept) = match key {
                Some(key) => {
                    let kept = node.items.get(&key);
                    (key, kept)
                }
                None => (path::key(&id, &self.draw.unique()), None),
            };
            used.insert(key.clone());
            let at = path::item(path, &key);
            match (had, kept) {
                (Some(had), Some(kept)) => {
                    let changed = without_id(had) != without_id(item);
                    if changed {
                        self.fields(&at, &kept.node, &without_id(had), &without_id(item));
                    }
                    let moved = !kept.there && !changed;
                    keys.push((key, Some(kept), moved));
                }
                (_, kept) => {
                    let mut ignored = Vec::new();
                    let left = kept.map(|kept| Value::Object(kept.node.object(&mut ignored)));
                    let left = left.unwrap_or(Value::Null);
                    let nothing = Node::default();
                    let from = kept.map_or(&nothing, |kept| &kept.node);
                    let fresh = std::mem::replace(&mut self.fresh, true);
                    self.fields(&at, from, &left, &without_id(item));
                    self.fresh = fresh;
                    keys.push((key, None, false));
                }
            }
        }
        let gone = known
            .iter()
            .filter_map(|(id, was)| Some((held.of(id)?, *was)));
        for (key, was) in gone.filter(|(key, _)| !used.contains(*key)) {
            if let Some(item) = node.items.get(key).filter(|item| item.there) {
                self.changed(&path::item(path, key), false, was.clone());
                self.item(path, key, &item.place, false, None);
            }
        }
        let had: Vec<_> = before
            .iter()
            .filter_map(|item| held.of(&id_of(item)?))
            .collect();
        let values = vec![None; keys.len()];
        self.places(path, &had, &keys, values);
    }

    /// Gives every item of `keys` that is new or stands elsewhere than before
    /// a place; the third of each says whether the item is to stay deleted.
    fn places(
        &mut self,
        path: &str,
        had: &[&str],
        keys: &[(String, Option<&Item>, bool)],
        values: Vec<Option<Value>>,
    ) {
        let before: BTreeMap<&str, usize> =
            had.iter().enumerate().map(|(at, key)| (*key, at)).collect();
        let ranks: Vec<Option<usize>> = keys
            .iter()
            .map(|(key, item, _)| item.and_then(|_| before.get(key.as_str()).copied()))
            .collect();
        let stays = longest_rise(&ranks);
        let place_of = |at: usize| {
            keys.get(at)
                .and_then(|(_, item, _)| Some(item.as_ref()?.place.clone()))
        };
        let mut last = String::new();
        for (at, ((key, item, deleted), value)) in keys.iter().zip(values).enumerate() {
            let place = match item {
                Some(item) if stays.contains(&at) => {
                    let back = (!item.there || item.back) && !deleted;
                    let changed = value
                        .as_ref()
                        .filter(|value| Some(*value) != item.value.as_ref());
                    if let Some(value) = changed {
                        self.changed(&path::item(path, key), true, value.clone());
                    }
                    if back || changed.is_some() {
                        self.item(path, key, &item.place, true, value);
                    }
                    item.place.clone()
                }
                _ => {
                    let next = stays.range(at + 1..).next().copied().and_then(place_of);
                    let place = between(&last, next.as_deref(), self.draw);
                    if let (None, Some(value)) = (item, &value) {
                        self.changed(&path::item(path, key), true, value.clone());
                    }
                    self.item(path, key, &place, true, value);
                    place
                }
            };
            last = place;
        }
    }

    fn by_item(&mut self, path: &str, node: &Node, old: &Value, new: &Value) {
        let [before, after] =
            [old, new].map(|value| value.as_array().map_or(&[][..], Vec::as_slice));
        // Which entry each old item is: the items there now, in order.
        let present = node.present();
        let mut from = 0;
        let mut keys: Vec<Option<usize>> = Vec::with_capacity(before.len());
        let mut taken = BTreeSet::new();
        for item in before {
            let same = |(at, (_, held)): &(usize, &(&str, &Item))| {
                !taken.contains(at) && held.value.as_ref() == Some(item)
            };
            let all = || present.iter().enumerate();
            let found = all().skip(from).find(same).or_else(|| all().find(same));
            let found = found.map(|(at, _)| at);
            if let Some(at) = found {
                taken.insert(at);
                from = at + 1;
            }
            keys.push(found);
        }
        let mut had = Vec::new();
        let mut now: Vec<(String, Option<&Item>, bool)> = Vec::new();
        let mut values = Vec::new();
        let held = |place: usize| {
            keys.get(place)
                .copied()
                .flatten()
                .and_then(|at| present.get(at))
        };
        for (old, new) in paired(before, after) {
            let entry = old.and_then(held);
            match (entry, new.and_then(|at| after.get(at))) {
                (Some((key, item)), Some(value)) => {
                    had.push(*key);
                    now.push(((*key).to_owned(), Some(*item), false));
                    values.push(Some(value.clone()));
                }
                (Some((key, item)), None) => {
                    let at = path::item(path, key);
                    let was = item.value.clone().unwrap_or_default();
                    self.changed(&at, false, was);
                    self.ops.push(Op::Unset(at));
                }
                (None, Some(value)) => {
                    // Unchanged, but no longer there: somebody took it away.
                    let taken_away = old.and_then(|at| before.get(at)) == Some(value);
                    if !taken_away {
                        now.push((path::key("", &self.draw.unique()), None, false));
                        values.push(Some(value.clone()));
                    }
                }
                (None, None) => {}
            }
        }
        self.places(path, &had, &now, values);
    }
}

fn empty_list(value: &Value) -> bool {
    value.as_array().is_some_and(Vec::is_empty)
}

fn without_id(item: &Value) -> Value {
    let mut item = item.clone();
    if let Some(object) = item.as_object_mut() {
        object.remove("id");
    }
    item
}

/// Which of `ranks` may stay where they are: a longest rising part of them.
fn longest_rise(ranks: &[Option<usize>]) -> BTreeSet<usize> {
    let mut best: Vec<(usize, Option<usize>)> = vec![(0, None); ranks.len()];
    let mut end: Option<usize> = None;
    for (at, rank) in ranks.iter().enumerate() {
        let Some(rank) = rank else { continue };
        let before = ranks.iter().zip(&best).enumerate().take(at);
        let longest = before
            .filter(|(_, (other, _))| other.is_some_and(|other| other < *rank))
            .map(|(other, (_, (length, _)))| (*length, other))
            .max_by_key(|(length, other)| (*length, std::cmp::Reverse(*other)));
        let entry = longest.map_or((1, None), |(length, other)| (length + 1, Some(other)));
        if end
            .and_then(|end| best.get(end))
            .is_none_or(|(length, _)| entry.0 > *length)
        {
            end = Some(at);
        }
        if let Some(slot) = best.get_mut(at) {
            *slot = entry;
        }
    }
    let mut stays = BTreeSet::new();
    while let Some(at) = end {
        stays.insert(at);
        end = best.get(at).and_then(|(_, before)| *before);
    }
    stays
}

/// Pairs the items of two lists: the same ones by a longest common part, and
/// of what lies between these, the first with the first and so on. Each pair
/// has the place in either list.
fn paired(before: &[Value], after: &[Value]) -> Vec<(Option<usize>, Option<usize>)> {
    let (rows, columns) = (before.len(), after.len());
    let width = columns + 1;
    let mut common = vec![0_u16; (rows + 1) * width];
    let get = |common: &[u16], row: usize, column: usize| {
        common.get(row * width + column).copied().unwrap_or(0)
    };
    for (row, one) in before.iter().enumerate().rev() {
        for (column, other) in after.iter().enumerate().rev() {
            let length = if one == other {
                get(&common, row + 1, column + 1).saturating_add(1)
            } else {
                get(&common, row + 1, column).max(get(&common, row, column + 1))
            };
            if let Some(slot) = common.get_mut(row * width + column) {
                *slot = length;
            }
        }
    }
    let mut pairs = Vec::new();
    let (mut row, mut column) = (0, 0);
    let (mut gone, mut new) = (Vec::new(), Vec::new());
    loop {
        let same = row < rows && column < columns && before.get(row) == after.get(column);
        if same || (row == rows && column == columns) {
            let most = gone.len().max(new.len());
            pairs.extend((0..most).map(|at| (gone.get(at).copied(), new.get(at).copied())));
            gone.clear();
            new.clear();
            if !same {
                return pairs;
            }
            pairs.push((Some(row), Some(column)));
            row += 1;
            column += 1;
        } else if column == columns
            || (row < rows && get(&common, row + 1, column) >= get(&common, row, column + 1))
        {
            gone.push(row);
            row += 1;
        } else {
            new.push(column);
            column += 1;
        }
    }
}
