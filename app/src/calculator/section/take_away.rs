//! The card as files to print or for other programs.

use leptos::prelude::*;

use super::files::Files;
use crate::download::{Download, Wanted, usual_paper};
use crate::spoken::language;
use crate::store::Store;

/// All that can be taken away, those first for the maker's own paper.
#[component]
pub(super) fn TakeAway() -> impl IntoView {
    let store = expect_context::<Store>();
    let say = language().printed();
    let choices = Download::all_for(usual_paper(store.settings().unit()));
    let choices = choices.map(|what| {
        let wanted = Wanted::OfRecipe(what);
        (what.label(), Callback::new(move |()| wanted.clone()))
    });
    view! {
        <h2>{say.take_with_you}</h2>
        <p class="quiet">{say.each_a_file}</p>
        <Files choices=choices.collect()/>
    }
}
