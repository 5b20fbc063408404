//! What all that cards take costs, and what is to buy of it.

use std::num::NonZeroU32;

use foldwright_engine::paper::Money;
use foldwright_words::{ClassTongue, OfClass};
use leptos::prelude::*;

use super::needed::Needed;
use super::on_hand::Stocked;
use crate::sync::Syncing;

/// What paper and all besides cost, each by its pack, and what the packs cost that are to
/// be bought. A sum is of amounts as they stand in their rows.
#[component]
pub(super) fn Costs(say: &'static dyn ClassTongue, needed: Needed) -> impl IntoView {
    let syncing = use_context::<Signal<Option<Syncing>>>();
    move || {
        let syncing = syncing?.get()?;
        Some(view! { <Told say needed syncing/> })
    }
}

/// The same where the counts of paper are at hand.
#[component]
fn Told(say: &'static dyn ClassTongue, needed: Needed, syncing: Syncing) -> impl IntoView {
    let desk = needed.desk;
    let costs = move || {
        let papers = needed.costs(syncing);
        let cards = needed.cards();
        let supplies = desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let supplies = recipe.supplies.iter();
                let costs = supplies.map(|it| card.supply_cost(it, cards));
                costs.collect::<Vec<_>>()
            })
        });
        let with_supplies = supplies.iter().any(Option::is_some);
        let costs = || {
            let papers = papers.iter().map(|(_, cost)| *cost);
            papers.chain(supplies.iter().copied())
        };
        let all: Money = costs().flatten().sum();
        let each = all.shared(NonZeroU32::new(cards).unwrap_or(NonZeroU32::MIN));
        costs().any(|cost| cost.is_some()).then(|| {
            let of = OfClass::AllCosts {
                all: &needed.written(all),
                each: &needed.written(each),
                with_supplies,
            };
            let lacks = papers.iter().any(|(_, cost)| cost.is_none());
            let lacks = lacks.then_some(say.texts().some_without_price);
            let others = supplies.iter().any(Option::is_none);
            let others = others.then_some(say.texts().supplies_without_price);
            view! { <p aria-live="polite">{needed.told(say, of)} " " {lacks} " " {others}</p> }
        })
    };
    let stocked = Stocked::here();
    let to_buy = move || {
        let papers = needed.costs(syncing).into_iter();
        let papers = papers.filter_map(|(stock, _)| needed.to_buy(syncing, stock)?.costs);
        let cards = needed.cards();
        let supplies = desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let supplies = recipe.supplies.iter();
                let costs = supplies.filter_map(|it| card.to_buy(it, cards, stocked.of(it))?.costs);
                costs.collect::<Vec<_>>()
            })
        });
        let all: Vec<Money> = papers.chain(supplies).collect();
        (!all.is_empty()).then(|| {
            let all = needed.written(all.into_iter().sum());
            view! { <p>{needed.told(say, OfClass::BuyAll(&all))}</p> }
        })
    };
    view! {
        {costs}
        {to_buy}
    }
}
