//! All recipes.

mod listing;
mod more;
mod tile;

use leptos::prelude::*;
use web_sys::HtmlElement;
use web_sys::wasm_bindgen::JsCast as _;

use super::download_all::DownloadAll;
use super::forgets::{Forgets, Nudge, Room};
use super::from_file::FromFile;
use super::page_title;
use crate::part::{Icon, Symbol};
use crate::spoken::{first, texts};
use crate::store::{Store, recipe_id};
use listing::Listing;
use more::More;
use tile::Tile;

/// From so many recipes on, a search field helps more than it stands in the
/// way. Our own bound: about a phone screen of them.
const MANY: usize = 5;

/// The list of recipes.
#[component]
pub(crate) fn Recipes() -> impl IntoView {
    page_title(|| first().recipes.to_owned());
    let texts = &texts().list;
    let store = expect_context::<Store>();
    let listing = Listing::new(store);
    let sought = listing.sought;
    let chosen = RwSignal::new(None::<(String, String)>);
    let more = move |_| {
        let before = listing.show_more();
        // The button has gone down the page, or away: the first of the new ones
        // is where reading goes on.
        request_animation_frame(move || focus_tile(before + 1));
    };
    view! {
        <section class="page recipes">
            <div class="page-head">
                <h1>{first().recipes}</h1>
                <a class="button primary wide-only" href="/new">
                    <Icon symbol=Symbol::Add/>
                    {texts.new_recipe}
                </a>
            </div>
            <Forgets/>
            <Nudge/>
            <Room/>
            <Show when=move || { listing.count() > 0 }>
                <Show when=move || { listing.count() >= MANY }>
                    <label class="field search">
                        <span class="visually-hidden">{texts.search_recipes}</span>
                        <Icon symbol=Symbol::Search/>
                        <input
                            type="search"
                            placeholder=texts.search
                            data-unfinished="submit"
                            prop:value=sought
                            on:input:target=move |event| sought.set(event.target().value())
                        />
                    </label>
                </Show>
                <ul class="tiles">
                    <For
                        each=move || listing.shown()
                        key=|listed| (listed.id.clone(), listed.stamp)
                        children=move |listed| view! { <Tile id=listed.id chosen/> }
                    />
                </ul>
                <p class="quiet" role="status">{move || listing.told()}</p>
                <Show when=move || listing.has_more()>
                    <button type="button" class="button" on:click=more>{texts.show_more}</button>
                </Show>
            </Show>
            <NotWhole/>
            <footer class="page-foot">
                <a class="button quiet" href="/list">{first().type_measurements}</a>
                <a class="button quiet" href="/scrap">{first().from_scrap}</a>
                <a class="button quiet" href="/paper">{texts.paper_on_hand}</a>
                <FromFile/>
                <Show when=move || { listing.count() > 0 }>
                    <DownloadAll class="button quiet"/>
                </Show>
            </footer>
            <More chosen/>
        </section>
    }
}

/// Gives the tile at a place, counted from 1, the focus.
fn focus_tile(place: usize) {
    let link = format!(".tiles > :nth-child({place}) .tile-link");
    let found = document().query_selector(&link).ok().flatten();
    if let Some(link) = found.and_then(|found| found.dyn_into::<HtmlElement>().ok()) {
        // Fails only for an element that is no longer in the page.
        let _ = link.focus();
    }
}

/// The recipes that can't be read whole.
#[component]
fn NotWhole() -> impl IntoView {
    let store = expect_context::<Store>();
    let calm = store.calm();
    let asides = Memo::new(move |_| {
        calm.track();
        let mut asides = untrack(|| store.asides());
        asides.retain(|aside| recipe_id(aside.name()).is_some());
        asides
    });
    view! {
        <ul class="rows">
            <For
                each=move || asides.get()
                key=|aside| aside.key.clone()
                children=|aside| {
                    let texts = &texts().list;
                    let title = aside.title().map(|title| texts.quoted(&title));
                    let title = title.unwrap_or_else(|| texts.a_recipe.to_owned());
                    view! {
                        <li>
                            <a class="row" href="/settings">{texts.not_whole(&title)}</a>
                        </li>
                    }
                }
            />
        </ul>
    }
}
