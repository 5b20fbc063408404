//! What a scrap of paper is good for.

mod found;
mod kept;
mod search;

use leptos::prelude::*;

use super::page_title;
use crate::part::{SizeFields, TypedSize};
use crate::spoken::texts;
use crate::store::Store;
use found::Results;
use kept::KeptScraps;
use search::Search;

/// A size goes in, and every recipe comes up that can be cut from it.
#[component]
pub(crate) fn Scrap() -> impl IntoView {
    page_title(|| String::from(texts().begin.from_scrap));
    let store = expect_context::<Store>();
    let typed = TypedSize::default();
    let unit = Signal::derive(move || store.settings().unit());
    let scrap = Memo::new(move |_| typed.size(unit.get()));
    let search = Search::new(store, scrap);
    view! {
        <section class="page scrap">
            <h1>{texts().begin.what_from_this_scrap}</h1>
            <p class="lead">
                {texts().begin.measure_scrap}
            </p>
            <SizeFields typed unit of=texts().begin.the_scrap/>
            <KeptScraps typed scrap/>
            <Results search/>
        </section>
    }
}
