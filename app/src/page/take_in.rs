//! Taking in recipes from a file.

use foldwright_engine::recipe;
use leptos::prelude::untrack;

use crate::notice::Notice;
use crate::store::Store;

/// Keeps what a file holds, and says what came of it. Recipes that are here
/// already, to the last detail, are not added again.
pub(crate) fn take_in(store: Store, file: &str, text: Option<&str>) -> Notice {
    let warn = |what: &str| Notice::warning("import", format!("{file}: {what}"));
    let Some(text) = text else {
        return warn("The browser could not read this file. Choose it again.");
    };
    let recipes = match recipe::read(text) {
        Ok(recipes) if recipes.is_empty() => return warn("There is no recipe in this file."),
        Ok(recipes) => recipes,
        Err(why) => return warn(&why.to_string()),
    };
    let here = untrack(move || store.recipes());
    let (known, new): (Vec<_>, Vec<_>) = recipes
        .into_iter()
        .partition(|recipe| here.iter().any(|(_, record)| record.recipe == *recipe));
    let count = |count: usize| match count {
        1 => String::from("1 recipe"),
        more => format!("{more} recipes"),
    };
    let added = new
        .iter()
        .take_while(|recipe| store.put(recipe).is_some())
        .count();
    if added < new.len() {
        return warn(&format!(
            "Only {} of {} could be added, since this browser's storage is full.",
            added,
            new.len()
        ));
    }
    Notice::plain(match (added, known.len()) {
        (added, 0) => format!("Added {}.", count(added)),
        (0, known) => format!("{} here already; nothing was added.", were(known)),
        (added, known) => format!("Added {}; {} here already.", count(added), were(known)),
    })
}

fn were(count: usize) -> String {
    match count {
        1 => String::from("1 recipe is"),
        more => format!("{more} recipes are"),
    }
}
