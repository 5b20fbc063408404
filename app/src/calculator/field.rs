//! Fields to type into: names, and lengths that are not measures.

use foldwright_engine::length::{Length, read};
use leptos::prelude::*;

use super::desk::Desk;

/// A name.
#[component]
pub(super) fn NameField(
    /// What is named.
    label: &'static str,
    /// The name.
    #[prop(into)]
    name: Signal<String>,
    /// What to do with another one.
    rename: impl Fn(String) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let take = move |event| {
        let typed = event_target_value(&event);
        let typed = typed.trim();
        if !typed.is_empty() {
            rename(typed.to_owned());
        }
    };
    view! {
        <label class="field">
            <span>{label}</span>
            <input autocomplete="off" maxlength="200" prop:value=name on:change=take/>
        </label>
    }
}

/// A length that nothing else follows.
#[component]
pub(super) fn LengthField(
    /// What it is the length of.
    label: &'static str,
    /// The length.
    #[prop(into)]
    length: Signal<Length>,
    /// What to do with another one.
    set: impl Fn(Length) + Copy + Send + Sync + 'static,
    /// Whether nothing and less than nothing is refused.
    #[prop(optional)]
    positive: bool,
) -> impl IntoView {
    let desk = Desk::here();
    let wrong = RwSignal::new(None::<String>);
    let take = move |event| {
        let unit = untrack(|| desk.notation().unit());
        match read(&event_target_value(&event), unit) {
            Ok(length) if positive && length <= Length::ZERO => {
                wrong.set(Some("Give a length above nothing.".to_owned()));
            }
            Ok(length) => {
                wrong.set(None);
                set(length);
            }
            Err(error) => wrong.set(Some(error.to_string())),
        }
    };
    view! {
        <label class="field">
            <span>{label}</span>
            <input
                autocomplete="off"
                aria-invalid=move || if wrong.with(Option::is_some) { "true" } else { "false" }
                prop:value=move || desk.notation().exact(length.get())
                on:change=take
            />
            <span class="wrong" aria-live="polite">{wrong}</span>
        </label>
    }
}
