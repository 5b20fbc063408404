//! What each card takes that is not paper.

use foldwright_engine::card::{Card, Supplied};
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{MOST_OF_A_KIND, Recipe, Supply, SupplyId, Takes, Wraps};
use foldwright_words::{ClassTongue, OfClass};
use leptos::either::Either;
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::field::{LengthField, NameField};
use super::bought::BoughtAs;
use super::on_hand::{Stocked, SupplyOnHand};
use super::rows::Rows;
use crate::part::{Choice, Typed, heard, told};
use crate::spoken::{speaker, texts};
use crate::sync::counted;

/// Each with how much of it a card takes, and so many; and another one.
#[component]
pub(super) fn Supplies(say: &'static dyn ClassTongue, cards: Memo<u32>) -> impl IntoView {
    let desk = Desk::here();
    let ids = |recipe: &Recipe| recipe.supplies.iter().map(|supply| supply.id).collect();
    let name = RwSignal::new(String::new());
    let is_empty = move || name.with(|name| name.trim().is_empty());
    let add = move |takes: Takes| {
        let named = name.get_untracked();
        let add = |recipe: &mut Recipe| recipe.add_supply(named.trim(), takes);
        if desk.edit(None, |recipe| add(recipe).map(|_| Vec::new())) {
            name.set(String::new());
        }
    };
    let ribbon = Takes::Ribbon {
        wraps: Wraps::Across,
        knot: Length::ZERO,
    };
    view! {
        <Rows class="rows" ids row=move |id| view! { <OneSupply say cards id/> }.into_any()/>
        <details class="typed">
            <summary>{say.texts().add_supply}</summary>
            <label class="field">
                <span>{say.texts().supply_name}</span>
                <input
                    type="text"
                    data-unfinished="submit"
                    autocomplete="off"
                    maxlength="200"
                    placeholder=say.texts().such_as_gems
                    prop:value=name
                    on:input=move |event| name.set(event_target_value(&event))
                />
            </label>
            <div class="actions">
                <button
                    type="button"
                    class="button"
                    disabled=is_empty
                    on:click=move |_| add(Takes::Count(1))
                >
                    {say.texts().add_counted}
                </button>
                <button type="button" class="button" disabled=is_empty on:click=move |_| add(ribbon)>
                    {say.texts().add_ribbon}
                </button>
                <button
                    type="button"
                    class="button"
                    disabled=is_empty
                    on:click=move |_| add(Takes::Share(1))
                >
                    {say.texts().add_share}
                </button>
            </div>
        </details>
    }
}

#[component]
fn OneSupply(say: &'static dyn ClassTongue, cards: Memo<u32>, id: SupplyId) -> impl IntoView {
    let desk = Desk::here();
    // A row on its way out has nothing to show any more.
    let supply = Memo::new(move |_| desk.recipe.with(|recipe| recipe.supply(id).cloned()));
    let name = Signal::derive(move || {
        supply.with(|it| it.as_ref().map_or_else(String::new, |it| it.name.clone()))
    });
    let amount = move || {
        supply.with(|it| {
            let it = it.as_ref()?;
            let told = desk.recipe.with(|recipe| {
                desk.card
                    .with(|card| amount(say, (recipe, card), it, cards.get()))
            });
            Some(told)
        })
    };
    let remove = move |_| desk.change(|recipe| recipe.remove_supply(id));
    let is_ribbon = Memo::new(move |_| {
        let takes = supply.with(|it| it.as_ref().map(|it| it.takes));
        matches!(takes, Some(Takes::Ribbon { .. }))
    });
    let takes = move || {
        if is_ribbon.get() {
            Either::Left(view! { <Ribbon say supply id/> })
        } else {
            Either::Right(view! { <Counted say supply id/> })
        }
    };
    let stocked = Stocked::here();
    let costs = move || {
        supply.with(|it| {
            let it = it.as_ref()?;
            let of = (it, stocked.of(it));
            let told = desk.recipe.with(|recipe| {
                desk.card
                    .with(|card| costs(say, (recipe, card), of, cards.get()))
            });
            (!told.is_empty()).then(|| view! { " (" {heard(&told)} ")" })
        })
    };
    view! {
        <li class="needed supply">
            <p><b>{name}</b> ": " {move || amount().map(told)} {costs}</p>
            <div class="fields">
                <NameField
                    label=texts().shape.name
                    name
                    rename=move |name: String| desk.change(|recipe| recipe.rename_supply(id, &name))
                />
            </div>
            {takes}
            <div class="fields">
                <SupplyOnHand say supply/>
            </div>
            <BoughtAs say supply id/>
            <div class="actions">
                <button
                    type="button"
                    class="button quiet"
                    aria-label=move || texts().desk.remove_this(&name.get())
                    on:click=remove
                >
                    {texts().desk.remove}
                </button>
            </div>
        </li>
    }
}

