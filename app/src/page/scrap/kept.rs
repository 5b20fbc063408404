//! The scraps that are kept to choose from.

use foldwright_engine::plane::Size;
use leptos::prelude::*;

use crate::notice::{Notice, Notices};
use crate::part::{Icon, Symbol, TypedSize, heard};
use crate::spoken::{aloud, first, texts};
use crate::store::{MOST_SCRAPS, Store};

/// The list, and the button that adds what is typed.
#[component]
pub(super) fn KeptScraps(
    /// The fields a choice goes into.
    typed: TypedSize,
    /// What they say.
    scrap: Memo<Option<Size>>,
) -> impl IntoView {
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let kept = RwSignal::new(store.scraps());
    let set = move |scraps: Vec<Size>| {
        store.set_scraps(&scraps);
        kept.set(scraps);
    };
    let new = move || {
        let scrap = scrap.get()?;
        kept.with(|kept| !kept.contains(&scrap)).then_some(scrap)
    };
    let add = move |_| {
        if let Some(scrap) = untrack(new) {
            let mut scraps = kept.get_untracked();
            scraps.insert(0, scrap);
            scraps.truncate(MOST_SCRAPS);
            set(scraps);
        }
    };
    let remove = move |size: Size| {
        let before = kept.get_untracked();
        let mut scraps = before.clone();
        scraps.retain(|other| *other != size);
        set(scraps);
        notices.show(
            Notice::plain(texts().begin.scrap_off_list).with(first().undo, move || {
                store.set_scraps(&before);
                // The page may have been left meanwhile.
                let _ = kept.try_set(before.clone());
            }),
        );
    };
    let words = move |size: Size| store.settings().notation.size(size.width, size.height);
    let one = move |size: Size| {
        let chosen = move || scrap.get() == Some(size);
        view! {
            <li class="kept-scrap">
                <button
                    type="button"
                    class="kept-scrap-size"
                    aria-pressed=move || if chosen() { "true" } else { "false" }
                    on:click=move |_| typed.set(size, store.settings().notation)
                >
                    {move || heard(words(size))}
                </button>
                <button
                    type="button"
                    class="button icon"
                    aria-label=move || aloud(&texts().begin.take_off_list(&words(size)))
                    on:click=move |_| remove(size)
                >
                    <Icon symbol=Symbol::Close/>
                </button>
            </li>
        }
    };
    view! {
        <div class="kept-scraps">
            <Show when=move || kept.with(|kept| !kept.is_empty())>
                <h2>{texts().begin.scraps_on_hand}</h2>
                <ul>
                    <For each=move || kept.get() key=|size| *size children=one/>
                </ul>
            </Show>
            <Show when=move || new().is_some()>
                <button type="button" class="button" on:click=add>
                    <Icon symbol=Symbol::Add/>
                    {texts().begin.put_on_list}
                </button>
            </Show>
        </div>
    }
}
