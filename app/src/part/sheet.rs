//! A dialog: a sheet from below on phones, a card in the middle elsewhere.

use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::{Icon, Symbol};
use crate::spoken::first;
use crate::typing::forget_dialog;

/// A dialog that keeps the focus while it is open. The Escape key, the button
/// and the ground behind it close it.
#[component]
pub fn Sheet(
    /// Whether it is open.
    open: RwSignal<bool>,
    /// Its heading.
    #[prop(into)]
    title: Signal<String>,
    /// What it holds, made anew each time it opens.
    children: ChildrenFn,
) -> impl IntoView {
    let dialog = NodeRef::<html::Dialog>::new();
    Effect::new(move || {
        let Some(dialog) = dialog.get() else { return };
        match (open.get(), dialog.open()) {
            // Fails only where the dialog is not in the page.
            (true, false) => drop(dialog.show_modal()),
            (false, true) => dialog.close(),
            _ => {}
        }
    });
    let outside = move |event: ev::MouseEvent| {
        // The dialog's own area is all covered by what it holds.
        if event.target() == dialog.get().map(Into::into) {
            open.set(false);
        }
    };
    let closed = move |_| {
        forget_dialog();
        open.set(false);
    };
    view! {
        <dialog class="sheet" node_ref=dialog aria-label=title on:close=closed on:click=outside>
            <Show when=move || open.get()>
                <div class="sheet-body">
                    <header class="sheet-head">
                        <h2>{title}</h2>
                        <button class="button icon" aria-label=first().close on:click=move |_| open.set(false)>
                            <Icon symbol=Symbol::Close/>
                        </button>
                    </header>
                    {children()}
                </div>
            </Show>
        </dialog>
    }
}
