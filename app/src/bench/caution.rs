//! What to be careful with, beside the step that needs it.

use std::collections::BTreeSet;

use foldwright_engine::care::Hazard;
use leptos::prelude::*;

use super::table::Table;
use crate::spoken::speaker;

/// What was shown before, and what is shown now.
#[derive(Default)]
struct Met {
    before: BTreeSet<Hazard>,
    now: Vec<Hazard>,
}

/// The cautions of the step at this place: open when first met, and one line
/// each on later steps.
#[component]
pub(super) fn Cautions() -> impl IntoView {
    let table = Table::here();
    let met = StoredValue::new(Met::default());
    let care = Memo::new(move |_| {
        table
            .step
            .with(|step| step.as_ref().map(|step| (step.key, step.care.clone())))
    });
    move || {
        let care = care.get().map(|(_, care)| care).unwrap_or_default();
        met.update_value(|met| {
            met.before.extend(met.now.drain(..));
            met.now.clone_from(&care);
        });
        let cautions = care.into_iter().map(|hazard| {
            let known = met.with_value(|met| met.before.contains(&hazard));
            let caution = table
                .bare
                .with_untracked(|recipe| speaker(recipe).caution(hazard));
            view! {
                <details class="caution" open=!known>
                    <summary>{caution.title}</summary>
                    <p>{caution.words}</p>
                    <p class="caution-defers">{caution.defers}</p>
                </details>
            }
        });
        cautions.collect_view()
    }
}
