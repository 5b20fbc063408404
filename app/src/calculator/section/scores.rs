//! The score chart.

use foldwright_engine::recipe::{Scoring, Side, StripId};
use leptos::prelude::*;

use super::super::desk::Desk;
use super::fold_in::FoldIn;
use super::take_away::TakeAway;
use crate::part::{Choice, Runs, passes};
use crate::spoken::texts;

/// How the strip is scored, pass by pass.
#[component]
pub(crate) fn Scores() -> impl IntoView {
    let desk = Desk::here();
    let scoring = Signal::derive(move || desk.recipe.with(|recipe| recipe.scoring));
    view! {
        <h2>{texts().paper.score_chart}</h2>
        <Choice
            label=texts().paper.how_to_score
            options=|| vec![
                (Scoring::OnePass(Side::A), texts().paper.inside_up),
                (Scoring::OnePass(Side::B), texts().paper.outside_up),
                (Scoring::Crispest, texts().paper.ridge_inside),
            ]
            chosen=scoring
            choose=move |scoring| desk.change(|recipe| recipe.scoring = scoring)
        />
        <p class="quiet">
            {move || match scoring.get() {
                Scoring::OnePass(_) => texts().paper.one_side_up,
                Scoring::Crispest => texts().paper.ridges_inside,
            }}
        </p>
        <Chart/>
        <FoldIn/>
        <TakeAway/>
        <Runs edited=desk.edited() open=false/>
    }
}

#[component]
fn Chart() -> impl IntoView {
    let desk = Desk::here();
    move || {
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let chart = &card.chart;
                let turns = texts().paper.turns(chart.turns_over, chart.turns_round);
                if chart.passes.is_empty() {
                    view! { <p class="quiet">{texts().paper.nothing_to_score}</p> }.into_any()
                } else {
                    view! {
                        {passes(recipe, card, StripId::Base, chart)}
                        <p class="quiet">{turns}</p>
                    }
                    .into_any()
                }
            })
        })
    }
}
