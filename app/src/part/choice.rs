//! One of a few, all in sight.

use leptos::prelude::*;

use super::heard;

/// A bar of two to four short choices, each a button that is pressed while what it
/// says is so. They are no radio buttons: a choice may be refused, and a radio
/// button would show what was tapped and not what holds.
#[component]
pub fn Choice<T, W>(
    /// What is chosen.
    #[prop(into)]
    label: Signal<String>,
    /// Whether that stands above the bar, and is not only heard.
    #[prop(optional)]
    titled: bool,
    /// What there is to choose from, with what it is called.
    options: impl Fn() -> Vec<(T, W)> + Send + Sync + 'static,
    /// The one that holds.
    #[prop(into)]
    chosen: Signal<T>,
    /// What to do when another one is tapped.
    choose: impl Fn(T) + Copy + Send + Sync + 'static,
) -> impl IntoView
where
    T: Copy + PartialEq + Send + Sync + 'static,
    W: AsRef<str> + 'static,
{
    let one = move |(option, words): (T, W)| {
        let is_pressed = move || {
            if chosen.get() == option {
                "true"
            } else {
                "false"
            }
        };
        view! {
            <button type="button" aria-pressed=is_pressed on:click=move |_| choose(option)>
                {heard(words)}
            </button>
        }
    };
    view! {
        <fieldset class="choice" class:titled=titled>
            <legend class:visually-hidden=!titled>{label}</legend>
            <div class="segments">{move || options().into_iter().map(one).collect_view()}</div>
        </fieldset>
    }
}
