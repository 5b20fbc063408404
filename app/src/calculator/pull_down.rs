//! One of several: a list to pull down.

use leptos::prelude::*;

use crate::spoken::aloud;

/// What is heard of a choice, where that is not what is seen.
fn otherwise_heard(words: &str) -> Option<String> {
    let heard = aloud(words);
    (heard != words).then_some(heard)
}

/// A labelled list to pull down. The choices may change with the recipe.
#[component]
pub(super) fn Pick<T>(
    /// What is chosen here.
    label: &'static str,
    /// The choices with their words.
    #[prop(into)]
    options: Signal<Vec<(T, String)>>,
    /// The one that holds.
    #[prop(into)]
    chosen: Signal<T>,
    /// What to do when another one is taken.
    choose: impl Fn(T) + Copy + Send + Sync + 'static,
) -> impl IntoView
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let list = move || {
        let chosen = chosen.get();
        options
            .get()
            .into_iter()
            .enumerate()
            .map(|(place, (value, words))| {
                let heard = otherwise_heard(&words);
                view! {
                    <option
                        value=place.to_string()
                        selected=value == chosen
                        aria-label=heard
                    >
                        {words}
                    </option>
                }
            })
            .collect_view()
    };
    let take = move |event| {
        let place: Option<usize> = event_target_value(&event).parse().ok();
        let taken = place.and_then(|place| {
            options.with_untracked(|options| options.get(place).map(|(value, _)| value.clone()))
        });
        if let Some(value) = taken {
            choose(value);
        }
    };
    view! {
        <label class="field">
            <span>{label}</span>
            <select on:change=take>{list}</select>
        </label>
    }
}
