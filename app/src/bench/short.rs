//! Before the work begins: the papers of which there are too few sheets, and what else is
//! short.

use foldwright_engine::card::Supplied;
use foldwright_engine::recipe::Recipe;
use foldwright_words::{ClassTongue, OfClass};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::table::Table;
use crate::part::heard;
use crate::spoken::{class_tongue, speaker};
use crate::sync::{Paper, Syncing, counted};

/// What it is called, how much of it is on hand, and how much is short.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Lacking {
    Paper(String, i64, i64),
    Supply(String, Supplied, Supplied),
}

/// All that is counted and short. Who counts nothing is told nothing.
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
                (short > 0).then_some(Lacking::Paper(paper.name, on_hand, short))
            });
            let supplies = table.supplies(&counts).into_iter();
            let supplies = supplies.filter_map(|(supply, on_hand)| {
                let (takes, copies) = (supply.takes, recipe.copies);
                let short = table
                    .card
                    .with(|card| card.short_of(takes, copies, on_hand))?;
                (counted(short) > 0).then_some(Lacking::Supply(supply.name, on_hand, short))
            });
            lacking.chain(supplies).collect::<Vec<_>>()
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
        let rows = lacking.get().into_iter().map(|lacking| {
            let (name, words) = table.recipe.with(|recipe| told(say, recipe, lacking));
            view! { <p class="callout warning"><b>{name}</b> ": " {heard(&words)}</p> }
        });
        Some(rows.collect_view())
    }
}

/// What it is called, and what of it is on hand and short.
fn told(say: &'static dyn ClassTongue, recipe: &Recipe, lacking: Lacking) -> (String, String) {
    match lacking {
        Lacking::Paper(name, sheets, short) => {
            (name, say.told(recipe, OfClass::OnHand { sheets, short }))
        }
        Lacking::Supply(name, on_hand, short) => {
            let written = |of| speaker(recipe).with_exact().supplied(of);
            let of = OfClass::InStock {
                on_hand: &written(on_hand),
                short: Some(&written(short)),
            };
            (name, say.told(recipe, of))
        }
    }
}
