//! Which document goes with which key of the store.

use crate::store::{deleted_id, progress_key, recipe_id, recipe_key};

/// The document that says what is deleted, and how much paper there is.
pub(super) const SHELF: &str = "shelf";

const RECIPE: &str = "recipe/";
const BENCH: &str = "bench/";
const PAST: &str = "past/";

/// What a document is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum About<'a> {
    /// The recipe of that name in the store.
    Recipe(&'a str),
    /// How far the making of that recipe has come.
    Bench(&'a str),
    /// Everything else: it has no text of its own in the store.
    Other,
}

/// What the document of that name is about. Names come from other devices, so
/// that only those are known whose rest is a name of our own making.
pub(super) fn about(name: &str) -> About<'_> {
    let ours = |id: &&str| !id.is_empty() && id.bytes().all(|byte| byte.is_ascii_alphanumeric());
    if let Some(id) = name.strip_prefix(RECIPE).filter(ours) {
        About::Recipe(id)
    } else if let Some(id) = name.strip_prefix(BENCH).filter(ours) {
        About::Bench(id)
    } else {
        About::Other
    }
}

/// Whether a document grows with its recipe.
pub(super) fn grows(name: &str) -> bool {
    [RECIPE, PAST].iter().any(|kind| name.starts_with(kind))
}

/// The document of a recipe.
pub(crate) fn of_recipe(id: &str) -> String {
    format!("{RECIPE}{id}")
}

/// The document of what a recipe was before.
pub(super) fn of_past(id: &str) -> String {
    format!("{PAST}{id}")
}

/// The recipe whose past a document holds.
pub(super) fn recipe_of_past(name: &str) -> Option<&str> {
    name.strip_prefix(PAST)
}

/// All documents about a recipe, its own first.
pub(super) fn of_all(id: &str) -> [String; 3] {
    [of_recipe(id), format!("{BENCH}{id}"), of_past(id)]
}

/// The key under which the store keeps what a document is about.
pub(super) fn key(name: &str) -> Option<String> {
    match about(name) {
        About::Recipe(id) => Some(recipe_key(id)),
        About::Bench(id) => Some(progress_key(id)),
        About::Other => None,
    }
}

/// The document for what the store keeps under a key, or for what a mark there says
/// was deleted.
pub(super) fn of_key(key: &str) -> Option<String> {
    let name = match recipe_id(key).or_else(|| deleted_id(key)) {
        Some(id) => of_recipe(id),
        None => format!("{BENCH}{}", key.strip_prefix(&progress_key(""))?),
    };
    (about(&name) != About::Other).then_some(name)
}

#[cfg(test)]
mod tests {
    use super::{About, about, key, of_key, of_past, of_recipe};

    #[test]
    fn names_and_keys_go_together() {
        for name in [of_recipe("a1"), "bench/a1".to_owned()] {
            assert_eq!(of_key(&key(&name).unwrap()).as_deref(), Some(&*name));
        }
        assert_eq!(about(&of_recipe("a1")), About::Recipe("a1"));
        for other in ["", "recipe/", "recipe/a/b", "shelf", "bench/../x"] {
            assert_eq!(about(other), About::Other, "{other}");
        }
        assert_eq!(key(&of_past("a1")), None);
        assert_eq!(of_key("foldwright/settings"), None);
    }
}
