//! What is told of a document of which there is more than can be sent.

use foldwright_document::pieces::LARGEST;

use super::name::{self, About};
use crate::spoken::texts;
use crate::store::Store;

/// What is only here, and what to do, in sentences; `None` where the recipe it
/// belongs to is gone.
pub(crate) fn words(store: Store, name: &str) -> Option<String> {
    let texts = &texts().devices;
    let most = LARGEST / 1_000_000;
    let named = |id: &str| store.read(id).map(|recipe| recipe.name);
    if let About::Recipe(id) = name::about(name) {
        return Some(texts.too_large(&named(id)?, most));
    }
    let id = name::recipe_of_past(name)?;
    Some(texts.past_too_large(&named(id)?, most))
}
