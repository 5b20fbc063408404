//! One of a few, all in sight.

use std::sync::atomic::{AtomicU32, Ordering};

use leptos::prelude::*;

/// Numbers the groups of a page, since a browser tells radio buttons apart by
/// the name of their group.
static GROUPS: AtomicU32 = AtomicU32::new(0);

/// A choice between a few things that are all in sight: radio buttons in one
/// bar.
#[component]
pub fn Choice<T>(
    /// What is chosen.
    #[prop(into)]
    label: Signal<String>,
    /// What there is to choose from, with what it is called.
    options: impl Fn() -> Vec<(T, String)> + Send + Sync + 'static,
    /// What is chosen now.
    #[prop(into)]
    value: Signal<T>,
    /// Called with the new choice.
    choose: impl Fn(T) + Copy + Send + Sync + 'static,
) -> impl IntoView
where
    T: Copy + PartialEq + Send + Sync + 'static,
{
    let group = format!("choice-{}", GROUPS.fetch_add(1, Ordering::Relaxed));
    let one = move |(option, words): (T, String)| {
        view! {
            <label class="segment">
                <input
                    type="radio"
                    name=group.clone()
                    prop:checked=move || value.get() == option
                    on:change=move |_| choose(option)
                />
                <span>{words}</span>
            </label>
        }
    };
    view! {
        <fieldset class="choice">
            <legend>{label}</legend>
            <div class="segments">{move || options().into_iter().map(&one).collect_view()}</div>
        </fieldset>
    }
}
