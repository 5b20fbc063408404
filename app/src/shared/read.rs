//! The recipe in what a link opens.

#[cfg(feature = "ssr")]
use std::collections::BTreeSet;

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use foldwright_api::Shared;
use foldwright_document::Document;
#[cfg(feature = "ssr")]
use foldwright_engine::paper::PhotoId;
use foldwright_engine::recipe::Recipe;

#[cfg(feature = "ssr")]
use crate::album::uses;
use crate::sync::merged::{self, NoRecipe};

/// Why what a link opens can't be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Unreadable {
    /// A later Foldwright wrote it.
    Newer,
    /// It holds no recipe.
    Nothing,
}

/// The recipe that is shared.
pub(crate) fn recipe(shared: &Shared) -> Result<Recipe, Unreadable> {
    let bytes = BASE64_STANDARD.decode(&shared.document);
    let bytes = bytes.map_err(|_| Unreadable::Nothing)?;
    // It is only read, so that its writer needs no number of its own.
    let document = Document::open(0, &bytes).map_err(|_| Unreadable::Nothing)?;
    match merged::recipe(&document) {
        Ok(merged) => {
            let mut recipe = merged.recipe;
            // The log is its maker's.
            recipe.runs.clear();
            Ok(recipe)
        }
        Err(NoRecipe::Newer) => Err(Unreadable::Newer),
        Err(NoRecipe::Empty | NoRecipe::Unsound) => Err(Unreadable::Nothing),
    }
}

/// The photographs that what a link opens shows, and so lets whoever has the link see.
#[cfg(feature = "ssr")]
pub fn photos(shared: &Shared) -> BTreeSet<PhotoId> {
    recipe(shared).map_or_else(|_| BTreeSet::new(), |recipe| uses::of(&recipe))
}

#[cfg(test)]
mod tests {
    use base64::Engine as _;
    use base64::prelude::BASE64_STANDARD;
    use foldwright_api::Shared;
    use foldwright_document::Document;
    use foldwright_engine::recipe::starters;
    use serde_json::Value;

    use super::{Unreadable, recipe};
    use crate::album::name;
    use crate::sync::merged::object;

    fn shared(value: &Value) -> Shared {
        let mut document = Document::new(7);
        let _ = document.write(&Value::Null, value);
        Shared {
            document: BASE64_STANDARD.encode(document.bytes()),
            from: String::new(),
        }
    }

    #[test]
    fn a_shared_recipe_comes_as_it_is() {
        for starter in starters() {
            let it = shared(&object(&starter.recipe));
            assert_eq!(recipe(&it), Ok(starter.recipe.clone()));
        }
    }

    /// What stands beside the steps is for its readers; the log is not.
    #[test]
    fn the_log_is_not_shared() {
        let mut own = starters()[0].recipe.clone();
        let [step, cards] = [b"step ", b"cards"].map(|file| name(file));
        own.photos.insert("gather".to_owned(), step);
        let run = own.finish_run(5, 24, Vec::new()).expect("there is room");
        own.picture_run(run, Some(cards));
        let it = shared(&object(&own));
        own.runs.clear();
        assert_eq!(recipe(&it), Ok(own));
        #[cfg(feature = "ssr")]
        assert_eq!(super::photos(&it), [step].into());
    }

    #[test]
    fn what_is_no_recipe_is_told_apart() {
        let later = serde_json::json!({ "format": 99, "name": "Quay" });
        assert_eq!(recipe(&shared(&later)), Err(Unreadable::Newer));
        let other = serde_json::json!({ "name": "Quay" });
        assert_eq!(recipe(&shared(&other)), Err(Unreadable::Nothing));
        for document in ["", "AAA=", "no base64"] {
            let it = Shared {
                document: document.to_owned(),
                from: String::new(),
            };
            assert_eq!(recipe(&it), Err(Unreadable::Nothing), "{document}");
        }
    }
}
