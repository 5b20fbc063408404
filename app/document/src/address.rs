//! Parts of an object by their address (see [`Said::address`]).
//!
//! [`Said::address`]: crate::Said::address

use serde_json::Value;

use crate::path::{self, Step};
use crate::said::Said;
use crate::shape::id_of;

/// What is at an address; `None` where nothing is.
pub fn at<'a>(object: &'a Value, address: &str) -> Option<&'a Value> {
    let steps = path::steps(address)?;
    steps.iter().try_fold(object, |value, step| match step {
        Step::Field(name) => value.get(name),
        Step::Item(list, key) => {
            let id = path::id(key);
            let items = value.get(list)?.as_array()?;
            items
                .iter()
                .find(|item| id_of(item).as_deref() == Some(&*id))
        }
    })
}

/// Puts a value where an address points, or takes away what is there. Tells
/// whether there was such a place.
pub fn put(object: &mut Value, address: &str, value: Option<Value>) -> bool {
    let Some((end, before)) =
        path::steps(address).and_then(|mut steps| Some((steps.pop()?, steps)))
    else {
        return false;
    };
    let parent = before.iter().try_fold(object, |parent, step| match step {
        Step::Field(name) => parent.get_mut(name),
        Step::Item(list, key) => item(parent, list, &path::id(key)),
    });
    let Some(parent) = parent else { return false };
    match (end, value) {
        (Step::Field(name), value) => {
            let Some(fields) = parent.as_object_mut() else {
                return false;
            };
            match value {
                Some(value) => fields.insert(name, value),
                None => fields.remove(&name),
            };
            true
        }
        (Step::Item(list, key), value) => {
            let id = path::id(&key);
            let items = parent.get_mut(&list).and_then(Value::as_array_mut);
            let Some(items) = items else { return false };
            match value {
                Some(value) => items.push(value),
                None => items.retain(|item| id_of(item).as_deref() != Some(&*id)),
            }
            true
        }
    }
}

fn item<'a>(parent: &'a mut Value, list: &str, id: &str) -> Option<&'a mut Value> {
    let items = parent.get_mut(list)?.as_array_mut()?;
    items
        .iter_mut()
        .find(|item| id_of(item).as_deref() == Some(id))
}

/// Whether an object is as somebody decided.
pub(crate) fn is_so(object: &Value, said: &Said) -> bool {
    let list = said.address.strip_suffix('/');
    if let Some(list) = list {
        let items = at(object, list).and_then(Value::as_array);
        let there = items.is_some_and(|items| items.contains(&said.value));
        return there == said.there;
    }
    let now = at(object, &said.address).filter(|now| !now.is_null());
    if said.there {
        now.unwrap_or(&Value::Null) == &said.value
    } else {
        now.is_none()
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::{at, put};

    #[test]
    fn parts_are_found_and_changed_by_their_address() {
        let mut object = json!({
            "name": "a",
            "base": { "panels": [{ "id": 2, "name": "left" }, { "id": 3, "name": "right" }] },
        });
        assert_eq!(at(&object, "base.panels/3.name"), Some(&json!("right")));
        assert_eq!(at(&object, "base.panels/4.name"), None);
        assert!(put(&mut object, "base.panels/3.name", Some(json!("flap"))));
        assert!(put(&mut object, "base.panels/2", None));
        assert!(put(&mut object, "name", None));
        assert!(!put(&mut object, "base.lines/2.name", None));
        let expected = json!({ "base": { "panels": [{ "id": 3, "name": "flap" }] } });
        assert_eq!(object, expected);
    }
}
