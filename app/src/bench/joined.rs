//! What is said before a step that came out another way when a recipe was
//! brought together of changes made in several places.

use leptos::html;
use leptos::prelude::*;

use super::table::Table;
use crate::part::{Followed, told};
use crate::spoken::texts;
use crate::store::Store;

/// What was decided where and what became of it, and the way on.
#[component]
pub(super) fn Joined() -> impl IntoView {
    let table = Table::here();
    let heading = NodeRef::<html::H1>::new();
    heading.on_load(|heading| {
        request_animation_frame(move || {
            // Fails only for an element that is no longer in the page.
            let _ = heading.focus();
        });
    });
    let store = expect_context::<Store>();
    Effect::new(move || {
        table.joined.track();
        store.leave_joined_to_page();
    });
    let lines = move || {
        table.joined.with(|joined| {
            let lines = joined
                .iter()
                .flat_map(|joined| joined.decided.iter().cloned().chain(joined.outcome()));
            lines
                .map(|line| view! { <li>{told(line)}</li> })
                .collect_view()
        })
    };
    let followed = move || {
        let joined = table.joined.get();
        let lines = joined.map(|joined| joined.followed.into_values().collect());
        view! { <Followed lines=lines.unwrap_or_default()/> }
    };
    view! {
        <section class="stopped">
            <h1 node_ref=heading tabindex="-1">{texts().bench.look_first}</h1>
            <p>
                {texts().bench.joined}
            </p>
            <ul class="stops">{lines}</ul>
            {followed}
            <div class="stopped-ways">
                <button type="button" class="button primary bench-way" on:click=move |_| table.look()>
                    {texts().bench.looked_go_on}
                </button>
                <a class="button bench-way" href=table.recipe_address()>{texts().bench.open_recipe}</a>
            </div>
        </section>
    }
}