/// How much of it a card takes, and so many.
fn amount(
    say: &'static dyn ClassTongue,
    (recipe, card): (&Recipe, &Card),
    supply: &Supply,
    cards: u32,
) -> String {
    let Some(each) = card.supplied(supply.takes) else {
        return say.texts().does_not_close.to_owned();
    };
    let written = |of| speaker(recipe).with_exact().supplied(of);
    let (each, all) = (written(each), written(each.times(cards)));
    if cards == 1 {
        return each;
    }
    let (each, all) = (&*each, &*all);
    say.told(recipe, OfClass::EachAndAll { each, all })
}

/// What is on hand of it, where that is counted, what so many cost, and what is to buy,
/// as far as that is known.
fn costs(
    say: &'static dyn ClassTongue,
    (recipe, card): (&Recipe, &Card),
    (supply, on_hand): (&Supply, Option<Supplied>),
    cards: u32,
) -> String {
    let in_stock = on_hand.map(|on_hand| {
        let written = |of| speaker(recipe).with_exact().supplied(of);
        let short = card.short_of(supply.takes, cards, on_hand);
        let short = short.filter(|short| counted(*short) > 0).map(written);
        let of = OfClass::InStock {
            on_hand: &written(on_hand),
            short: short.as_deref(),
        };
        say.told(recipe, of)
    });
    let mark = recipe.notation.decimal;
    let cost = card.supply_cost(supply, cards).map(|cost| {
        let amount = cost.words(mark);
        say.told(recipe, OfClass::Costs(&amount))
    });
    let to_buy = card.to_buy(supply, cards, on_hand).map(|to_buy| {
        let amount = to_buy.costs.map(|costs| costs.words(mark));
        let of = OfClass::ToBuy {
            packs: to_buy.packs,
            are_rolls: matches!(supply.takes, Takes::Ribbon { .. }),
            costs: amount.as_deref(),
        };
        say.told(recipe, of)
    });
    let told: Vec<_> = in_stock.into_iter().chain(cost).chain(to_buy).collect();
    told.join(", ")
}

#[component]
fn Counted(
    say: &'static dyn ClassTongue,
    supply: Memo<Option<Supply>>,
    id: SupplyId,
) -> impl IntoView {
    let desk = Desk::here();
    let kept = Signal::derive(move || {
        supply.with(|it| match it.as_ref().map(|it| it.takes) {
            Some(Takes::Count(count) | Takes::Share(count)) => count.to_string(),
            _ => String::new(),
        })
    });
    let is_share = supply.with_untracked(|it| {
        let takes = it.as_ref().map(|it| it.takes);
        matches!(takes, Some(Takes::Share(_)))
    });
    let take = move |typed: &str| {
        let count = typed.trim().parse().ok();
        let count = count.filter(|count| (1..=MOST_OF_A_KIND).contains(count));
        let Some(count) = count else {
            let recipe = desk.recipe;
            return Err(
                recipe.with_untracked(|recipe| say.told(recipe, OfClass::OneTo(MOST_OF_A_KIND)))
            );
        };
        let takes = if is_share { Takes::Share } else { Takes::Count };
        desk.change(|recipe| recipe.take_of_supply(id, takes(count)));
        Ok(())
    };
    let label = if is_share {
        say.texts().lasts_for
    } else {
        say.texts().so_many_each
    };
    view! {
        <div class="fields">
            <Typed label keys="numeric" kept take/>
        </div>
    }
}

#[component]
fn Ribbon(
    say: &'static dyn ClassTongue,
    supply: Memo<Option<Supply>>,
    id: SupplyId,
) -> impl IntoView {
    let desk = Desk::here();
    let now = Memo::new(move |_| {
        supply.with(|it| match it.as_ref().map(|it| it.takes) {
            Some(Takes::Ribbon { wraps, knot }) => (wraps, knot),
            _ => (Wraps::Across, Length::ZERO),
        })
    });
    let set = move |wraps: Wraps, knot: Length| {
        desk.change(|recipe| recipe.take_of_supply(id, Takes::Ribbon { wraps, knot }));
    };
    view! {
        <Choice
            label=say.texts().how_it_wraps.to_owned()
            titled=true
            options=move || vec![
                (Wraps::Across, say.texts().across),
                (Wraps::Upright, say.texts().upright),
                (Wraps::BothWays, say.texts().both_ways),
            ]
            chosen=Signal::derive(move || now.get().0)
            choose=move |wraps| set(wraps, now.get_untracked().1)
        />
        <div class="fields">
            <LengthField
                label=say.texts().knot
                length=Signal::derive(move || now.get().1)
                set=move |knot: Length| set(now.get_untracked().0, knot.max(Length::ZERO))
            />
        </div>
        <p class="quiet">{say.texts().about_ribbon}</p>
    }
}
