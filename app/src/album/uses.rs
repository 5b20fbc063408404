//! Which recipes use which photographs.

use std::collections::{BTreeMap, BTreeSet};

use foldwright_engine::paper::PhotoId;
use foldwright_engine::recipe::Recipe;

use crate::store::{Record, Shelf, Stamp, is_version, mentions, recipe_key, token_of};

/// What a kept recipe that uses photographs says somewhere: how the names of the fields
/// begin that name them. What begins so by chance is read in vain.
const FIELDS: &str = "\"photo";

/// The photographs a recipe uses: of its papers, beside its steps and in its log.
pub(crate) fn of(recipe: &Recipe) -> BTreeSet<PhotoId> {
    let mut all = of_papers(recipe);
    all.extend(recipe.photos.values());
    all.extend(recipe.runs.iter().filter_map(|run| run.photo));
    all
}

/// The photographs that drawings of a recipe show.
pub(crate) fn of_papers(recipe: &Recipe) -> BTreeSet<PhotoId> {
    let sides = recipe.stocks.iter().flat_map(|it| [it.face, it.back]);
    sides.filter_map(|side| side.photo).collect()
}

/// What is known of a kept recipe.
#[derive(Debug)]
struct Known {
    /// In which of its states.
    stamp: Option<Stamp>,
    /// The photographs it uses; `None` where it cannot be read.
    photos: Option<BTreeSet<PhotoId>>,
}

/// Which recipes of this device use which photographs. Recipes are read anew where they
/// have changed.
#[derive(Debug, Default)]
pub(crate) struct Uses(BTreeMap<String, Known>);

impl Uses {
    /// Looks at a recipe of the shelf, unless it is known in the state it has.
    pub(crate) fn look_at(&mut self, shelf: &Shelf, id: &str) {
        let stamp = shelf.stamp(id);
        let known = self.0.get(id);
        if stamp.is_some() && known.is_some_and(|known| known.stamp == stamp) {
            return;
        }
        let Some(text) = shelf.port().read(&recipe_key(id)) else {
            self.0.remove(id);
            return;
        };
        let photos = match mentions(&text, FIELDS) {
            Some(false) => Some(BTreeSet::new()),
            Some(true) => Record::parse(&text).ok().map(|it| of(&it.recipe)),
            None => None,
        };
        self.0.insert(id.to_owned(), Known { stamp, photos });
    }

    /// Lets go of recipes other than these.
    pub(crate) fn keep_only(&mut self, ids: &BTreeSet<String>) {
        self.0.retain(|id, _| ids.contains(id));
    }

    /// Whether a recipe that was looked at uses any photograph, as far as it can be read.
    pub(crate) fn has_photos(&self, id: &str) -> bool {
        let photos = self.0.get(id).and_then(|known| known.photos.as_ref());
        photos.is_some_and(|photos| !photos.is_empty())
    }

    /// Whether every recipe could be read, so that what none uses is used by none.
    pub(crate) fn are_sure(&self) -> bool {
        self.0.values().all(|known| known.photos.is_some())
    }

    /// What the maker's own recipes use.
    pub(crate) fn own(&self) -> BTreeSet<PhotoId> {
        let own = self.0.iter().filter(|(id, _)| !is_version(id));
        own.filter_map(|(_, known)| known.photos.as_ref())
            .flatten()
            .copied()
            .collect()
    }

    /// What recipes use that others share by link, each with the token of the link.
    pub(crate) fn of_links(&self) -> Vec<(String, PhotoId)> {
        let links = self.0.iter().filter_map(|(id, known)| {
            let (token, photos) = (token_of(id)?, known.photos.as_ref()?);
            Some((token, photos))
        });
        links
            .flat_map(|(token, photos)| photos.iter().map(|photo| (token.to_owned(), *photo)))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use foldwright_engine::recipe::{Recipe, starters};

    use super::{Uses, of, of_papers};
    use crate::album::name;
    use crate::store::{Memory, Port as _, Shelf, recipe_key, version_id};

    fn shelf() -> Shelf {
        Shelf::new(Box::<Memory>::default(), 1)
    }

    fn with_photo(file: &[u8]) -> Recipe {
        let mut recipe = starters()[0].recipe.clone();
        recipe.stocks[0].face.photo = Some(name(file));
        recipe
    }

    #[test]
    fn a_recipe_uses_what_its_papers_show() {
        let mut recipe = with_photo(b"rope");
        assert_eq!(of(&recipe), [name(b"rope")].into());
        recipe.stocks[0].back.photo = Some(name(b"net"));
        assert_eq!(of(&recipe), [name(b"rope"), name(b"net")].into());
        assert!(of(&starters()[0].recipe).is_empty());
    }

    #[test]
    fn a_recipe_uses_what_its_steps_and_its_log_show() {
        let mut recipe = with_photo(b"rope");
        let step = ("gather".to_owned(), name(b"table"));
        recipe.photos.extend([step.clone()]);
        let run = recipe.finish_run(5, 24, Vec::new()).unwrap();
        recipe.picture_run(run, Some(name(b"cards")));
        let all = [name(b"rope"), name(b"table"), name(b"cards")];
        assert_eq!(of(&recipe), all.into());
        assert_eq!(of_papers(&recipe), [name(b"rope")].into());
        // They are found in what is kept where no paper has one.
        let (shelf, mut uses) = (shelf(), Uses::default());
        let bare = starters()[0].recipe.clone();
        let (mut stepped, mut logged) = (bare.clone(), bare);
        stepped.photos.extend([step]);
        logged.runs = recipe.runs;
        shelf.put("a", &stepped, 1).unwrap();
        shelf.put("b", &logged, 1).unwrap();
        uses.look_at(&shelf, "a");
        assert_eq!(uses.own(), [name(b"table")].into());
        uses.look_at(&shelf, "b");
        assert_eq!(uses.own(), [name(b"table"), name(b"cards")].into());
    }

    #[test]
    fn recipes_are_read_again_once_they_have_changed() {
        let (shelf, mut uses) = (shelf(), Uses::default());
        let link = version_id("0f");
        shelf.put("a", &with_photo(b"rope"), 1).unwrap();
        shelf.put(&link, &with_photo(b"net"), 1).unwrap();
        shelf.put("b", &starters()[0].recipe, 1).unwrap();
        for id in ["a", "b", &link, "none"] {
            uses.look_at(&shelf, id);
        }
        assert_eq!(uses.own(), [name(b"rope")].into());
        assert_eq!(uses.of_links(), [("0f".to_owned(), name(b"net"))]);
        assert!(uses.are_sure() && uses.has_photos("a") && !uses.has_photos("b"));

        shelf.adopt("a", &with_photo(b"sail"), 2).unwrap();
        uses.look_at(&shelf, "a");
        assert_eq!(uses.own(), [name(b"sail")].into());
        shelf.delete("a");
        uses.look_at(&shelf, "a");
        assert!(uses.own().is_empty());
        uses.keep_only(&["b".to_owned()].into());
        assert!(uses.of_links().is_empty());
    }

    /// What a later Foldwright wrote may use what this one does not see.
    #[test]
    fn nothing_is_sure_while_a_recipe_cannot_be_read() {
        let (shelf, mut uses) = (shelf(), Uses::default());
        for text in [
            "1 1 1\n{\"foldwright\":99,\"recipes\":[{\"photo\":1}]}",
            "\u{0}",
        ] {
            shelf.port().write(&recipe_key("a"), text).unwrap();
            uses.look_at(&shelf, "a");
            assert!(!uses.are_sure(), "{text:?}");
        }
    }
}
