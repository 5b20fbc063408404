//! One of several: a row of buttons, or a list to pull down.

use leptos::prelude::*;

/// A row of two to four short choices.
#[component]
pub(super) fn Segments<T>(
    /// What is chosen here.
    label: &'static str,
    /// The choices with their words.
    options: Vec<(T, &'static str)>,
    /// The one that holds.
    #[prop(into)]
    chosen: Signal<T>,
    /// What to do when another one is tapped.
    choose: impl Fn(T) + Copy + Send + Sync + 'static,
) -> impl IntoView
where
    T: Copy + PartialEq + Send + Sync + 'static,
{
    let buttons = options
        .into_iter()
        .map(|(value, words)| {
            view! {
                <button
                    type="button"
                    aria-pressed=move || if chosen.get() == value { "true" } else { "false" }
                    on:click=move |_| choose(value)
                >
                    {words}
                </button>
            }
        })
        .collect_view();
    view! {
        <div class="segments" role="group" aria-label=label>
            {buttons}
        </div>
    }
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
                view! {
                    <option value=place.to_string() selected=value == chosen>
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
