//! A number with a button for less and a button for more.

use leptos::prelude::*;

/// The two buttons, with the number between them.
#[component]
pub fn LessOrMore(
    /// What the button for less is called.
    #[prop(into)]
    less: Signal<String>,
    /// What the button for more is called.
    #[prop(into)]
    more: Signal<String>,
    /// The classes of both buttons.
    button: &'static str,
    /// Whether it cannot be less.
    #[prop(into)]
    is_least: Signal<bool>,
    /// Whether it cannot be more.
    #[prop(into)]
    is_most: Signal<bool>,
    /// Called with whether it is to be more.
    by: impl Fn(bool) + Copy + 'static,
    /// The number.
    children: Children,
) -> impl IntoView {
    view! {
        <button type="button" class=button aria-label=less disabled=is_least on:click=move |_| by(false)>
            "−"
        </button>
        {children()}
        <button type="button" class=button aria-label=more disabled=is_most on:click=move |_| by(true)>
            "+"
        </button>
    }
}
