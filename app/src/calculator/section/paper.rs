//! The papers of the recipe, and how its lengths are written.

use foldwright_engine::length::{DecimalMark, Notation, Step, Unit};
use foldwright_engine::paper::{StockId, ready_stocks};
use foldwright_engine::problem::Place;
use foldwright_engine::refit::{between_marks, onto_marks};
use leptos::prelude::*;

use super::super::choice::{Pick, Segments};
use super::super::desk::{Desk, Outcome};
use super::problems::ProblemList;
use super::stock::StockEditor;

/// What the card is cut from.
#[component]
pub(in super::super) fn Paper() -> impl IntoView {
    let desk = Desk::here();
    let stocks = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let stocks = recipe.stocks.iter();
            stocks
                .map(|stock| (stock.id, stock.name.clone()))
                .collect::<Vec<_>>()
        })
    });
    let base = Signal::derive(move || desk.recipe.with(|recipe| recipe.base.stock));
    let wanted = RwSignal::new(None::<StockId>);
    let edited = Memo::new(move |_| {
        let wanted = wanted.get();
        stocks.with(|stocks| {
            let kept = stocks.iter().find(|(id, _)| Some(*id) == wanted);
            kept.map_or(base.get(), |(id, _)| *id)
        })
    });
    let ready: Vec<_> = std::iter::once((None, "Choose one".to_owned()))
        .chain(
            ready_stocks()
                .into_iter()
                .map(|stock| (Some(stock.id), stock.name)),
        )
        .collect();
    let nothing = RwSignal::new(None::<StockId>);
    let add = move |which: Option<StockId>| {
        let found = ready_stocks()
            .into_iter()
            .find(|stock| Some(stock.id) == which);
        let Some(mut stock) = found else { return };
        let added = desk.edit(None, |recipe| {
            recipe.adding(|recipe| {
                let used = recipe.stocks.iter().map(|stock| stock.id.0).max();
                if let Some(id) = used.map_or(Some(1), |most| most.checked_add(1)) {
                    stock.id = StockId(id);
                    recipe.stocks.push(stock.clone());
                }
            })
        });
        if added {
            wanted.set(Some(stock.id));
        }
        // The list goes back to its first line.
        nothing.set(which);
        nothing.set(None);
    };
    view! {
        <h2>"Paper of the strip"</h2>
        <ProblemList which=|problem| problem.place == Place::Paper here=true/>
        <div class="fields">
            <Pick
                label="The strip is cut from"
                options=stocks
                chosen=base
                choose=move |stock| desk.change(|recipe| recipe.base.stock = stock)
            />
        </div>
        <h2>"Papers"</h2>
        <div class="fields">
            <Pick label="Look at" options=stocks chosen=edited choose=move |id| wanted.set(Some(id))/>
            <Pick label="Add another paper" options=Signal::stored(ready) chosen=nothing choose=add/>
        </div>
        {move || {
            let id = edited.get();
            view! { <StockEditor id/> }
        }}
        <Writing/>
    }
}

/// Unit, step and decimal mark of the recipe.
#[component]
fn Writing() -> impl IntoView {
    let desk = Desk::here();
    let step = Signal::derive(move || desk.notation().step);
    let decimal = Signal::derive(move || desk.notation().decimal);
    let steps = Signal::derive(move || {
        [Unit::Inch, Unit::Millimetre]
            .into_iter()
            .flat_map(Step::all_for)
            .map(|step| (*step, step.words(decimal.get())))
            .collect::<Vec<_>>()
    });
    let set = move |change: fn(Notation, Step, DecimalMark) -> Notation, step, decimal| {
        desk.change(|recipe| recipe.notation = change(recipe.notation, step, decimal));
    };
    view! {
        <h2>"How lengths are written"</h2>
        <div class="fields">
            <Pick
                label="Smallest division on your ruler"
                options=steps
                chosen=step
                choose=move |step| set(|notation, step, _| Notation { step, ..notation }, step, decimal.get_untracked())
            />
            <div class="field">
                <span>"Decimal mark"</span>
                <Segments
                    label="Decimal mark"
                    options=vec![(DecimalMark::Point, "Point"), (DecimalMark::Comma, "Comma")]
                    chosen=decimal
                    choose=move |decimal| set(|notation, _, decimal| Notation { decimal, ..notation }, step.get_untracked(), decimal)
                />
            </div>
        </div>
        <BetweenMarks/>
    }
}

/// Lengths that lie between the divisions of the ruler, and the way to bring them
/// onto it.
#[component]
fn BetweenMarks() -> impl IntoView {
    let desk = Desk::here();
    let count = Memo::new(move |_| desk.recipe.with(|recipe| between_marks(recipe).len()));
    let bring = move |_| match desk.recipe.with_untracked(onto_marks) {
        Ok(refit) => {
            desk.edit(None, |recipe| {
                *recipe = refit.recipe;
                let moved = refit.changes.into_iter();
                Ok(moved.map(|moved| moved.change).collect())
            });
        }
        Err(_) => desk.outcome.set(Outcome::Refused {
            words: "No card near this one lies on these divisions. Choose finer ones, or look \
                    for another size under Resize."
                .to_owned(),
            pinned: Vec::new(),
        }),
    };
    let told = move || match count.get() {
        1 => "1 length lies between these divisions.".to_owned(),
        more => format!("{more} lengths lie between these divisions."),
    };
    view! {
        <Show when=move || { count.get() > 0 }>
            <p>{told}</p>
            <div class="actions">
                <button type="button" class="button" on:click=bring>"Bring them onto the ruler"</button>
            </div>
        </Show>
    }
}
