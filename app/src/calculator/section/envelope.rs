//! Which envelope takes the card, and by whose rule.

use foldwright_engine::paper::{CLEARANCE_RULES, ClearanceRule, ENVELOPES, why_not};
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::Recipe;
use foldwright_words::ClassTongue;
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::pull_down::Pick;
use super::make_envelope::{MakeEnvelope, made_for};
use super::problems::ProblemList;
use crate::part::{heard, told};
use crate::spoken::{speaker, speaker_without_recipe, texts};

/// The rules side by side, and the envelopes that take the card.
#[component]
pub(crate) fn Envelope() -> impl IntoView {
    let desk = Desk::here();
    let rule = move || desk.recipe.with(|recipe| recipe.posting.rule.clone());
    // Where no other takes the card, one that is made for it comes first.
    let none = Memo::new(move |_| desk.card.with(|card| card.envelopes.is_empty()));
    let made = move |say: &'static dyn ClassTongue| {
        let of = |recipe: &Recipe| desk.card.with(|card| made_for(say, recipe, card));
        desk.recipe.with(of)
    };
    let say = untrack(|| speaker_without_recipe(desk.notation()));
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
                        <b>{say.clearance(offered.is)}</b>
                        <span>{say.asks(offered.is)}</span>
                        <span class="quiet">{say.source(offered.source)}</span>
                    </span>
                </label>
            }
        })
        .collect_view();
    view! {
        <h2>{texts().paper.envelopes_that_take_it}</h2>
        <ProblemList which=|problem| problem.place == Place::Envelope here=true/>
        <Show when=move || none.get()>
            <MakeEnvelope made opens=true/>
        </Show>
        <Fits/>
        <p class="quiet">{texts().paper.try_one_first}</p>
        <Show when=move || !none.get()>
            <MakeEnvelope made opens=true/>
        </Show>
        <h2>{texts().paper.clearance}</h2>
        <p class="quiet">{texts().paper.rules_differ}</p>
        <div class="options" role="radiogroup" aria-label=texts().paper.clearance>{rules}</div>
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
                                    <b>{speaker(recipe).envelope(fit.envelope)}</b>
                                    <span>{heard(fit.envelope.size_words(recipe.notation.decimal))}</span>
                                    <span class="quiet">{heard(speaker(recipe).spare(fit))}</span>
                                </span>
                            </label>
                        }
                    })
                    .collect_view()
            })
        })
    };
    view! {
        <div class="options" role="radiogroup" aria-label=texts().paper.envelope>
            <label class="option">
                <input
                    type="radio"
                    name="envelope"
                    prop:checked=move || chosen().is_none()
                    on:change=move |_| choose(None)
                />
                <span><b>{texts().paper.not_chosen}</b></span>
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
    let say = untrack(|| speaker_without_recipe(desk.notation()));
    let options: Vec<_> = std::iter::once((None, texts().desk.choose_one.to_owned()))
        .chain(
            ENVELOPES
                .iter()
                .enumerate()
                .map(|(place, envelope)| (Some(place), say.envelope(envelope))),
        )
        .collect();
    let answer = move || {
        let envelope = ENVELOPES.get(asked.get()?)?;
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let rule = ClearanceRule::by_id(&recipe.posting.rule)?;
                let finished = (card.finished.width, card.finished.height);
                Some(match why_not(envelope, finished, rule) {
                    Some(misfit) => speaker(recipe).with_exact().lacking(misfit),
                    None => texts().paper.takes_it(&say.envelope(envelope)),
                })
            })
        })
    };
    view! {
        <h2>{texts().paper.why_not}</h2>
        <div class="fields">
            <Pick label=texts().paper.envelope options=Signal::stored(options) chosen=asked choose=move |place| asked.set(place)/>
        </div>
        <p aria-live="polite">{move || answer().map(told)}</p>
    }
}
