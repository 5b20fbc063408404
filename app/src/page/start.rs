//! The list of recipes before there is one.

use leptos::prelude::*;

use super::forgets::Forgets;
use super::from_file::FromFile;
use super::page_title;
use crate::fetched::Fetching;
use crate::spoken::first;

/// What a recipe is, and the two ways to the first one.
#[component]
pub(crate) fn Start() -> impl IntoView {
    page_title(|| first().recipes.to_owned());
    expect_context::<Fetching>().show();
    view! {
        <section class="page recipes">
            <div class="page-head">
                <h1>{first().recipes}</h1>
            </div>
            <Forgets/>
            <div class="empty">
                <svg class="empty-figure" viewBox="0 0 240 120" aria-hidden="true" focusable="false">
                    <path class="sheet-far" d="M20 34l50-18v70l-50 18z"></path>
                    <path class="sheet-near" d="M70 16l50 18v70l-50-18z"></path>
                    <path class="sheet-far" d="M120 34l50-18v70l-50 18z"></path>
                    <path class="sheet-near" d="M170 16l50 18v70l-50-18z"></path>
                    <path class="valley" d="M70 16v70M170 16v70"></path>
                    <path class="mountain" d="M120 34v70"></path>
                </svg>
                <p>{first().a_recipe_is}</p>
                <a class="button primary" href="/new">{first().choose_fold}</a>
            </div>
            <footer class="page-foot">
                <a class="button quiet" href="/list">{first().type_measurements}</a>
                <a class="button quiet" href="/scrap">{first().from_scrap}</a>
                <FromFile/>
            </footer>
        </section>
    }
}
