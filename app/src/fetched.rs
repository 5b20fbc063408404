//! The pages and the languages, whose code comes in files of their own, so that
//! the app opens before all of it is here. Each page is fetched when it is first
//! opened, and with it the language that is spoken, and no other; once the
//! worker keeps them, that needs no connection.

use foldwright_words::{ClassTongue, English, German, Language, Tongue};
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_split::{SplitLoaderError, wasm_split};

use crate::beside::Work;
use crate::calculator::{Later, section as sections};
use crate::download::{Maker, make};
use crate::import::source::serve as serve_files;
use crate::page::{
    AtBench, Devices, Earlier, FromList, Glossary, New, OfLink, OneRecipe, PaperAtHand, Recipes,
    Samples, Scrap, SettingsPage, TakeIn, TakePattern, TakesIn, take_in, take_pattern,
};
use crate::planning::serve;
use crate::release::{AskedRelease, ask_release, keep_language};
use crate::shell::announce_page;
use crate::spoken::{first, language, speak, speak_with};
use crate::stand_in::take_place;
use crate::store::Store;
use crate::sync::Syncing;
use crate::turns::idle;
use crate::typing::keep_unfinished;

/// A page, to be shown where it is called.
pub(crate) type Page = fn() -> AnyView;

/// The pages that are fetched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Place {
    Recipes,
    New,
    Recipe,
    Bench,
    List,
    Scrap,
    Shared,
    Devices,
    Earlier,
    Paper,
    Settings,
    Words,
}

impl Place {
    /// Whether it still waits for what it shows as it is opened, and takes the place
    /// of what was written or seen by itself.
    fn comes_later(self) -> bool {
        matches!(self, Self::New | Self::Shared)
    }

    /// Whether it shows what only the one who syncs can tell.
    fn needs_syncing(self) -> bool {
        matches!(
            self,
            Self::Devices | Self::Earlier | Self::Paper | Self::Settings
        )
    }
}

/// Code could not be fetched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct NotFetched;

impl From<SplitLoaderError> for NotFetched {
    fn from(_: SplitLoaderError) -> Self {
        Self
    }
}

/// Marks what is left for later, in parts by the name in front: `public/early.js`
/// asks for them by the same names.
macro_rules! fetched {
    ($($part:ident: fn $name:ident() -> $what:ty { $code:expr })*) => {$(
        #[allow(
            clippy::unnecessary_wraps,
            reason = "the call can fail, since it fetches the code first"
        )]
        #[wasm_split($part, wasm_split_path = leptos::wasm_split, fallible)]
        fn $name() -> Result<$what, NotFetched> {
            Ok($code)
        }
    )*};
}

/// A page that is opened. What is typed there is not lost from then on.
fn opened(page: AnyView) -> AnyView {
    keep_unfinished();
    page
}

fetched! {
    recipes: fn recipes() -> Page { || opened(view! { <Recipes/> }.into_any()) }
    new: fn new() -> Page { || opened(view! { <New/> }.into_any()) }
    recipe: fn recipe() -> Page { || opened(view! { <OneRecipe/> }.into_any()) }
    bench: fn bench() -> Page { || opened(view! { <AtBench/> }.into_any()) }
    list: fn list() -> Page { || opened(view! { <FromList/> }.into_any()) }
    list: fn scrap() -> Page { || opened(view! { <Scrap/> }.into_any()) }
    shared: fn shared() -> Page { || opened(view! { <OfLink/> }.into_any()) }
    keeping: fn devices() -> Page { || opened(view! { <Devices/> }.into_any()) }
    keeping: fn earlier() -> Page { || opened(view! { <Earlier/> }.into_any()) }
    keeping: fn paper() -> Page { || opened(view! { <PaperAtHand/> }.into_any()) }
    keeping: fn settings() -> Page { || opened(view! { <SettingsPage/> }.into_any()) }
    syncing: fn taking_in() -> TakesIn { TakesIn { take_in, serve: serve_files } }
    syncing: fn syncing() -> fn(Store) -> Syncing { Syncing::begin }
    syncing: fn asking() -> fn() -> AskedRelease { ask_release }
    language_en: fn english() -> &'static dyn Tongue { &English }
    language_de: fn german() -> &'static dyn Tongue { &German }
    samples: fn words() -> Page { || opened(view! { <Glossary/> }.into_any()) }
    samples: fn samples() -> Page { || view! { <Samples/> }.into_any() }
    dressing: fn papers() -> Page { || view! { <sections::Paper/> }.into_any() }
    dressing: fn print_runs() -> Page { || view! { <sections::Print/> }.into_any() }
    dressing: fn layers() -> Page { || view! { <sections::Layers/> }.into_any() }
    making: fn refit() -> Page { || view! { <sections::Refit/> }.into_any() }
    making: fn envelope() -> Page { || view! { <sections::Envelope/> }.into_any() }
    making: fn scores() -> Page { || view! { <sections::Scores/> }.into_any() }
    making: fn class_plan() -> Page { || view! { <sections::Class/> }.into_any() }
    files: fn files() -> Maker { make }
    patterns: fn patterns() -> TakePattern { take_pattern }
    class: fn planners() -> fn() { serve }
    class: fn classes() -> fn(Language) -> &'static dyn ClassTongue { Language::class_tongue }
}

