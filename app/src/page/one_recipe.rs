//! One recipe, in the calculator.

use leptos::either::Either;
use leptos::prelude::*;

use super::{page_title, recipe_in_address};
use crate::calculator::Calculator;
use crate::store::{NotLoaded, Store};

/// The recipe that the address names.
#[component]
pub(crate) fn OneRecipe() -> impl IntoView {
    let store = expect_context::<Store>();
    let id = recipe_in_address();
    move || {
        let id = id.get();
        match store.open(&id) {
            Ok(open) => {
                provide_context(open.history);
                page_title(move || open.recipe.with(|recipe| recipe.name.clone()));
                Either::Left(view! { <Calculator recipe=open.recipe id/> })
            }
            Err(why) => Either::Right(view! { <CannotOpen why/> }),
        }
    }
}

/// Why a recipe can't be shown.
#[component]
pub(super) fn CannotOpen(why: NotLoaded) -> impl IntoView {
    page_title(|| String::from("No recipe"));
    let (title, text) = match why {
        NotLoaded::Missing => (
            "No such recipe",
            "This browser keeps no recipe at this address. It may have been deleted, or made in \
             another browser.",
        ),
        NotLoaded::Newer => (
            "Saved by a newer Foldwright",
            "This recipe was saved by a newer Foldwright and stays untouched. Close all \
             Foldwright tabs and open it again to get the newer one.",
        ),
        NotLoaded::Broken(_) => (
            "This recipe can't be read",
            "What this browser kept is damaged. Nothing of it was deleted; the settings list \
             what was set aside.",
        ),
    };
    view! {
        <section class="page message">
            <h1>{title}</h1>
            <p>{text}</p>
            <a class="button primary" href="/">"To the recipes"</a>
        </section>
    }
}
