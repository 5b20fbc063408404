//! The way from a step to the numbers of the recipe behind it.

use foldwright_engine::recipe::MeasureId;
use foldwright_engine::rescue::measures;
use foldwright_engine::steps::StepKey;
use leptos::prelude::*;

use super::table::Table;
use crate::part::heard;
use crate::spoken::language;

/// The measures that the step at this place shows, each a link to its editor, which
/// leads back to the step.
#[component]
pub(super) fn ChangeNumber() -> impl IntoView {
    let table = Table::here();
    let key = table.key();
    // At a setting of the fence the parts that come off there.
    let behind = Memo::new(move |_| {
        let keys = key.get().map(|key| keys(table, key)).unwrap_or_default();
        let mut all: Vec<MeasureId> = Vec::new();
        table.bare.with(|recipe| {
            table.card.with(|card| {
                for measure in keys.iter().flat_map(|key| measures(recipe, card, *key)) {
                    if !all.contains(&measure) {
                        all.push(measure);
                    }
                }
            });
        });
        all
    });
    let links = move || {
        let step = key.get().map(|key| key.to_string()).unwrap_or_default();
        let address = table.recipe_address();
        table.bare.with(|recipe| {
            let measures = behind.get().into_iter();
            let links = measures.filter_map(|id| {
                let measure = recipe.measure(id)?;
                let value = recipe.notation.with_unit(recipe.value(id));
                let href = format!("{address}?measure={}&step={step}", id.0);
                Some(view! {
                    <li>
                        <a class="row" href=href>
                            <span>{measure.name.clone()}</span>
                            " "
                            <span class="quiet">{heard(value)}</span>
                        </a>
                    </li>
                })
            });
            links.collect_view()
        })
    };
    // Somebody else's recipe is changed where it is read.
    let is_own = !table.is_shared();
    view! {
        <Show when=move || is_own && behind.with(|behind| !behind.is_empty())>
            <details class="step-numbers">
                <summary>{language().beside().change_a_number}</summary>
                <ul class="rows">{links}</ul>
            </details>
        </Show>
    }
}

/// The steps whose numbers are shown at one.
fn keys(table: Table, key: StepKey) -> Vec<StepKey> {
    let StepKey::CutAt { setting, .. } = key else {
        return vec![key];
    };
    let plan = table.plan.get();
    let setting = plan.as_ref().and_then(|plan| plan.settings.get(setting));
    let Some(setting) = setting else {
        return Vec::new();
    };
    table.card.with(|card| {
        let parts = card.cut_list.blanks.iter().map(|blank| blank.part);
        let given = parts.filter(|part| setting.gives(*part));
        given.map(StepKey::Cut).collect()
    })
}
