//! All recipes as one file.

use foldwright_engine::recipe::{write_part, write_parts};
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::js_sys::Array;

use crate::album::uses;
use crate::notice::Notice;
use crate::part::download_parts;
use crate::spoken::{language, texts};
use crate::store::{ALL_RECIPES, Store};
use crate::turns::Turn;

/// Offers all recipes as a file; gathered in turns, since they may be many.
#[component]
pub(super) fn DownloadAll(class: &'static str) -> impl IntoView {
    let store = expect_context::<Store>();
    let gathered = RwSignal::new(None::<(usize, usize)>);
    let export = move |_| {
        if gathered.get_untracked().is_none() {
            gathered.set(Some((0, 0)));
            spawn_local(async move {
                let (parts, photos) = gather(store, gathered).await;
                download_parts(ALL_RECIPES, &parts);
                if photos {
                    store
                        .notices()
                        .show(Notice::plain(language().album().not_in_files));
                }
                store.backed_up();
                gathered.try_set(None);
            });
        }
    };
    let told = move || match gathered.get() {
        Some((done, all)) if done > 0 => texts().list.gathering(done, all),
        _ => String::new(),
    };
    view! {
        <button type="button" class=class on:click=export>{texts().list.download_all}</button>
        <p class="quiet" role="status">{told}</p>
    }
}

/// The texts that together are the file, and whether any recipe uses photographs.
async fn gather(store: Store, gathered: RwSignal<Option<(usize, usize)>>) -> (Array, bool) {
    let [before, between, after] = write_parts();
    let parts = Array::new();
    let ids = store.ids();
    let mut photos = false;
    let mut turn = Turn::begin();
    let mut next = before.as_str();
    for (done, id) in ids.iter().enumerate() {
        if let Some(recipe) = store.read(id) {
            parts.push(&next.into());
            parts.push(&write_part(&recipe).into());
            next = &between;
            photos |= !uses::of(&recipe).is_empty();
        }
        if turn.is_over() {
            gathered.try_set(Some((done, ids.len())));
            turn.or_next().await;
        }
    }
    if parts.length() == 0 {
        parts.push(&next.into());
    }
    parts.push(&after.into());
    (parts, photos)
}
