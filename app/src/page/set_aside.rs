//! What was kept and can't be read whole.

use leptos::prelude::*;

use crate::store::{Aside, Store, salvage};

/// What can be done with something that was set aside.
#[component]
pub(super) fn SetAside(
    /// What was set aside.
    aside: Aside,
    /// Called once what can be read of it is kept again.
    #[prop(into)]
    recovered: Callback<String>,
) -> impl IntoView {
    let store = expect_context::<Store>();
    let can_open = !salvage(&aside.text).is_empty();
    let aside = StoredValue::new(aside);
    let open = move |_| {
        if let Some(id) = aside.with_value(|aside| store.recover(aside)) {
            recovered.run(id);
        }
    };
    view! {
        <div class="actions">
            {can_open
                .then(|| {
                    view! {
                        <button class="button primary" on:click=open>"Open what can be read"</button>
                    }
                })}
            <button class="button quiet" on:click=move |_| aside.with_value(Aside::download)>
                "Download it as it is"
            </button>
            <button class="button quiet" on:click=move |_| store.forget_aside(aside.get_value())>
                "Delete it"
            </button>
        </div>
    }
}
