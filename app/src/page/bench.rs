//! One recipe, at the bench.

use leptos::either::Either;
use leptos::prelude::*;

use super::one_recipe::CannotOpen;
use super::{page_title, recipe_in_address};
use crate::bench::Bench;
use crate::spoken::texts;
use crate::store::Store;

/// The recipe that the address names, step by step.
#[component]
pub(crate) fn AtBench() -> impl IntoView {
    let store = expect_context::<Store>();
    let id = recipe_in_address();
    move || {
        let id = id.get();
        match store.open(&id) {
            Ok(open) => {
                provide_context(open.history);
                page_title(move || {
                    open.recipe
                        .with(|recipe| texts().bench.at_the_bench(&recipe.name))
                });
                Either::Left(view! { <Bench recipe=open.recipe id/> })
            }
            Err(why) => {
                // It may come from elsewhere yet.
                store.track_recipes();
                Either::Right(view! { <CannotOpen why/> })
            }
        }
    }
}
