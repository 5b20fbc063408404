//! An address where nothing is.

use leptos::prelude::*;

use super::page_title;
use crate::fetched::Fetching;
use crate::spoken::first;

/// Says that nothing is here, and where to go.
#[component]
pub(crate) fn Missing() -> impl IntoView {
    page_title(|| first().nothing_here.to_owned());
    expect_context::<Fetching>().show();
    view! {
        <section class="page message">
            <h1>{first().nothing_here}</h1>
            <p>{first().no_page_here}</p>
            <a class="button primary" href="/">{first().to_recipes}</a>
        </section>
    }
}
