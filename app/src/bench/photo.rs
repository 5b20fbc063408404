//! The maker's own photograph beside a step.

use foldwright_engine::paper::PhotoId;
use foldwright_engine::recipe::Recipe;
use foldwright_engine::steps::StepKey;
use leptos::prelude::*;

use super::table::Table;
use crate::notice::{Notice, Notices};
use crate::part::OwnPhoto;
use crate::spoken::{first, language};

/// The photograph of the step at this place, and how one comes there. It is named in
/// the recipe as a note is.
#[component]
pub(super) fn StepPhoto(
    /// The step's lasting name, by whose text photographs are named.
    key: Memo<Option<StepKey>>,
) -> impl IntoView {
    let table = Table::here();
    let notices = expect_context::<Notices>();
    let texts = language().pictures();
    let photo = Memo::new(move |_| {
        let key = key.get()?.to_string();
        table.recipe.with(|recipe| recipe.photos.get(&key).copied())
    });
    let put = Callback::new(move |new: Option<PhotoId>| {
        let Some(key) = key.get_untracked() else {
            return;
        };
        let key = key.to_string();
        let before = photo.get_untracked();
        table.history.edit(|recipe| set(recipe, &key, new));
        if before.is_some() {
            let words = match new {
                Some(_) => texts.is_another,
                None => texts.is_off,
            };
            let undo = table.later(move |recipe| {
                // Another may have come meanwhile, which stays.
                if recipe.photos.get(&key).copied() == new {
                    set(recipe, &key, before);
                }
            });
            notices.show(Notice::plain(words).with(first().undo, undo));
        }
    });
    view! { <OwnPhoto label=texts.of_step about=texts.about_step photo put/> }
}

fn set(recipe: &mut Recipe, step: &str, photo: Option<PhotoId>) {
    match photo {
        Some(photo) => drop(recipe.photos.insert(step.to_owned(), photo)),
        None => drop(recipe.photos.remove(step)),
    }
}
