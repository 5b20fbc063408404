//! Taking in recipes from a file.

use foldwright_engine::recipe;
use leptos::prelude::untrack;

use crate::notice::Notice;
use crate::store::{Salvaged, Store, file_in, opened, salvage};
use crate::sync::Syncing;

/// Keeps what a file holds, and says what came of it. Recipes that are here
/// already, to the last detail, are not added again; a file of everything is
/// merged with what is here.
pub(crate) fn take_in(
    store: Store,
    syncing: Option<Syncing>,
    file: &str,
    text: Option<&str>,
) -> Notice {
    let warn = |what: &str| Notice::warning("import", format!("{file}: {what}"));
    let Some(text) = text else {
        return warn("The browser could not read this file. Choose it again.");
    };
    if let Some(changed) = syncing.and_then(|syncing| syncing.take_everything(text)) {
        return Notice::plain(match changed {
            0 => String::from("Everything in this file is here already."),
            changed => format!("{} came from this file.", count(changed)),
        });
    }
    let recipes = match recipe::read(file_in(text)) {
        Ok(recipes) if recipes.is_empty() => return warn("There is no recipe in this file."),
        Ok(recipes) => recipes,
        Err(why) => {
            let salvaged = salvage(text);
            let notice = warn(&why.to_string());
            return if salvaged.is_empty() {
                notice
            } else {
                notice.with("Add what can be read", move || {
                    add_salvaged(store, &salvaged);
                })
            };
        }
    };
    let here = untrack(move || store.recipes());
    let (known, new): (Vec<_>, Vec<_>) = recipes
        .into_iter()
        .partition(|recipe| here.iter().any(|(_, record)| record.recipe == *recipe));
    if let Err(room) = store.put_all(&new) {
        return warn(&format!(
            "Nothing was added: there is room for {} of {} in this browser. Delete recipes you \
             no longer need, or add them a few at a time.",
            room,
            count(new.len())
        ));
    }
    Notice::plain(match (new.len(), known.len()) {
        (added, 0) => format!("Added {}.", count(added)),
        (0, known) => format!("{} here already; nothing was added.", were(known)),
        (added, known) => format!("Added {}; {} here already.", count(added), were(known)),
    })
}

/// Keeps what could be read of a file's recipes, and says what could not.
fn add_salvaged(store: Store, salvaged: &[Salvaged]) {
    let recipes: Vec<_> = salvaged.iter().map(|it| it.recipe.clone()).collect();
    let told = match store.put_all(&recipes) {
        Ok(()) => salvaged.iter().map(opened).collect::<Vec<_>>().join(" "),
        Err(_) => String::from("Nothing was added, since this browser's storage is full."),
    };
    store.notices().show(Notice::warning("salvaged", told));
}

fn count(count: usize) -> String {
    match count {
        1 => String::from("1 recipe"),
        more => format!("{more} recipes"),
    }
}

fn were(count: usize) -> String {
    match count {
        1 => String::from("1 recipe is"),
        more => format!("{more} recipes are"),
    }
}
