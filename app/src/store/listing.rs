//! What is known of recipes at a glance, without working through all of them.

use std::time::Duration;

use leptos::prelude::*;
use serde::Deserialize;
use web_sys::js_sys::Date;

use super::record::{Stamp, file_in, readable, stamp_of};
use super::shelf::recipe_key;
use super::{Shelf, Store};

/// How often what depends on all recipes is worked out again while they change,
/// in milliseconds. Our own bound: hundreds may come in a second.
const CALM: f64 = 300.0;

/// A recipe of the list.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(crate) struct Listed {
    /// Its name in the store.
    pub(crate) id: String,
    /// Which state of it is kept.
    pub(crate) stamp: Stamp,
}

/// As much of a file as tells what its recipe is called.
#[derive(Deserialize)]
struct Titles {
    recipes: [Title; 1],
}

#[derive(Deserialize)]
struct Title {
    name: String,
    #[serde(default)]
    about: String,
}

/// The name and the description in a kept text.
fn title_in(text: &str) -> Option<String> {
    let text = readable(text);
    let titles: Titles = serde_json::from_str(file_in(&text)).ok()?;
    let [Title { name, about }] = titles.recipes;
    Some(format!("{name} {about}"))
}

impl Store {
    /// Counts with the changes of recipes, but no more often than is calm.
    pub(crate) fn calm(self) -> RwSignal<u32> {
        let calm = RwSignal::new(0_u32);
        let due = StoredValue::new(false);
        let last = StoredValue::new(0.0);
        let count = move || {
            due.try_set_value(false);
            last.try_set_value(Date::now());
            calm.try_update(|count| *count = count.wrapping_add(1));
        };
        Effect::new(move |known: Option<()>| {
            self.track_recipes();
            if known.is_none() || due.get_value() {
                return;
            }
            due.set_value(true);
            let since = (Date::now() - last.get_value()).clamp(0.0, CALM);
            set_timeout(count, Duration::from_secs_f64((CALM - since) / 1000.0));
        });
        calm
    }

    /// How many recipes are kept. Tracks.
    pub(crate) fn count(self) -> usize {
        self.track_recipes();
        self.with_shelf(Shelf::ids).len()
    }

    /// Whether a recipe is kept. Tracks.
    pub(crate) fn has(self, id: &str) -> bool {
        self.track_recipes();
        let key = recipe_key(id);
        self.with_shelf(|shelf| shelf.port().has(&key))
    }

    /// A recipe as the list has it. Where its text makes no sense, that is said
    /// and the text set aside.
    pub(crate) fn listed(self, id: String) -> Option<Listed> {
        let key = recipe_key(&id);
        let head = self.with_shelf(|shelf| shelf.port().head(&key))?;
        let Some(stamp) = stamp_of(&head) else {
            drop(self.read(&id));
            return None;
        };
        Some(Listed { id, stamp })
    }

    /// The name and the description of a recipe, to look for words in.
    pub(crate) fn title(self, id: &str) -> Option<String> {
        let key = recipe_key(id);
        title_in(&self.with_shelf(|shelf| shelf.port().read(&key))?)
    }
}

#[cfg(test)]
mod tests {
    use foldwright_engine::recipe::starters;

    use super::title_in;
    use crate::store::Stamp;

    #[test]
    fn what_a_recipe_is_called_is_read_from_its_text() {
        let stamp = Stamp {
            revision: 1,
            tab: 2,
            at: 3,
        };
        for starter in starters() {
            let recipe = starter.recipe.clone();
            let title = format!("{} {}", recipe.name, recipe.about);
            let text = stamp.text_of(&recipe);
            assert_eq!(title_in(&text), Some(title), "{}", starter.id);
        }
        assert_eq!(title_in("3 2 1\n{\"foldwright\":1,\"recipes\":[]}"), None);
        assert_eq!(title_in(""), None);
    }
}
