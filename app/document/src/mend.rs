//! Makes what came together of several changes hold together again.

use std::collections::BTreeMap;

use serde_json::{Map, Value};

use crate::document::Document;
use crate::read::{Node, Oddity};

/// An object that holds together, and what was done to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Mended {
    /// The object. Where [`Oddity::Unsound`] is among the oddities, it is as
    /// it came.
    pub object: Value,
    /// What merging or mending made of it that nobody meant.
    pub oddities: Vec<Oddity>,
}

/// Lists whose items may be left out to make the rest hold together, those
/// missed least first.
const MAY_GO: [&str; 10] = [
    "own_steps",
    "supplies",
    "on_top",
    "upright",
    "relations",
    "flat",
    "joins",
    "cutouts",
    "lines",
    "layers",
];

/// How many items are tried in vain. Our own bound on the time it takes.
const MOST_TRIES: usize = 400;

/// The object of a document, made to hold together. `sound` says whether an
/// object does. The document stays as it is, and every device mends alike.
/// `None` where nothing was ever written.
pub fn mend(document: &Document, sound: &dyn Fn(&Value) -> bool) -> Option<Mended> {
    let (object, oddities) = document.read();
    let object = object?;
    if sound(&object) {
        return Some(Mended { object, oddities });
    }
    let mut tree = Node::clone(&document.tree());
    // Deleted things may still be spoken of: with all of them back, or some?
    let revived = revive(&mut tree, sound);
    let mut oddities = Vec::new();
    let mut mended = Value::Object(tree.object(&mut oddities));
    oddities.extend(revived);
    fit(&mut mended, &mut oddities);
    if !sound(&mended) {
        leave_out(&mut mended, &mut oddities, sound);
    }
    if sound(&mended) {
        Some(Mended {
            object: mended,
            oddities,
        })
    } else {
        let oddities = vec![Oddity::Unsound];
        Some(Mended { object, oddities })
    }
}

/// The object of a tree, its lists fitted.
fn fitted(tree: &Node) -> Value {
    let mut ignored = Vec::new();
    let mut object = Value::Object(tree.object(&mut ignored));
    fit(&mut object, &mut ignored);
    object
}

/// Brings deleted items back if that helps, as few as will do.
fn revive(tree: &mut Node, sound: &dyn Fn(&Value) -> bool) -> Vec<Oddity> {
    let mut dead = Vec::new();
    deleted(tree, &mut Vec::new(), &mut dead);
    if dead.is_empty() || sound(&fitted(tree)) {
        return Vec::new();
    }
    for path in &dead {
        set_there(tree, path, true);
    }
    if !sound(&fitted(tree)) {
        for path in &dead {
            set_there(tree, path, false);
        }
        return Vec::new();
    }
    let mut back = Vec::new();
    for (tries, path) in dead.into_iter().enumerate() {
        set_there(tree, &path, false);
        if tries >= MOST_TRIES || !sound(&fitted(tree)) {
            set_there(tree, &path, true);
            if let Some((list, key)) = path.last() {
                back.push(Oddity::Revived {
                    list: list.clone(),
                    id: crate::path::id(key),
                });
            }
        }
    }
    back
}

/// Where an item is: lists and keys, and plain fields with an empty key.
type Place = Vec<(String, String)>;

/// Collects where the deleted items with an id are whose number is free.
fn deleted(node: &Node, at: &mut Place, all: &mut Vec<Place>) {
    for (name, field) in &node.fields {
        let mut taken = field.ids();
        for (key, item) in &field.items {
            at.push((name.clone(), key.clone()));
            if item.there {
                deleted(&item.node, at, all);
            } else if item.value.is_none() && taken.insert(crate::path::id(key)) {
                all.push(at.clone());
            }
            at.pop();
        }
        at.push((name.clone(), String::new()));
        deleted(field, at, all);
        at.pop();
    }
}

fn set_there(node: &mut Node, place: &[(String, String)], there: bool) {
    let Some(((name, key), rest)) = place.split_first() else {
        return;
    };
    let Some(field) = node.fields.get_mut(name) else {
        return;
    };
    if key.is_empty() {
        return set_there(field, rest, there);
    }
    let Some(item) = field.items.get_mut(key) else {
        return;
    };
    if rest.is_empty() {
        item.there = there;
    } else {
        set_there(&mut item.node, rest, there);
    }
}

/// Gives every strip one fold fewer than panels.
fn fit(value: &mut Value, oddities: &mut Vec<Oddity>) {
    match value {
        Value::Object(fields) => {
            let panels = fields.get("panels").and_then(Value::as_array).map(Vec::len);
            if let (Some(panels), Some(folds)) = (panels, folds(fields))
                && panels > 0
                && folds.len() != panels - 1
            {
                folds.resize(panels - 1, Value::from("valley"));
                oddities.push(Oddity::Fitted {
                    list: "folds".to_owned(),
                });
            }
            for field in fields.values_mut() {
                fit(field, oddities);
            }
        }
        Value::Array(items) => {
            for item in items {
                fit(item, oddities);
            }
        }
        _ => {}
    }
}

fn folds(fields: &mut Map<String, Value>) -> Option<&mut Vec<Value>> {
    fields.get_mut("folds").and_then(Value::as_array_mut)
}

/// Leaves items out until the object is sound, as few as the order of trying
/// them allows.
fn leave_out(object: &mut Value, oddities: &mut Vec<Oddity>, sound: &dyn Fn(&Value) -> bool) {
    let mut without = object.clone();
    let mut out: BTreeMap<&str, Vec<Value>> = BTreeMap::new();
    for list in MAY_GO {
        take(&mut without, list, &mut out);
        if sound(&without) {
            break;
        }
    }
    if !sound(&without) {
        return;
    }
    // Of what was left out, everything returns that does no harm.
    let mut tries = 0;
    for list in MAY_GO.iter().rev() {
        if out.contains_key(list) {
            restore(object, list, &mut without, oddities, sound, &mut tries);
        }
    }
    *object = without;
}

/// Empties every list of that name.
fn take<'a>(value: &mut Value, list: &'a str, out: &mut BTreeMap<&'a str, Vec<Value>>) {
    each_list(value, list, &mut |items| {
        out.entry(list).or_default().append(items);
    });
}

fn each_list(value: &mut Value, list: &str, run: &mut dyn FnMut(&mut Vec<Value>)) {
    match value {
        Value::Object(fields) => {
            for (name, field) in fields {
                match field {
                    Value::Array(items) if name == list => run(items),
                    _ => each_list(field, list, run),
                }
            }
        }
        Value::Array(items) => {
            for item in items {
                each_list(item, list, run);
            }
        }
        _ => {}
    }
}

/// Puts back, one by one, the items of the lists of that name that `full` has.
fn restore(
    full: &mut Value,
    list: &str,
    without: &mut Value,
    oddities: &mut Vec<Oddity>,
    sound: &dyn Fn(&Value) -> bool,
    tries: &mut usize,
) {
    let mut lists = Vec::new();
    each_list(full, list, &mut |items| lists.push(items.clone()));
    for (number, items) in lists.into_iter().enumerate() {
        for item in items {
            let push = |value: &mut Value, pop: bool| {
                let mut at = 0;
                each_list(value, list, &mut |items| {
                    if at == number {
                        if pop {
                            items.pop();
                        } else {
                            items.push(item.clone());
                        }
                    }
                    at += 1;
                });
            };
            push(without, false);
            *tries += 1;
            if *tries > MOST_TRIES || !sound(without) {
                push(without, true);
                oddities.push(Oddity::LeftOut {
                    list: list.to_owned(),
                    item,
                });
            }
        }
    }
}
