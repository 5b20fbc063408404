//! What was deleted and can be brought back.

use leptos::prelude::*;

use super::ago;
use crate::notice::{Notice, Notices};
use crate::spoken::texts;
use crate::store::now;
use crate::sync::{Deleted, Syncing};

/// The recipes deleted in the last thirty days.
#[component]
pub(super) fn RecentlyDeleted() -> impl IntoView {
    let syncing = expect_context::<Syncing>();
    let deleted = Memo::new(move |_| syncing.deleted());
    view! {
        <Show when=move || deleted.with(|deleted| !deleted.is_empty())>
            <section class="group">
                <h2>{texts().devices.deleted}</h2>
                <p class="quiet">{texts().devices.brought_back_for}</p>
                <ul class="rows">
                    <For
                        each=move || deleted.get()
                        key=|deleted| (deleted.id.clone(), deleted.at)
                        children=|deleted| view! { <OneDeleted deleted/> }
                    />
                </ul>
            </section>
        </Show>
    }
}

#[component]
fn OneDeleted(deleted: Deleted) -> impl IntoView {
    let syncing = expect_context::<Syncing>();
    let notices = expect_context::<Notices>();
    let seconds = i64::try_from(now().saturating_sub(deleted.at) / 1000).unwrap_or(i64::MAX);
    let label = texts().devices.bring_back_this(&deleted.title);
    let title = deleted.title.clone();
    let bring = move |_| {
        syncing.bring_back(&deleted.id);
        notices.show(
            Notice::plain(texts().devices.is_back(&deleted.title))
                .with_link(texts().devices.open_it, format!("/recipe/{}", deleted.id)),
        );
    };
    view! {
        <li class="deleted">
            <span class="deleted-name">
                <span>{title}</span>
                <span class="quiet">{ago(seconds)}</span>
            </span>
            <button class="button" aria-label=label on:click=bring>{texts().devices.bring_back}</button>
        </li>
    }
}
