//! Texts with numbers in them: fractions are read aloud as words, and a rounded
//! number shows the exact one on a tap.

use std::cell::Cell;

use foldwright_words::Run;
use leptos::prelude::*;

use crate::spoken::{runs, texts};

// What a page is written out with, and what is shown in a tab, is numbered in turn.
thread_local! {
    static NEXT: Cell<u32> = const { Cell::new(0) };
}

/// Numbers what pops up from the first again, for a page that is written out whole.
#[cfg(feature = "ssr")]
pub(crate) fn from_first() {
    NEXT.set(0);
}

/// A text in which a rounded number that has the exact one behind it is a button.
pub(crate) fn told(text: impl AsRef<str>) -> Vec<AnyView> {
    shown(text.as_ref(), true)
}

/// A text within a button, a link or a label, where nothing else can be tapped.
pub(crate) fn heard(text: impl AsRef<str>) -> Vec<AnyView> {
    shown(text.as_ref(), false)
}

fn shown(text: &str, can_be_tapped: bool) -> Vec<AnyView> {
    let runs = runs(text).into_iter();
    let views = runs.map(|run| {
        let Run {
            shown,
            aloud,
            exact,
        } = run;
        match exact.filter(|_| can_be_tapped) {
            Some(exact) => view! { <Rounded exact>{number(shown, aloud)}</Rounded> }.into_any(),
            None => number(shown, aloud),
        }
    });
    views.collect()
}

/// What is seen, under the words that are heard.
fn number(shown: String, aloud: Option<String>) -> AnyView {
    match aloud {
        None => shown.into_any(),
        Some(aloud) => {
            view! { <span class="figures" role="img" aria-label=aloud>{shown}</span> }.into_any()
        }
    }
}

/// A rounded number; the browser itself shows the exact one on a tap, so that a
/// page without scripts does too.
#[component]
fn Rounded(exact: String, children: Children) -> impl IntoView {
    let number = NEXT.get();
    NEXT.set(number.wrapping_add(1));
    let id = format!("exact-{number}");
    view! {
        <button type="button" class="rounded" popovertarget=id.clone()>{children()}</button>
        <span class="exact" id=id popover="auto">{heard(texts().parts.exactly(&exact))}</span>
    }
}

/// What the signs of rounded numbers mean, where some are shown.
#[component]
pub(crate) fn Ticks(
    /// Whether a number is rounded.
    #[prop(into)]
    any: Signal<bool>,
) -> impl IntoView {
    view! {
        <Show when=move || any.get()>
            <p class="quiet ticks">{texts().parts.ticks}</p>
        </Show>
    }
}
