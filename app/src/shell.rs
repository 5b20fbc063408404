//! The frame around every page.

use leptos::either::Either;
use leptos::prelude::*;
use leptos_router::components::{A, Route, Router, Routes};
use leptos_router::hooks::use_location;
use leptos_router::path;
use web_sys::HtmlElement;
use web_sys::wasm_bindgen::JsCast as _;

use crate::fetched::{Fetched, Fetching, Place};
use crate::notice::{NoticeBoard, Notices};
use crate::page::{ImportProgress, Importing, Missing, Start};
use crate::part::{Icon, Mark, Symbol};
use crate::release::NewRelease;
use crate::spoken::first;
use crate::store::Store;
use crate::sync::{Status, was_paired};

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    let notices = Notices::new();
    provide_context(notices);
    let store = Store::new(notices);
    provide_context(store);
    let fetching = Fetching::new(store);
    provide_context(fetching);
    provide_context(Importing::new());
    fetching.follow_language();
    view! {
        <Router>
            {move || {
                // All that is shown is said anew.
                fetching.track_language();
                view! { <Frame/> }
            }}
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
            }>{first().skip_to_page}</a>
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
                    <Route path=path!("/") view=HOME/>
                    <Route path=path!("/new") view=at(Place::New)/>
                    <Route path=path!("/recipe/:id") view=at(Place::Recipe)/>
                    <Route path=path!("/bench/:id") view=at(Place::Bench)/>
                    <Route path=path!("/list") view=at(Place::List)/>
                    <Route path=path!("/scrap") view=at(Place::Scrap)/>
                    <Route path=path!("/shared/:token") view=at(Place::Shared)/>
                    <Route path=path!("/earlier/:id") view=at(Place::Earlier)/>
                    <Route path=path!("/paper") view=at(Place::Paper)/>
                    <Route path=path!("/devices") view=at(Place::Devices)/>
                    <Route path=path!("/words") view=at(Place::Words)/>
                    <Route path=path!("/settings") view=at(Place::Settings)/>
                </Routes>
            </main>
            <div class="at-edge">
                <NewRelease busy=at_bench/>
                <ImportProgress/>
                <NoticeBoard/>
            </div>
        </div>
    }
}

/// What shows a page: of one type for all of them, so that the router is compiled
/// for it once.
type Shows = fn() -> AnyView;

const HOME: Shows = || view! { <Home/> }.into_any();

fn at(place: Place) -> Shows {
    fn shown(place: Place) -> AnyView {
        view! { <Fetched place/> }.into_any()
    }
    match place {
        Place::Recipes => || shown(Place::Recipes),
        Place::New => || shown(Place::New),
        Place::Recipe => || shown(Place::Recipe),
        Place::Bench => || shown(Place::Bench),
        Place::List => || shown(Place::List),
        Place::Scrap => || shown(Place::Scrap),
        Place::Shared => || shown(Place::Shared),
        Place::Devices => || shown(Place::Devices),
        Place::Earlier => || shown(Place::Earlier),
        Place::Paper => || shown(Place::Paper),
        Place::Settings => || shown(Place::Settings),
        Place::Words => || shown(Place::Words),
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
            Either::Left(view! { <Fetched place=Place::Recipes/> })
        } else {
            if store.member().is_some() || was_paired() {
                // Recipes of other devices may be on their way.
                fetching.begin(Place::Recipes);
            }
            Either::Right(view! { <Start/> })
        }
    }
}

/// How far what is kept here has come, on the way to the devices.
#[component]
fn StatusLink() -> impl IntoView {
    let store = expect_context::<Store>();
    let words = move || store.status().told();
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
        <nav class="menu" aria-label=first().main_menu>
            <A href="/" exact=true><Icon symbol=Symbol::Recipes/>{first().recipes}</A>
            <A href="/new"><Icon symbol=Symbol::Add/>{first().new}</A>
            <A href="/settings"><Icon symbol=Symbol::Settings/>{first().settings}</A>
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
