//! Which envelope takes the card, and by whose rule.

use foldwright_engine::paper::{CLEARANCE_RULES, ClearanceRule, ENVELOPES, why_not};
use foldwright_engine::problem::Place;
use foldwright_engine::words;
use leptos::prelude::*;

use super::super::choice::Pick;
use super::super::desk::Desk;
use super::problems::ProblemList;

/// The rules side by side, and the envelopes that take the card.
#[component]
pub(in super::super) fn Envelope() -> impl IntoView {
    let desk = Desk::here();
    let rule = move || desk.recipe.with(|recipe| recipe.posting.rule.clone());
    let rules = CLEARANCE_RULES
        .iter()
        .map(|offered| {
            view! {
                <label class="option">
                    <input
                        type="radio"
                        name="clearance-rule"
                        prop:checked=move || rule() == offered.id
                        on:change=move |_| desk.change(|recipe| offered.id.clone_into(&mut recipe.posting.rule))
                    />
                    <span>
                        <b>{offered.name}</b>
                        <span>{offered.words}</span>
                        <span class="quiet">{format!("Source: {}.", offered.source)}</span>
                    </span>
                </label>
            }
        })
        .collect_view();
    view! {
        <h2>"Envelopes that take it"</h2>
        <ProblemList which=|problem| problem.place == Place::Envelope here=true/>
        <Fits/>
        <p class="quiet">"Outside sizes as published; makers allow themselves a little either way, so try one first."</p>
        <h2>"How much room"</h2>
        <p class="quiet">"Printed rules differ. Take the one you trust."</p>
        <div class="options" role="radiogroup" aria-label="How much room">{rules}</div>
        <WhyNot/>
    }
}

#[component]
fn Fits() -> impl IntoView {
    let desk = Desk::here();
    let chosen = move || desk.recipe.with(|recipe| recipe.posting.envelope.clone());
    let choose = move |id: Option<&'static str>| {
        desk.change(|recipe| recipe.posting.envelope = id.map(str::to_owned));
    };
    let fits = move || {
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                card.envelopes
                    .iter()
                    .map(|fit| {
                        let id = fit.envelope.id;
                        view! {
                            <label class="option">
                                <input
                                    type="radio"
                                    name="envelope"
                                    prop:checked=move || chosen().as_deref() == Some(id)
                                    on:change=move |_| choose(Some(id))
                                />
                                <span>
                                    <b>{fit.envelope.name}</b>
                                    <span>{fit.envelope.size_words(recipe.notation.decimal)}</span>
                                    <span class="quiet">{words::spare_words(recipe, fit)}</span>
                                </span>
                            </label>
                        }
                    })
                    .collect_view()
            })
        })
    };
    view! {
        <div class="options" role="radiogroup" aria-label="Envelope">
            <label class="option">
                <input
                    type="radio"
                    name="envelope"
                    prop:checked=move || chosen().is_none()
                    on:change=move |_| choose(None)
                />
                <span><b>"Not chosen yet"</b></span>
            </label>
            {fits}
        </div>
    }
}

/// Says of any envelope why it does not take the card.
#[component]
fn WhyNot() -> impl IntoView {
    let desk = Desk::here();
    let asked = RwSignal::new(None::<usize>);
    let options: Vec<_> = std::iter::once((None, "Choose one".to_owned()))
        .chain(
            ENVELOPES
                .iter()
                .enumerate()
                .map(|(place, envelope)| (Some(place), envelope.name.to_owned())),
        )
        .collect();
    let answer = move || {
        let envelope = ENVELOPES.get(asked.get()?)?;
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let rule = ClearanceRule::by_id(&recipe.posting.rule)?;
                let finished = (card.finished.width, card.finished.height);
                Some(match why_not(envelope, finished, rule) {
                    Some(misfit) => misfit.words(recipe.notation),
                    None => format!("{} takes this card.", envelope.name),
                })
            })
        })
    };
    view! {
        <h2>"Why not this one?"</h2>
        <div class="fields">
            <Pick label="Envelope" options=Signal::stored(options) chosen=asked choose=move |place| asked.set(place)/>
        </div>
        <p aria-live="polite">{answer}</p>
    }
}
