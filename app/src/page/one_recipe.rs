//! One recipe, in the calculator.

use leptos::either::Either;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use super::set_aside::SetAside;
use super::{page_title, recipe_in_address};
use crate::calculator::Calculator;
use crate::spoken::{first, texts};
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
            Err(why) => {
                // It may come from elsewhere yet.
                store.track_recipes();
                Either::Right(view! { <CannotOpen why/> })
            }
        }
    }
}

/// Why a recipe can't be shown, and what can be done about it.
#[component]
pub(super) fn CannotOpen(why: NotLoaded) -> impl IntoView {
    page_title(|| String::from(texts().keep.no_recipe));
    let navigate = use_navigate();
    let (title, text) = match &why {
        NotLoaded::Missing => (texts().keep.no_such_recipe, texts().keep.not_at_address),
        NotLoaded::Newer => (texts().keep.by_a_newer, texts().keep.saved_by_newer),
        NotLoaded::Broken(_) => (texts().keep.not_whole, texts().keep.is_damaged),
    };
    let recovered = Callback::new(move |id: String| {
        // By way of the list: the address may be the one this page has.
        navigate("/", NavigateOptions::default());
        navigate(&format!("/recipe/{id}"), NavigateOptions::default());
    });
    let aside = match why {
        NotLoaded::Broken(aside) => aside,
        NotLoaded::Missing | NotLoaded::Newer => None,
    };
    view! {
        <section class="page message">
            <h1>{title}</h1>
            <p>{text}</p>
            {aside.map(|aside| view! { <SetAside aside recovered/> })}
            <a class="button primary" href="/">{first().to_recipes}</a>
        </section>
    }
}
