//! How something that is not paper is bought: what there is in a pack or on a roll, what
//! that costs, and what it weighs.

use foldwright_engine::length::{Length, Unit};
use foldwright_engine::paper::{Mass, Money, hundredths};
use foldwright_engine::recipe::{
    Bought, HEAVIEST_PACK, InPack, LONGEST_ROLL, MOST_IN_A_PACK, Supply, SupplyId, Takes,
};
use foldwright_words::{ClassTongue, OfClass};
use leptos::prelude::*;

use super::super::desk::Desk;
use crate::part::Typed;

/// By how much ribbon is sold: a metre, or a yard of 36 in (international yard and pound,
/// 1959).
const fn sold_by(unit: Unit) -> Length {
    match unit {
        Unit::Millimetre => Length::mm(1000),
        Unit::Inch => Length::from_units(36 * Length::PER_INCH),
    }
}

/// Its price, how much of it there is for that, and what that weighs.
#[component]
pub(super) fn BoughtAs(
    say: &'static dyn ClassTongue,
    supply: Memo<Option<Supply>>,
    id: SupplyId,
) -> impl IntoView {
    let desk = Desk::here();
    let takes = supply.with_untracked(|it| it.as_ref().map(|it| it.takes));
    let is_ribbon = matches!(takes, Some(Takes::Ribbon { .. }));
    // What is shared is glue or the like, which dries.
    let is_weighed = !matches!(takes, Some(Takes::Share(_)));
    let unit = move || desk.notation().unit();
    // What one gets for a price before it is said.
    let usual = move || Bought {
        holds: if is_ribbon {
            InPack::Length(sold_by(unit()))
        } else {
            InPack::Count(1)
        },
        price: None,
        mass: None,
    };
    let bought = move || supply.with(|it| it.as_ref()?.bought).unwrap_or_else(usual);
    let set = move |change: &dyn Fn(&mut Bought)| {
        let mut bought = untrack(bought);
        change(&mut bought);
        let is_usual = bought == untrack(usual);
        desk.change(|recipe| recipe.buy_supply(id, (!is_usual).then_some(bought)));
    };
    let mark = move || desk.notation().decimal;
    let price = Signal::derive(move || {
        let price = bought().price;
        price.map_or_else(String::new, |price| price.words(mark()))
    });
    let set_price = move |text: &str| {
        let price = Money::read(text);
        if price.is_none() && !text.trim().is_empty() {
            return Err(say.texts().no_price.to_owned());
        }
        set(&|bought| bought.price = price);
        Ok(())
    };
    let holds = Signal::derive(move || match bought().holds {
        InPack::Count(count) => count.to_string(),
        InPack::Length(length) => {
            let hundredths = i128::from(length.units()) * 100;
            let by = i128::from(sold_by(unit()).units());
            let nearest = u32::try_from((hundredths + by / 2) / by).unwrap_or(u32::MAX);
            Money::hundredths(nearest).words(mark())
        }
    });
    let set_holds = move |text: &str| {
        let holds = if is_ribbon {
            let by = untrack(unit);
            let length = hundredths(text).map(|hundredths| {
                let units = sold_by(by).units() / 100;
                Length::from_units(units.saturating_mul(hundredths.into()))
            });
            let length = length.filter(|it| (Length::from_units(1)..=LONGEST_ROLL).contains(it));
            length.map(InPack::Length)
        } else {
            let count = text.trim().parse().ok();
            let count = count.filter(|count| (1..=MOST_IN_A_PACK).contains(count));
            count.map(InPack::Count)
        };
        let Some(holds) = holds else {
            let most = if is_ribbon { 999 } else { MOST_IN_A_PACK };
            let recipe = desk.recipe;
            return Err(recipe.with_untracked(|recipe| say.told(recipe, OfClass::UpTo(most))));
        };
        set(&|bought| bought.holds = holds);
        Ok(())
    };
    let mass = Signal::derive(move || {
        let mass = bought().mass;
        mass.map_or_else(String::new, |mass| mass.grams(mark()))
    });
    let set_mass = move |text: &str| {
        let mass = Mass::read(text).filter(|mass| *mass <= HEAVIEST_PACK);
        if mass.is_none() && !text.trim().is_empty() {
            return Err(say.texts().no_mass.to_owned());
        }
        set(&|bought| bought.mass = mass);
        Ok(())
    };
    let texts = say.texts();
    let (of_price, of_mass) = if is_ribbon {
        (texts.roll_price, texts.roll_mass)
    } else {
        (texts.pack_price, texts.pack_mass)
    };
    let fields = move || {
        let of_holds = match (is_ribbon, unit()) {
            (false, _) => texts.pack_pieces,
            (true, Unit::Millimetre) => texts.roll_metres,
            (true, Unit::Inch) => texts.roll_yards,
        };
        let weighed = is_weighed
            .then(|| view! { <Typed label=of_mass keys="decimal" kept=mass take=set_mass/> });
        view! {
            <Typed label=of_price keys="decimal" kept=price take=set_price/>
            <Typed label=of_holds keys="decimal" kept=holds take=set_holds/>
            {weighed}
        }
    };
    view! { <div class="fields">{fields}</div> }
}
