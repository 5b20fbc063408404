//! The pages, whose code comes in a file of its own, so that the app opens
//! before all of it is here. It is fetched when a page is first opened; once
//! the worker keeps it, that needs no connection.

use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_split::{SplitLoaderError, wasm_split};

use crate::notice::Notice;
use crate::page::{
    AtBench, Devices, Earlier, FromList, New, OfLink, OneRecipe, PaperAtHand, Recipes, Scrap,
    SettingsPage, take_in,
};
use crate::shell::announce_page;
use crate::store::Store;
use crate::sync::Syncing;

/// What is said where the code can't be fetched.
pub(crate) const NOT_FETCHED: &str = "This part of Foldwright is not on this device yet, and it \
     could not be fetched. Your recipes stay where they are.";

/// A page, to be shown where it is called.
type Page = fn() -> AnyView;

/// What the fetched code offers.
#[derive(Clone, Copy)]
pub(crate) struct Pages {
    pub(crate) recipes: Page,
    pub(crate) new: Page,
    pub(crate) recipe: Page,
    pub(crate) bench: Page,
    pub(crate) list: Page,
    pub(crate) scrap: Page,
    pub(crate) devices: Page,
    pub(crate) earlier: Page,
    pub(crate) paper: Page,
    pub(crate) settings: Page,
    pub(crate) shared: Page,
    pub(crate) take_in: fn(Store, Option<Syncing>, &str, Option<&str>) -> Notice,
    pub(crate) begin_syncing: fn(Store) -> Syncing,
}

/// The code of the pages could not be fetched.
#[derive(Clone, Copy)]
pub(crate) struct NotFetched;

impl From<SplitLoaderError> for NotFetched {
    fn from(_: SplitLoaderError) -> Self {
        Self
    }
}

#[allow(
    clippy::unnecessary_wraps,
    reason = "the call can fail, since it fetches the code first"
)]
#[wasm_split(pages, wasm_split_path = leptos::wasm_split, fallible)]
fn pages() -> Result<Pages, NotFetched> {
    Ok(Pages {
        recipes: || view! { <Recipes/> }.into_any(),
        new: || view! { <New/> }.into_any(),
        recipe: || view! { <OneRecipe/> }.into_any(),
        bench: || view! { <AtBench/> }.into_any(),
        list: || view! { <FromList/> }.into_any(),
        scrap: || view! { <Scrap/> }.into_any(),
        earlier: || view! { <Earlier/> }.into_any(),
        paper: || view! { <PaperAtHand/> }.into_any(),
        devices: || view! { <Devices/> }.into_any(),
        settings: || view! { <SettingsPage/> }.into_any(),
        shared: || view! { <OfLink/> }.into_any(),
        take_in,
        begin_syncing: Syncing::begin,
    })
}

/// How the fetching stands; one for the whole app.
#[derive(Clone, Copy)]
pub(crate) struct Fetching {
    come: RwSignal<Option<Result<Pages, NotFetched>>>,
    shown: RwSignal<bool>,
    store: Store,
    syncing: StoredValue<Option<Syncing>>,
}

impl Fetching {
    pub(crate) fn new(store: Store) -> Self {
        Self {
            come: RwSignal::new(None),
            shown: RwSignal::new(false),
            store,
            syncing: StoredValue::new(None),
        }
    }

    /// Whether a page has been shown. Tracks.
    pub(crate) fn has_shown(self) -> bool {
        self.shown.get()
    }

    /// A page that needs nothing fetched is shown.
    pub(crate) fn show(self) {
        self.shown.set(true);
    }

    /// The one who syncs, once the code for it is here.
    pub(crate) fn syncing(self) -> Option<Syncing> {
        self.syncing.get_value()
    }

    /// The fetched code; fetches it where it is not here yet.
    pub(crate) async fn pages(self) -> Result<Pages, NotFetched> {
        let come = pages().await;
        if let (Ok(pages), None) = (come, self.syncing()) {
            let syncing = (pages.begin_syncing)(self.store);
            self.syncing.set_value(Some(syncing));
        }
        self.come.set(Some(come));
        self.shown.set(true);
        come
    }

    pub(crate) fn begin(self) {
        self.come.set(None);
        spawn_local(async move {
            // What came of it is in the signal.
            let _ = self.pages().await;
        });
    }
}

/// One of the pages, as soon as its code is here.
#[component]
pub(crate) fn Fetched(page: fn(Pages) -> Page) -> impl IntoView {
    let fetching = expect_context::<Fetching>();
    let is_first = !fetching.shown.get_untracked();
    let waits = !matches!(fetching.come.get_untracked(), Some(Ok(_)));
    if waits {
        fetching.begin();
    }
    move || match fetching.come.get() {
        None => None,
        Some(Ok(pages)) => {
            if waits && !is_first {
                // It comes too late to be announced as it was opened.
                request_animation_frame(announce_page);
            }
            if let Some(syncing) = fetching.syncing() {
                provide_context(syncing);
            }
            Some(page(pages)())
        }
        Some(Err(NotFetched)) => {
            let again = move |_| fetching.begin();
            let trouble = view! {
                <section class="page message">
                    <h1>"Not all here yet"</h1>
                    <p>{NOT_FETCHED}</p>
                    <button class="button primary" on:click=again>"Try again"</button>
                </section>
            };
            Some(trouble.into_any())
        }
    }
}
