//! The score chart.

use foldwright_engine::recipe::Side;
use foldwright_engine::score::Scoring;
use leptos::prelude::*;

use super::super::choice::Segments;
use super::super::desk::Desk;
use super::fold_in::FoldIn;
use crate::part::passes;

/// How the strip is scored, pass by pass.
#[component]
pub(in super::super) fn Scores() -> impl IntoView {
    let desk = Desk::here();
    let scoring = Signal::derive(move || desk.recipe.with(|recipe| recipe.scoring));
    view! {
        <h2>"Score chart"</h2>
        <Segments
            label="How to score"
            options=vec![
                (Scoring::OnePass(Side::A), "Inside up"),
                (Scoring::OnePass(Side::B), "Outside up"),
                (Scoring::Crispest, "Crispest"),
            ]
            chosen=scoring
            choose=move |scoring| desk.change(|recipe| recipe.scoring = scoring)
        />
        <p class="quiet">
            {move || match scoring.get() {
                Scoring::OnePass(_) => "Every score with one side up: the strip is never turned over, and some bumps lie outside their fold.",
                Scoring::Crispest => "Every bump inside its fold: the strip is turned over where folds alternate.",
            }}
        </p>
        <Chart/>
        <FoldIn/>
    }
}

#[component]
fn Chart() -> impl IntoView {
    let desk = Desk::here();
    move || {
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let chart = &card.chart;
                let turns = format!(
                    "Turn over: {}. Turn round: {}.",
                    times(chart.turns_over),
                    times(chart.turns_round)
                );
                if chart.passes.is_empty() {
                    view! { <p class="quiet">"There is nothing to score."</p> }.into_any()
                } else {
                    view! {
                        {passes(recipe, card, None, chart)}
                        <p class="quiet">{turns}</p>
                    }
                    .into_any()
                }
            })
        })
    }
}

fn times(count: usize) -> String {
    match count {
        0 => "never".to_owned(),
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        more => format!("{more} times"),
    }
}
