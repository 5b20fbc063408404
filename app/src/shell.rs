//! The frame around every page.

use leptos::either::Either;
use leptos::prelude::*;
use leptos_router::components::{A, Route, Router, Routes};
use leptos_router::hooks::use_location;
use leptos_router::path;
use web_sys::HtmlElement;
use web_sys::wasm_bindgen::JsCast as _;

use crate::fetched::{Fetched, Fetching};
use crate::notice::{NoticeBoard, Notices};
use crate::page::{Missing, Start};
use crate::part::{Icon, Mark, Symbol};
use crate::release::NewRelease;
use crate::store::Store;
use crate::sync::{Status, was_paired};
use crate::typing::keep_unfinished;

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    let notices = Notices::new();
    provide_context(notices);
    let store = Store::new(notices);
    provide_context(store);
    provide_context(Fetching::new(store));
    keep_unfinished();
    view! {
        <Router>
            <Frame/>
        </Router>
    }
}

#[component]
fn Frame() -> impl IntoView {
    let place = use_location().pathname;
    let fetching = expect_context::<Fetching>();
    let ready = move || fetching.has_shown().then_some("true");
    let at_bench = Memo::new(move |_| place.with(|place| place.starts_with("/bench/")));
    move_focus(place);
    view! {
        <div class="frame" class:at-bench=at_bench>
            <a class="skip" href="#main" rel="external" on:click=move |event| {
                // The router would take it for another page.
                event.prevent_default();
                focus("main");
            }>"Skip to the page"</a>
            <header class="top">
                <A href="/" attr:class="wordmark">
                    <Mark/>
                    "Foldwright"
                </A>
                <StatusLink/>
                <Menu/>
            </header>
            <main id="main" tabindex="-1" data-ready=ready>
                <Routes fallback=|| view! { <Missing/> }>
                    <Route path=path!("/") view=Home/>
                    <Route path=path!("/new") view=|| view! { <Fetched page=|pages| pages.new/> }/>
                    <Route path=path!("/recipe/:id") view=|| view! { <Fetched page=|pages| pages.recipe/> }/>
                    <Route path=path!("/bench/:id") view=|| view! { <Fetched page=|pages| pages.bench/> }/>
                    <Route path=path!("/list") view=|| view! { <Fetched page=|pages| pages.list/> }/>
                    <Route path=path!("/scrap") view=|| view! { <Fetched page=|pages| pages.scrap/> }/>
                    <Route path=path!("/shared/:token") view=|| view! { <Fetched page=|pages| pages.shared/> }/>
                    <Route path=path!("/earlier/:id") view=|| view! { <Fetched page=|pages| pages.earlier/> }/>
                    <Route path=path!("/paper") view=|| view! { <Fetched page=|pages| pages.paper/> }/>
                    <Route path=path!("/devices") view=|| view! { <Fetched page=|pages| pages.devices/> }/>
                    <Route path=path!("/settings") view=|| view! { <Fetched page=|pages| pages.settings/> }/>
                </Routes>
            </main>
            <div class="at-edge">
                <NewRelease busy=at_bench/>
                <NoticeBoard/>
            </div>
        </div>
    }
}

/// The recipes, or how to come to the first.
#[component]
fn Home() -> impl IntoView {
    let store = expect_context::<Store>();
    let fetching = expect_context::<Fetching>();
    let any = Memo::new(move |_| store.has_recipes());
    move || {
        if any.get() {
            Either::Left(view! { <Fetched page=|pages| pages.recipes/> })
        } else {
            if store.member().is_some() || was_paired() {
                // Recipes of other devices may be on their way.
                fetching.begin();
            }
            Either::Right(view! { <Start/> })
        }
    }
}

/// How far what is kept here has come, on the way to the devices.
#[component]
fn StatusLink() -> impl IntoView {
    let store = expect_context::<Store>();
    let words = move || store.status().to_string();
    view! {
        <Show when=move || store.status() != Status::Alone>
            <a class="status-link" href="/devices" data-status=move || store.status().word()>
                <span role="status">{words}</span>
            </a>
        </Show>
    }
}

/// The places one can always go to: at the foot of a phone, where a thumb
/// reaches, and at the head of larger screens.
#[component]
fn Menu() -> impl IntoView {
    view! {
        <nav class="menu" aria-label="Main">
            <A href="/" exact=true><Icon symbol=Symbol::Recipes/>"Recipes"</A>
            <A href="/new"><Icon symbol=Symbol::Add/>"New"</A>
            <A href="/settings"><Icon symbol=Symbol::Settings/>"Settings"</A>
        </nav>
    }
}

/// After each change of place the heading of the new page takes the focus, so
/// that a screen reader reads it. The first page is left as the browser shows
/// it.
fn move_focus(place: Memo<String>) {
    Effect::new(move |before: Option<String>| {
        let now = place.get();
        if before.is_some_and(|before| before != now) {
            request_animation_frame(announce_page);
        }
        now
    });
}

/// Gives the page's heading the focus.
pub(crate) fn announce_page() {
    focus("main h1");
}

fn focus(what: &str) {
    let found = document().query_selector(what).ok().flatten();
    if let Some(element) = found.and_then(|found| found.dyn_into::<HtmlElement>().ok()) {
        element.set_tab_index(-1);
        // Fails only for an element that is no longer in the page.
        let _ = element.focus();
    }
}
