//! A field to type into.

use leptos::html;
use leptos::prelude::*;

use crate::typing::unless_typing;

/// A field whose text is taken when it is left. What cannot be taken stays in it,
/// with what is wrong below, to be mended.
#[component]
pub(crate) fn Typed(
    /// What is typed.
    label: &'static str,
    /// What is kept.
    #[prop(into)]
    kept: Signal<String>,
    /// Takes another text, or says what is wrong with it.
    take: impl Fn(&str) -> Result<(), String> + Copy + Send + Sync + 'static,
    /// Which keys a phone shows.
    #[prop(default = "text")]
    keys: &'static str,
    /// What stands in the field while it is empty.
    #[prop(optional)]
    placeholder: &'static str,
    /// What is said of what is kept.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    let wrong = RwSignal::new(None::<String>);
    let field = NodeRef::<html::Input>::new();
    let is_wrong = Signal::derive(move || wrong.with(Option::is_some));
    let (shown, left) = unless_typing(field, move || kept.get(), is_wrong);
    view! {
        <label class="field">
            <span>{label}</span>
            <input
                node_ref=field
                autocomplete="off"
                inputmode=keys
                placeholder=placeholder
                maxlength="200"
                data-unfinished="change"
                aria-invalid=move || if is_wrong.get() { "true" } else { "false" }
                prop:value=shown
                on:change=move |event| wrong.set(take(&event_target_value(&event)).err())
                on:blur=move |_| left()
            />
            {children.map(|children| children())}
            <span class="wrong" aria-live="polite">{wrong}</span>
        </label>
    }
}
