//! In which language the app speaks. All that is said is asked for here.

use std::cell::Cell;

use foldwright_engine::length::{Notation, ReadError};
use foldwright_engine::recipe::{Naming, Recipe, Starter};
use foldwright_words::{ClassTongue, First, Language, Run, Speaker, Texts, Tongue};

// One language is spoken at a time in a tab, or while a page is written out, and
// what answers an event runs outside of any context.
thread_local! {
    static SPOKEN: Cell<Language> = const { Cell::new(Language::English) };
}

#[cfg(feature = "csr")]
thread_local! {
    static TONGUE: Cell<Option<&'static dyn Tongue>> = const { Cell::new(None) };
}

/// Speaks a language from now on, as far as its first texts go.
pub(crate) fn speak(language: Language) {
    SPOKEN.set(language);
    #[cfg(feature = "csr")]
    if let Some(page) = leptos::prelude::document().document_element() {
        // Fails only for names that no attribute may have.
        let _ = page.set_attribute("lang", language.tag());
    }
}

/// Speaks a language whose sentences are here.
#[cfg(feature = "csr")]
pub(crate) fn speak_with(tongue: &'static dyn Tongue) {
    TONGUE.set(Some(tongue));
    speak(tongue.language());
}

/// The language that is spoken.
pub(crate) fn language() -> Language {
    SPOKEN.get()
}

/// What can be said before the language itself is here.
pub(crate) fn first() -> &'static First {
    language().first()
}

/// What screens say.
pub(crate) fn texts() -> &'static Texts {
    tongue().texts()
}

/// The language itself.
#[cfg(feature = "csr")]
#[expect(
    clippy::expect_used,
    reason = "code that says more than the first texts is given out together with the language"
)]
pub(crate) fn tongue() -> &'static dyn Tongue {
    TONGUE.get().expect("the language is here before the pages")
}

/// The language itself.
#[cfg(not(feature = "csr"))]
pub(crate) fn tongue() -> &'static dyn Tongue {
    language().tongue()
}

/// What is said of classes and of post, fetched where it is not here yet; `None`
/// where it cannot be.
#[cfg(feature = "csr")]
pub(crate) async fn class_tongue() -> Option<&'static dyn ClassTongue> {
    crate::fetched::of_classes(language()).await.ok()
}

/// The same where all of it is here.
#[cfg(not(feature = "csr"))]
pub(crate) fn class_tongue() -> std::future::Ready<Option<&'static dyn ClassTongue>> {
    std::future::ready(Some(language().class_tongue()))
}

/// The languages that the browser asks for, the dearest first.
fn wanted() -> impl Iterator<Item = String> {
    let wanted = leptos::prelude::window().navigator().languages();
    wanted.into_iter().filter_map(|tag| tag.as_string())
}

/// The language that the browser asks for: the first of its list that is spoken
/// here (lookup, RFC 4647 §3.4).
pub(crate) fn asked_for() -> Language {
    let spoken = wanted().find_map(|tag| Language::of_tag(&tag));
    spoken.unwrap_or_default()
}

/// The language that is spoken, as the browser has it, with its country.
pub(crate) fn locale() -> String {
    let spoken = language();
    let locale = wanted().find(|tag| Language::of_tag(tag) == Some(spoken));
    locale.unwrap_or_else(|| spoken.tag().to_owned())
}

/// Names what is new, in the maker's language.
pub(crate) fn naming() -> &'static dyn Naming {
    tongue()
}

/// A fold to start from, with its names in the maker's language.
pub(crate) fn starting(starter: &Starter, notation: Notation) -> Recipe {
    foldwright_words::starter(tongue(), starter, notation)
}

/// Speaks about a recipe in the reader's language.
pub(crate) fn speaker(recipe: &Recipe) -> Speaker<'_> {
    Speaker::of(tongue(), recipe)
}

/// The same where there is no recipe yet.
pub(crate) fn speaker_without_recipe(notation: Notation) -> Speaker<'static> {
    Speaker::without_recipe(tongue(), notation)
}

/// A text in runs for eye and ear; before the language is here as it stands.
pub(crate) fn runs(text: &str) -> Vec<Run> {
    #[cfg(feature = "csr")]
    if TONGUE.get().is_none() {
        return vec![Run::plain(text)];
    }
    foldwright_words::runs(tongue(), text)
}

/// A text as it is heard, for what only screen readers meet.
pub(crate) fn aloud(text: &str) -> String {
    foldwright_words::aloud(tongue(), text)
}

/// A text for a voice.
pub(crate) fn voiced(text: &str) -> String {
    foldwright_words::voiced(tongue(), text)
}

/// Why a typed length can't be read, and what to do.
pub(crate) fn misread(error: &ReadError) -> String {
    tongue().misread(&error.problem)
}
