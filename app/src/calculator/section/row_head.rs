//! The head of a row that folds away.

use leptos::prelude::*;

/// The head of a row in a list: its name and a few words about it. A tap shows its
/// particulars below, or puts them away again.
#[component]
pub(super) fn RowHead(
    /// Whether the particulars are shown.
    #[prop(into)]
    open: Signal<bool>,
    /// Called with whether to show them.
    show: impl Fn(bool) + Send + Sync + 'static,
    /// What the row is about.
    name: impl IntoView + 'static,
    /// A few words about it.
    about: impl IntoView + 'static,
    /// What else has to be seen while they are put away.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    view! {
        <button
            type="button"
            class="layer-head"
            aria-expanded=move || if open.get() { "true" } else { "false" }
            on:click=move |_| show(!open.get_untracked())
        >
            <b>{name}</b>
            <span class="quiet">{about}</span>
            {children.map(|children| children())}
        </button>
    }
}