/// The only way to the code of a page.
async fn code(place: Place) -> Result<Page, NotFetched> {
    match place {
        Place::Recipes => recipes().await,
        Place::New => new().await,
        Place::Recipe => recipe().await,
        Place::Bench => bench().await,
        Place::List => list().await,
        Place::Scrap => scrap().await,
        Place::Shared => shared().await,
        Place::Devices => devices().await,
        Place::Earlier => earlier().await,
        Place::Paper => paper().await,
        Place::Settings => settings().await,
        Place::Words => words().await,
    }
}

/// The only way to the code of a section of the calculator that the page does not
/// bring along.
pub(crate) async fn section(of: Later) -> Result<Page, NotFetched> {
    match of {
        Later::Paper => papers().await,
        Later::Print => print_runs().await,
        Later::Layers => layers().await,
        Later::Refit => refit().await,
        Later::Envelope => envelope().await,
        Later::Scores => scores().await,
        Later::Class => class_plan().await,
    }
}

/// What makes files of a recipe.
pub(crate) async fn making_files() -> Result<Maker, NotFetched> {
    files().await
}

/// What takes in crease patterns.
pub(crate) async fn taking_patterns() -> Result<TakePattern, NotFetched> {
    patterns().await
}

/// How a server is asked for its release.
pub(crate) async fn asking_release() -> Result<fn() -> AskedRelease, NotFetched> {
    asking().await
}

/// The only way to the sentences of a language.
async fn sentences(language: Language) -> Result<&'static dyn Tongue, NotFetched> {
    match language {
        Language::English => english().await,
        Language::German => german().await,
    }
}

/// What a language says of classes and of post: so little that all languages come
/// in one part.
pub(crate) async fn of_classes(language: Language) -> Result<&'static dyn ClassTongue, NotFetched> {
    let in_language = classes().await?;
    Ok(in_language(language))
}

/// Works for the page that started this worker. Where the code does not come, the page
/// works by itself.
pub fn work_beside() {
    wasm_bindgen_futures::spawn_local(async {
        let serve = match Work::of_this_worker() {
            Some(Work::Cuts) => planners().await,
            Some(Work::Files) => taking_in().await.map(|files| files.serve),
            None => return,
        };
        if let Ok(serve) = serve {
            serve();
        }
    });
}

/// How the fetching of a page stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stands {
    Coming,
    Here,
    Failed,
}

/// How the fetching stands; one for the whole app.
#[derive(Clone, Copy)]
pub(crate) struct Fetching {
    come: RwSignal<Vec<(Place, Result<Page, NotFetched>)>>,
    shown: RwSignal<bool>,
    /// The language in which all that is shown is said.
    spoken: RwSignal<Language>,
    store: Store,
    syncing: RwSignal<Option<Syncing>>,
}

impl Fetching {
    pub(crate) fn new(store: Store) -> Self {
        Self {
            come: RwSignal::new(Vec::new()),
            shown: RwSignal::new(false),
            spoken: RwSignal::new(language()),
            store,
            syncing: RwSignal::new(None),
        }
    }

    /// Whether a page has been shown. Tracks.
    pub(crate) fn has_shown(self) -> bool {
        self.shown.get()
    }

    /// A page that needs nothing fetched is shown.
    pub(crate) fn show(self) {
        take_place();
        self.shown.set(true);
    }

    /// Tracks the language in which all that is shown is said.
    pub(crate) fn track_language(self) {
        self.spoken.track();
    }

