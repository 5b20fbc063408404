//! The strip: its panels, its scores, and how it lies.

use foldwright_engine::fold::questions;
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{OnTop, Runs, Stacked, StripId};
use leptos::context::Provider;
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::number::Number;
use super::super::pull_down::Pick;
use super::cutouts::Cutouts;
use super::fallen::Fallen;
use super::lines::Lines;
use super::problems::ProblemList;
use super::strip::{PanelRows, Shared};
use crate::part::Choice;
use crate::spoken::{speaker, texts};

/// The strip's panels in order, with the scores between them.
#[component]
pub(in super::super) fn Panels() -> impl IntoView {
    let desk = Desk::here();
    let length = Signal::derive(move || desk.recipe.with(|recipe| recipe.base.length));
    let height = Signal::derive(move || desk.recipe.with(|recipe| recipe.base.height));
    let allowance = Signal::derive(move || desk.recipe.with(|recipe| recipe.folding_in.allowance));
    let rests = Signal::derive(move || desk.recipe.with(|recipe| recipe.base.rests));
    let runs = Signal::derive(move || desk.recipe.with(|recipe| recipe.base.runs));
    let names = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let panels = recipe.base.panels.iter();
            panels
                .map(|panel| (panel.id, panel.name.clone()))
                .collect::<Vec<_>>()
        })
    });
    view! {
        <h2>{texts().shape.card_base}</h2>
        <div class="numbers">
            <Number measure=length label=texts().shape.length/>
            <Number measure=height label=texts().shape.height/>
            <Number measure=allowance label=texts().shape.fold_in_allowance/>
        </div>
        <Shared of=StripId::Base/>
        // After the numbers, and which of them lies on top last: of a hundred panels
        // all of it takes too long for one go.
        <Provider value=desk.behind()>
            <ProblemList which=|problem| matches!(problem.place, Place::Recipe | Place::Panel(_) | Place::Score(_) | Place::Line(_) | Place::Cutout(_)) />
        </Provider>
        <h2>{texts().shape.panels}</h2>
        <PanelRows of=StripId::Base/>
        <Lines of=StripId::Base/>
        <Fallen of=StripId::Base/>
        <Cutouts of=StripId::Base/>
        <h2>{texts().shape.how_it_lies}</h2>
        <div class="fields">
            <Pick
                label=texts().shape.rests
                options=names
                chosen=rests
                choose=move |panel| desk.change(|recipe| recipe.base.rests = panel)
            />
            <div class="field">
                <span>{texts().shape.opens}</span>
                <Choice
                    label=texts().shape.opens
                    options=|| vec![(Runs::Across, texts().shape.side_fold), (Runs::Down, texts().shape.top_fold)]
                    chosen=runs
                    choose=move |runs| desk.change(|recipe| recipe.base.runs = runs)
                />
            </div>
        </div>
        <Provider value=desk.behind()>
            <OnTopChoices/>
        </Provider>
    }
}

/// Which panel lies on top, where the scores leave it open.
#[component]
fn OnTopChoices() -> impl IntoView {
    let desk = Desk::here();
    let choices = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let folded = card.folded.as_ref();
                folded.map_or_else(Vec::new, |folded| questions(recipe, &card.laid, folded))
            })
        })
    });
    move || {
        let choices = choices.get();
        (!choices.is_empty()).then(|| {
            let questions = choices
                .into_iter()
                .map(|(a, b)| view! { <OnTopChoice a b/> });
            view! {
                <h2>{texts().shape.which_on_top}</h2>
                <p class="quiet">{texts().shape.both_allowed}</p>
                <div class="fields">{questions.collect_view()}</div>
            }
        })
    }
}

#[component]
fn OnTopChoice(a: Stacked, b: Stacked) -> impl IntoView {
    let desk = Desk::here();
    // The closed card has an order even where the maker gave no answer.
    let upper = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let folded = card.folded.as_ref();
                match folded.and_then(|folded| folded.on_top(recipe, &card.laid, a, b)) {
                    Some(false) => b,
                    Some(true) | None => a,
                }
            })
        })
    });
    let options = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let say = speaker(recipe);
            let name = |sheet| say.stacked(sheet);
            vec![
                (a, texts().shape.over(&name(a), &name(b))),
                (b, texts().shape.over(&name(b), &name(a))),
            ]
        })
    });
    let choose = move |upper: Stacked| {
        let lower = if upper == a { b } else { a };
        desk.edit(None, |recipe| {
            recipe.adding(|recipe| {
                let same = |answer: &OnTop| answer.sheets().iter().all(|it| [a, b].contains(it));
                recipe.base.on_top.retain(|answer| !same(answer));
                recipe.base.on_top.push(OnTop { upper, lower });
            })
        });
    };
    view! { <Pick label=texts().shape.on_top options chosen=upper choose/> }
}
