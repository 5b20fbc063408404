//! The list of recipes before there is one.

use leptos::prelude::*;

use super::forgets::Forgets;
use super::from_file::FromFile;
use super::page_title;
use crate::fetched::Fetching;

/// What a recipe is, and the two ways to the first one.
#[component]
pub(crate) fn Start() -> impl IntoView {
    page_title(|| String::from("Recipes"));
    expect_context::<Fetching>().show();
    view! {
        <section class="page recipes">
            <div class="page-head">
                <h1>"Recipes"</h1>
            </div>
            <Forgets/>
            <div class="empty">
                <svg class="empty-figure" viewBox="0 0 240 120" aria-hidden="true" focusable="false">
                    <path class="sheet-far" d="M20 34l50-18v70l-50 18z"></path>
                    <path class="sheet-near" d="M70 16l50 18v70l-50-18z"></path>
                    <path class="sheet-far" d="M120 34l50-18v70l-50 18z"></path>
                    <path class="sheet-near" d="M170 16l50 18v70l-50-18z"></path>
                    <path class="sheet-crease" d="M70 16v70M120 34v70M170 16v70"></path>
                </svg>
                <p>
                    "A recipe is one card: its fold, its papers and its measures, kept in this \
                     browser and worked out as you change it."
                </p>
                <a class="button primary" href="/new">"Choose a fold"</a>
            </div>
            <footer class="page-foot">
                <a class="button quiet" href="/list">"Type in measures you have"</a>
                <a class="button quiet" href="/scrap">"What can I make from a scrap?"</a>
                <FromFile/>
            </footer>
        </section>
    }
}
