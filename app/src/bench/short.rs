//! Before the work begins: the papers of which there are too few sheets.

use foldwright_words::{ClassTongue, OfClass};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::table::Table;
use crate::spoken::class_tongue;
use crate::sync::{Paper, Syncing};

/// A paper, how many sheets of it are on hand, and how many are short.
type Lacking = (String, i64, i64);

/// Each paper that is counted and short. Who counts no sheets is told nothing.
#[component]
pub(super) fn Short() -> impl IntoView {
    let table = Table::here();
    let syncing = use_context::<Signal<Option<Syncing>>>();
    let lacking = Memo::new(move |_| {
        let syncing = syncing.and_then(|syncing| syncing.get());
        let counts = syncing.map(Syncing::paper).unwrap_or_default();
        table.recipe.with(|recipe| {
            let sheets = table.sheets().into_iter();
            let lacking = sheets.filter_map(|(id, sheets)| {
                let paper = Paper::of(recipe.stock(id)?);
                let on_hand = (*counts.get(&paper.key())?).max(0);
                let short = sheets?.saturating_sub(on_hand);
                (short > 0).then_some((paper.name, on_hand, short))
            });
            lacking.collect::<Vec<Lacking>>()
        })
    });
    view! {
        <Show when=move || lacking.with(|lacking| !lacking.is_empty())>
            <Told lacking/>
        </Show>
    }
}

/// The same, once its words are here.
#[component]
fn Told(lacking: Memo<Vec<Lacking>>) -> impl IntoView {
    let table = Table::here();
    let say = RwSignal::new(None::<&'static dyn ClassTongue>);
    spawn_local(async move {
        let words = class_tongue().await;
        // The bench may have been left.
        say.try_set(words);
    });
    move || {
        let say = say.get()?;
        let rows = lacking.get().into_iter().map(|(name, sheets, short)| {
            let of = OfClass::OnHand { sheets, short };
            let words = table.recipe.with(|recipe| say.told(recipe, of));
            view! { <p class="callout warning"><b>{name}</b> ": " {words}</p> }
        });
        Some(rows.collect_view())
    }
}
