//! Names of entries: `base.panels/2~k3.name` is the field `name` of an item of
//! the list `panels` in the object `base`.

use std::fmt::Write as _;

/// One step from an object inward.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Step {
    /// To a field.
    Field(String),
    /// To an item of a list, by the name of the list and the item's key.
    Item(String, String),
}

/// Appends `name` to `path`, with what separates names written otherwise.
fn push(path: &mut String, name: &str) {
    for c in name.chars() {
        if matches!(c, '%' | '.' | '/' | '~') {
            // Writing to a string cannot fail.
            let _ = write!(path, "%{:02x}", u32::from(c));
        } else {
            path.push(c);
        }
    }
}

/// The path of a field.
pub(crate) fn field(path: &str, name: &str) -> String {
    let mut whole = String::with_capacity(path.len() + name.len() + 1);
    if !path.is_empty() {
        whole.push_str(path);
        whole.push('.');
    }
    push(&mut whole, name);
    whole
}

/// The path of an item in the list at `list`.
pub(crate) fn item(list: &str, key: &str) -> String {
    format!("{list}/{key}")
}

/// A key for an item: its id, if it has one, and what makes it unique.
pub(crate) fn key(id: &str, unique: &str) -> String {
    let mut key = String::with_capacity(id.len() + unique.len() + 1);
    push(&mut key, id);
    key.push('~');
    key.push_str(unique);
    key
}

/// The id in a key.
pub(crate) fn id(key: &str) -> String {
    plain(key.split_once('~').map_or(key, |(id, _)| id))
}

/// The path as one who reads the object would name it: items by their id
/// alone.
pub(crate) fn address(path: &str) -> String {
    let parts = path.split('.').map(|part| match part.split_once('/') {
        Some((list, key)) => format!("{list}/{}", key.split_once('~').map_or(key, |(id, _)| id)),
        None => part.to_owned(),
    });
    parts.collect::<Vec<_>>().join(".")
}

/// The steps of a path; `None` for what no path of ours looks like.
pub(crate) fn steps(path: &str) -> Option<Vec<Step>> {
    path.split('.')
        .map(|part| match part.split_once('/') {
            None => Some(Step::Field(plain(part))),
            Some((_, key)) if key.contains('/') => None,
            Some((list, key)) => Some(Step::Item(plain(list), key.to_owned())),
        })
        .collect()
}

/// The name of a path that is a single field.
pub(crate) fn single(path: &str) -> Option<String> {
    match <[Step; 1]>::try_from(steps(path)?) {
        Ok([Step::Field(name)]) => Some(name),
        _ => None,
    }
}

fn plain(name: &str) -> String {
    if !name.contains('%') {
        return name.to_owned();
    }
    let mut parts = name.split('%');
    let mut whole = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let code = part
            .get(..2)
            .and_then(|code| u32::from_str_radix(code, 16).ok());
        if let Some(c) = code.and_then(char::from_u32) {
            whole.push(c);
            whole.push_str(part.get(2..).unwrap_or_default());
        } else {
            whole.push('%');
            whole.push_str(part);
        }
    }
    whole
}

#[cfg(test)]
mod tests {
    use super::{Step, field, id, item, key, steps};

    #[test]
    fn paths_come_apart_as_they_were_joined() {
        let list = field(&field("", "a.b"), "c/d~e%");
        let path = field(&item(&list, &key("7", "x1")), "é");
        let expected = [
            Step::Field("a.b".to_owned()),
            Step::Item("c/d~e%".to_owned(), "7~x1".to_owned()),
            Step::Field("é".to_owned()),
        ];
        assert_eq!(steps(&path).as_deref(), Some(&expected[..]));
        assert_eq!(id(&key("\"a~b", "q")), "\"a~b");
        assert_eq!(steps("a/b/c"), None);
        assert_eq!(steps("%zz"), Some(vec![Step::Field("%zz".to_owned())]));
    }
}
