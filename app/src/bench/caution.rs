//! What to be careful with, beside the step that needs it.

use leptos::prelude::*;

use super::said::Said;

/// The cautions of the step at this place: open when first met, and one line
/// each on later steps.
#[component]
pub(super) fn Cautions() -> impl IntoView {
    let said = Said::here();
    move || {
        let cautions = said.cautions.get().into_iter().map(|met| {
            view! {
                <details class="caution" open=!met.is_known>
                    <summary>{met.caution.title}</summary>
                    <p>{met.caution.words}</p>
                    <p class="caution-defers">{met.caution.defers}</p>
                </details>
            }
        });
        cautions.collect_view()
    }
}
