//! The papers of the recipe, and how its lengths are written.

use foldwright_engine::length::{DecimalMark, Notation, Step, Unit};
use foldwright_engine::paper::StockId;
use foldwright_engine::part::Part;
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::StripId;
use foldwright_engine::refit::{between_marks, limited, onto_marks, rounded};
use leptos::prelude::*;

use super::super::desk::{Desk, Outcome};
use super::super::pull_down::Pick;
use super::cut_from::{CutFrom, stocks};
use super::problems::ProblemList;
use super::stock::StockEditor;
use crate::offered::Offered;
use crate::part::Choice;
use crate::spoken::{speaker, texts};

/// What the card is cut from.
#[component]
pub(crate) fn Paper() -> impl IntoView {
    let desk = Desk::here();
    let stocks = stocks();
    let base = Signal::derive(move || desk.recipe.with(|recipe| recipe.base.stock));
    let wanted = RwSignal::new(None::<StockId>);
    let edited = Memo::new(move |_| {
        let wanted = wanted.get();
        stocks.with(|stocks| {
            let kept = stocks.iter().find(|(id, _)| Some(*id) == wanted);
            kept.map_or(base.get(), |(id, _)| *id)
        })
    });
    let ready: Vec<_> = std::iter::once((None, texts().desk.choose_one.to_owned()))
        .chain(Offered::all().map(|paper| (Some(paper), paper.name())))
        .collect();
    let nothing = RwSignal::new(None::<Offered>);
    let add = move |which: Option<Offered>| {
        let Some(paper) = which else { return };
        let mut stock = paper.stock();
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
        <h2>{texts().paper.paper_of_base}</h2>
        <ProblemList which=|problem| problem.place == Place::Paper here=true/>
        <div class="fields">
            <CutFrom label=texts().paper.base_cut_from part=Part::Strip(StripId::Base)/>
        </div>
        <h2>{texts().paper.papers}</h2>
        <div class="fields">
            <Pick label=texts().paper.look_at options=stocks chosen=edited choose=move |id| wanted.set(Some(id))/>
            <Pick label=texts().paper.add_paper options=Signal::stored(ready) chosen=nothing choose=add/>
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
        <h2>{texts().paper.how_lengths_are_written}</h2>
        <div class="fields">
            <Pick
                label=texts().paper.smallest_division
                options=steps
                chosen=step
                choose=move |step| set(|notation, step, _| Notation { step, ..notation }, step, decimal.get_untracked())
            />
            <div class="field">
                <span>{texts().paper.decimal_mark}</span>
                <Choice
                    label=texts().paper.decimal_mark
                    options=|| vec![(DecimalMark::Point, texts().paper.point), (DecimalMark::Comma, texts().paper.comma)]
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
            let given = desk.recipe.with_untracked(|before| {
                let given = rounded(before, &refit).chain(limited(before, &refit));
                let say = speaker(&refit.recipe).with_exact();
                given.map(|it| say.outcome(&it)).collect::<Vec<_>>()
            });
            desk.edit(None, |recipe| {
                *recipe = refit.recipe;
                let moved = refit.changes.into_iter();
                Ok(moved.map(|moved| moved.change).collect())
            });
            desk.outcome.update(|outcome| {
                if let Outcome::Made { placed, .. } = outcome {
                    placed.extend(given);
                }
            });
        }
        Err(_) => desk.outcome.set(Outcome::Refused {
            words: texts().paper.none_on_divisions.to_owned(),
            pinned: Vec::new(),
        }),
    };
    let told = move || texts().paper.between_divisions(count.get());
    view! {
        <Show when=move || { count.get() > 0 }>
            <p>{told}</p>
            <div class="actions">
                <button type="button" class="button" on:click=bring>{texts().paper.bring_onto_ruler}</button>
            </div>
        </Show>
    }
}