    /// Changes to another language once it is chosen here or in another tab.
    pub(crate) fn follow_language(self) {
        Effect::new(move || {
            let chosen = self.store.language();
            if chosen == self.spoken.get_untracked() {
                return;
            }
            spawn_local(async move {
                // Without a page nothing is said that needs all of it.
                let needed = self.come.with_untracked(|come| !come.is_empty());
                if !needed || self.speak(chosen).await.is_ok() {
                    speak(chosen);
                    self.spoken.set(chosen);
                    request_animation_frame(announce_page);
                }
            });
        });
    }

    /// Fetches a language where it is not here yet, and speaks it from then on.
    pub(crate) async fn speak(self, language: Language) -> Result<(), NotFetched> {
        speak_with(sentences(language).await?);
        keep_language(language);
        Ok(())
    }

    /// The one who syncs; fetches the code for it, and begins, where that is not
    /// done yet.
    pub(crate) async fn begin_syncing(self) -> Result<Syncing, NotFetched> {
        let begin = syncing().await?;
        // It tells what comes.
        self.speak(language()).await?;
        // It may have begun while this was fetched.
        if let Some(syncing) = self.syncing.get_untracked() {
            return Ok(syncing);
        }
        let syncing = begin(self.store);
        self.syncing.set(Some(syncing));
        Ok(syncing)
    }

    /// What takes in files, and the language to say what came of it.
    pub(crate) async fn taking_in(self) -> Result<TakeIn, NotFetched> {
        let taking_in = taking_in().await?;
        self.speak(language()).await?;
        Ok(taking_in.take_in)
    }

    /// The finished cards to look into, with the language they are told in.
    pub(crate) async fn samples(self) -> Result<Page, NotFetched> {
        let page = samples().await?;
        self.speak(language()).await?;
        Ok(page)
    }

    /// Fetches a page with all it needs.
    async fn fetch(self, place: Place) -> Result<Page, NotFetched> {
        // All are asked for at the same time.
        spawn_local(async {
            let _ = sentences(language()).await;
        });
        if place.needs_syncing() {
            spawn_local(async move {
                let _ = self.begin_syncing().await;
            });
        }
        let page = code(place).await?;
        self.speak(language()).await?;
        if place.needs_syncing() {
            self.begin_syncing().await?;
        }
        Ok(page)
    }

    fn stands(self, place: Place) -> Stands {
        self.come.with(|come| {
            let mut come = come.iter().filter(|(which, _)| *which == place);
            match come.next() {
                None => Stands::Coming,
                Some((_, Ok(_))) => Stands::Here,
                Some((_, Err(NotFetched))) => Stands::Failed,
            }
        })
    }

    /// A page that is here.
    fn page(self, place: Place) -> Option<Page> {
        self.come.with_untracked(|come| {
            let mut come = come.iter().filter(|(which, _)| *which == place);
            come.next()?.1.ok()
        })
    }

    /// Fetches a page, and then what syncs.
    pub(crate) fn begin(self, place: Place) {
        let away = move |come: &mut Vec<_>| come.retain(|(which, _)| *which != place);
        self.come.update(away);
        spawn_local(async move {
            let page = self.fetch(place).await;
            self.come.update(|come| {
                away(come);
                come.push((place, page));
            });
            self.shown.set(true);
            // What is not looked at comes after what is.
            idle().await;
            let _ = self.begin_syncing().await;
        });
    }
}

/// One of the pages, as soon as its code is here.
#[component]
pub(crate) fn Fetched(place: Place) -> impl IntoView {
    let fetching = expect_context::<Fetching>();
    let is_first = !fetching.shown.get_untracked();
    let waits = untrack(|| fetching.stands(place)) != Stands::Here;
    if waits {
        fetching.begin(place);
    }
    let stands = Memo::new(move |_| fetching.stands(place));
    move || match stands.get() {
        Stands::Coming => None,
        Stands::Here => {
            if !place.comes_later() {
                take_place();
            }
            if waits && !is_first {
                // It comes too late to be announced as it was opened.
                request_animation_frame(announce_page);
            }
            provide_context::<Signal<Option<Syncing>>>(fetching.syncing.into());
            if let Some(syncing) = fetching.syncing.get_untracked() {
                provide_context(syncing);
            }
            fetching.page(place).map(|page| page())
        }
        Stands::Failed => {
            take_place();
            let again = move |_| fetching.begin(place);
            let trouble = view! {
                <section class="page message">
                    <h1>{first().not_all_here}</h1>
                    <p>{first().not_fetched}</p>
                    <button class="button primary" on:click=again>{first().try_again}</button>
                </section>
            };
            Some(trouble.into_any())
        }
    }
}
