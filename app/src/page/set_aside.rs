//! What was kept and can't be read whole.

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::spoken::{first, texts};
use crate::store::{Aside, Store, salvaged};

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
    let can_open = RwSignal::new(false);
    let text = aside.text.clone();
    spawn_local(async move {
        let can_be_read = !salvaged(&text).await.is_empty();
        // The page may have been left meanwhile.
        let _ = can_open.try_set(can_be_read);
    });
    let aside = StoredValue::new(aside);
    let open = move |_| {
        let aside = aside.get_value();
        spawn_local(async move {
            if let Some(id) = store.recover(&aside).await {
                recovered.run(id);
            }
        });
    };
    view! {
        <div class="actions">
            <Show when=move || can_open.get()>
                <button class="button primary" on:click=open>{first().open_what_can_be_read}</button>
            </Show>
            <button class="button" on:click=move |_| aside.with_value(Aside::download)>
                {texts().list.download_as_it_is}
            </button>
            <button class="button danger" on:click=move |_| store.forget_aside(aside.get_value())>
                {texts().list.delete_it}
            </button>
        </div>
    }
}
