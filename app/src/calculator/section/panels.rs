//! The strip: its panels, its scores, and how it lies.

use foldwright_engine::fold::questions;
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{OnTop, Runs, Stacked};
use leptos::prelude::*;

use super::super::choice::{Pick, Segments};
use super::super::desk::Desk;
use super::super::number::Number;
use super::cutouts::Cutouts;
use super::fallen::Fallen;
use super::lines::Lines;
use super::problems::ProblemList;
use super::strip::{PanelRows, Shared};

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
        <h2>"Strip"</h2>
        <div class="numbers">
            <Number measure=length label="Length"/>
            <Number measure=height label="Height"/>
            <Number measure=allowance label="Fold-in allowance"/>
        </div>
        <Shared of=None/>
        <ProblemList which=|problem| matches!(problem.place, Place::Recipe | Place::Panel(_) | Place::Score(_) | Place::Line(_) | Place::Cutout(_)) />
        <h2>"Panels"</h2>
        <PanelRows of=None/>
        <Lines of=None/>
        <Fallen of=None/>
        <Cutouts of=None/>
        <h2>"How the card lies"</h2>
        <div class="fields">
            <Pick
                label="Rests on the table, inside up"
                options=names
                chosen=rests
                choose=move |panel| desk.change(|recipe| recipe.base.rests = panel)
            />
            <div class="field">
                <span>"Opens"</span>
                <Segments
                    label="Opens"
                    options=vec![(Runs::Across, "Like a book"), (Runs::Down, "Like a tent")]
                    chosen=runs
                    choose=move |runs| desk.change(|recipe| recipe.base.runs = runs)
                />
            </div>
        </div>
        <OnTopChoices/>
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
            let questions = choices.into_iter().map(|(a, b)| view! { <OnTopChoice a b/> });
            view! {
                <h2>"Which lies on top"</h2>
                <p class="quiet">"The creases allow both. In the closed card, which is nearer the front?"</p>
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
            let name = |sheet| recipe.stacked_name(sheet);
            vec![
                (a, format!("{} over {}", name(a), name(b))),
                (b, format!("{} over {}", name(b), name(a))),
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
    view! { <Pick label="On top" options chosen=upper choose/> }
}
