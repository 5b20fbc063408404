//! Recipes others share by link, as this device keeps them: what was shared
//! last, and beside it the reader's own version. That is kept like any recipe,
//! so that the bench works on it, but is none of the maker's own.

use foldwright_engine::recipe::{self, Recipe};
use leptos::prelude::WithValue as _;
use serde::{Deserialize, Serialize};

use super::shelf::recipe_key;
use super::{Store, fresh_id, now, versioned};

const GUESTS: &str = "foldwright/shared/";
/// What the names of readers' versions begin with. No name of the maker's own
/// recipes has a hyphen, nor does any document.
const VERSION: &str = "shared-";

/// What this device keeps of a shared recipe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Guest {
    /// What people call the workshop it comes from.
    pub(crate) from: String,
    /// The recipe as it was shared when the reader took it.
    pub(crate) shared: Recipe,
    /// What it has become since, until the reader takes that.
    pub(crate) newer: Option<Recipe>,
    /// Whether the link was ended.
    pub(crate) ended: bool,
    /// What the reader has kept of it among their own recipes.
    pub(crate) own: Option<String>,
}

#[derive(Serialize, Deserialize)]
struct Kept {
    from: String,
    /// As files, so that everything that reads old recipes reads these.
    shared: String,
    newer: Option<String>,
    ended: bool,
    own: Option<String>,
}

/// The name in the store of the reader's version.
pub(crate) fn version_id(token: &str) -> String {
    format!("{VERSION}{token}")
}

/// Whether a recipe's name is that of a reader's version.
pub(crate) fn is_version(id: &str) -> bool {
    token_of(id).is_some()
}

/// The token of the link whose reader's version is kept under that name; `None` for the
/// maker's own recipes.
pub(crate) fn token_of(id: &str) -> Option<&str> {
    id.strip_prefix(VERSION)
}

/// The address a recipe of the store is read at.
pub(crate) fn recipe_address(id: &str) -> String {
    match token_of(id) {
        Some(token) => format!("/shared/{token}"),
        None => format!("/recipe/{id}"),
    }
}

fn key(token: &str) -> String {
    format!("{GUESTS}{token}")
}

impl Guest {
    fn parse(text: &str) -> Option<Self> {
        let kept = Kept::deserialize(versioned::body(text)?).ok()?;
        let one = |file: &str| recipe::read_kept(file).ok()?.into_iter().next();
        Some(Self {
            from: kept.from,
            shared: one(&kept.shared)?,
            newer: kept.newer.as_deref().and_then(one),
            ended: kept.ended,
            own: kept.own,
        })
    }

    fn text(&self) -> String {
        let one = |recipe: &Recipe| recipe::write(std::slice::from_ref(recipe));
        versioned::text(&Kept {
            from: self.from.clone(),
            shared: one(&self.shared),
            newer: self.newer.as_ref().map(one),
            ended: self.ended,
            own: self.own.clone(),
        })
    }
}

impl Store {
    /// What this device keeps of the recipe a link opens.
    pub(crate) fn guest(self, token: &str) -> Option<Guest> {
        let key = key(token);
        let text = self.shelf.with_value(|shelf| shelf.port().read(&key))?;
        Guest::parse(&text)
    }

    /// Keeps that.
    pub(crate) fn set_guest(self, token: &str, guest: &Guest) {
        self.keep(&key(token), &guest.text());
    }

    /// Keeps a first version of the reader's own, unless there is one.
    pub(crate) fn begin_version(self, token: &str, version: &Recipe) {
        let id = version_id(token);
        let there = self
            .shelf
            .with_value(|shelf| shelf.port().read(&recipe_key(&id)).is_some());
        if !there {
            let kept = self
                .shelf
                .with_value(|shelf| shelf.put(&id, version, now()));
            self.told(kept, || vec![version.clone()]);
        }
    }

    /// Puts the reader's version among their own recipes, with how far it has
    /// come, and returns its name there.
    pub(crate) fn keep_version(self, token: &str, version: &Recipe) -> Option<String> {
        let own = fresh_id();
        let kept = self
            .shelf
            .with_value(|shelf| shelf.put(&own, version, now()));
        self.told(kept, || vec![version.clone()])?;
        let progress = self.progress(&version_id(token));
        self.set_progress(&own, |kept| *kept = progress);
        self.changed();
        Some(own)
    }
}

#[cfg(test)]
mod tests {
    use foldwright_engine::recipe::starters;

    use super::{Guest, is_version, recipe_address, version_id};

    #[test]
    fn what_was_shared_comes_back() {
        let mut recipes = starters().iter().map(|starter| starter.recipe.clone());
        let guest = Guest {
            from: "Harbour".to_owned(),
            shared: recipes.next().expect("there are starters"),
            newer: recipes.next(),
            ended: true,
            own: Some("a1".to_owned()),
        };
        assert_eq!(Guest::parse(&guest.text()), Some(guest));
        assert_eq!(Guest::parse("{}"), None);
    }

    #[test]
    fn versions_are_told_from_own_recipes() {
        assert!(is_version(&version_id("0f")) && !is_version("0f"));
        assert_eq!(recipe_address(&version_id("0f")), "/shared/0f");
        assert_eq!(recipe_address("0f"), "/recipe/0f");
    }
}
