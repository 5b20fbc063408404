//! What can be done with one of a list.

use leptos::html;
use leptos::prelude::*;

use super::Sheet;
use crate::spoken::texts;

/// A dialog about the one of a list that is chosen: it opens with the choice,
/// and closing it takes the choice back.
#[component]
pub fn Chosen<T, Title, Inside, Shown>(
    /// The one that is chosen.
    chosen: RwSignal<Option<T>>,
    /// What the dialog is called. Tracks.
    title: Title,
    /// What it holds: of the one, and whether the dialog stays open.
    inside: Inside,
) -> impl IntoView
where
    T: Clone + Send + Sync + 'static,
    Title: Fn(T) -> String + Send + Sync + 'static,
    Inside: Fn(T, RwSignal<bool>) -> Shown + Send + Sync + 'static,
    Shown: IntoView + 'static,
{
    let open = RwSignal::new(false);
    Effect::new(move || {
        if chosen.with(Option::is_some) {
            open.set(true);
        }
    });
    Effect::new(move || {
        if !open.get() {
            chosen.set(None);
        }
    });
    let title = Signal::derive(move || chosen.get().map(&title).unwrap_or_default());
    let inside = StoredValue::new(inside);
    view! {
        <Sheet open title>
            {move || chosen.get().map(|one| inside.with_value(|inside| inside(one, open)))}
        </Sheet>
    }
}

/// A name and a button that changes it.
#[component]
pub fn Rename(
    /// The name now.
    name: String,
    /// The most characters it may have.
    longest: u16,
    /// Gives the new name, which is not empty.
    rename: impl Fn(String) + 'static,
) -> impl IntoView {
    let field = NodeRef::<html::Input>::new();
    let submit = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        let name = field.get().map(|field| field.value()).unwrap_or_default();
        let name = name.trim();
        if !name.is_empty() {
            rename(name.to_owned());
        }
    };
    view! {
        <form class="rename" on:submit=submit>
            <label class="field">
                <span>{texts().list.name}</span>
                <input
                    node_ref=field
                    type="text"
                    data-unfinished="submit"
                    maxlength=longest
                    required
                    value=name
                />
            </label>
            <button class="button primary">{texts().list.rename}</button>
        </form>
    }
}
