//! An address where nothing is.

use leptos::prelude::*;

use super::page_title;
use crate::fetched::Fetching;

/// Says that nothing is here, and where to go.
#[component]
pub(crate) fn Missing() -> impl IntoView {
    page_title(|| String::from("Nothing here"));
    expect_context::<Fetching>().show();
    view! {
        <section class="page message">
            <h1>"Nothing here"</h1>
            <p>"This address leads to no page of Foldwright."</p>
            <a class="button primary" href="/">"To the recipes"</a>
        </section>
    }
}
