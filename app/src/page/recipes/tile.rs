//! One recipe in the list.

use leptos::prelude::*;

use crate::album;
use crate::part::{Icon, Small, Symbol, heard, worked_out};
use crate::spoken::texts;
use crate::store::Store;

/// A recipe of the list; nothing where it can't be read, which is then said.
#[component]
pub(super) fn Tile(id: String, chosen: RwSignal<Option<(String, String)>>) -> impl IntoView {
    let store = expect_context::<Store>();
    let recipe = store.read(&id)?;
    let card = worked_out(&recipe, store.settings().tools());
    let notation = recipe.notation;
    let size = move || {
        card.with(|card| match card {
            None => String::from("\u{a0}"),
            Some(card) if card.folded.is_none() => texts().list.not_flat_yet.to_owned(),
            Some(card) => notation.size(card.finished.width, card.finished.height),
        })
    };
    let name = recipe.name.clone();
    let shown = name.clone();
    let label = texts().list.more_for(&name);
    let address = format!("/recipe/{id}");
    let figure = format!("m{id}");
    let picture = recipe.last_picture();
    // The drawing stays beside it, and alone while the photograph is not here.
    let picture = Memo::new(move |_| picture.and_then(album::address));
    let photograph = move || {
        let from = picture.get();
        from.map(|from| view! { <img class="tile-photo" src=from alt="" loading="lazy" decoding="async"/> })
    };
    Some(view! {
        <li class="tile">
            <a class="tile-link" href=address>
                <span class="tile-figure" class:pictured=move || picture.with(Option::is_some)>
                    {photograph}
                    <Small recipe card name=figure/>
                </span>
                <span class="tile-text">
                    <span class="tile-name">{shown}</span>
                    <span class="tile-size">{move || heard(size())}</span>
                </span>
            </a>
            <button
                class="button icon tile-more"
                aria-label=label
                aria-haspopup="dialog"
                on:click=move |_| chosen.set(Some((id.clone(), name.clone())))
            >
                <Icon symbol=Symbol::More/>
            </button>
        </li>
    })
}
