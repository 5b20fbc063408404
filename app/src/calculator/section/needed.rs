//! The sheets that so many cards take, what of them is on hand, and what they cost.

use std::collections::BTreeMap;
use std::num::NonZeroU32;
use std::sync::Arc;

use foldwright_engine::cut_plan::{CutPlan, Scraps};
use foldwright_engine::paper::{Money, Pack, StockId, ToBuy};
use foldwright_engine::recipe::{ForClass, Recipe};
use foldwright_engine::steps::Value;
use foldwright_words::{ClassTongue, OfClass};
use leptos::prelude::*;

use super::super::desk::Desk;
use super::scraps::ScrapsOf;
use crate::part::Typed;
use crate::planning::{
    Asked, Goal, Looking, MOST_ROUNDS, MOST_SCRAPS, ROUNDS, Seen, look, scraps_of,
};
use crate::spoken::speaker;
use crate::sync::{Paper, Syncing};

/// The most sheets in a pack. Our own bound: a pallet.
const MOST: u32 = 99_999;

/// How many sheets of each paper; `None` where a part does not fit its sheet.
type Sheets = BTreeMap<StockId, Option<i64>>;

/// What so many cards need.
#[derive(Clone, Copy)]
pub(super) struct Needed {
    pub(super) desk: Desk,
    cards: Memo<u32>,
    sheets: Memo<Sheets>,
    /// What there is of them, whether it is used or not.
    scraps: Memo<Vec<Scraps>>,
    /// The best plan so far for what is asked; `None` until there is one.
    pub(super) seen: Memo<Option<Seen>>,
    /// For how many rounds better ones are looked for now, where its maker asked for
    /// more than are kept.
    longer: RwSignal<Option<u32>>,
    /// The last plan that was told, with what it is for.
    made: RwSignal<Option<(Asked, Seen)>>,
    plan: Memo<Option<Arc<CutPlan>>>,
}

impl Needed {
    /// Planned whenever the card or the number changes: a first plan soon, then better
    /// ones. Until then each part is counted on sheets of its own.
    pub(super) fn of(desk: Desk, cards: Memo<u32>) -> Self {
        let syncing = use_context::<Signal<Option<Syncing>>>();
        let scraps = Memo::new(move |_| {
            let syncing = syncing.and_then(|syncing| syncing.get());
            let counts = syncing.map(Syncing::paper).unwrap_or_default();
            desk.recipe.with(|recipe| scraps_of(recipe, &counts))
        });
        let asked = Memo::new(move |_| {
            let (cards, recipe) = (cards.get(), desk.recipe);
            desk.card.with(|card| {
                scraps.with(|scraps| recipe.with(|recipe| Asked::of(recipe, card, cards, scraps)))
            })
        });
        let made = RwSignal::new(None::<(Asked, Seen)>);
        let seen = Memo::new(move |_| {
            asked.with(|asked| {
                made.with(|made| {
                    let (of, seen) = made.as_ref()?;
                    // One for other cards is none.
                    (of == asked).then(|| seen.clone())
                })
            })
        });
        let longer = RwSignal::new(None);
        let kept = Memo::new(move |_| {
            let (cards, recipe) = (cards.get(), desk.recipe);
            recipe.with(|recipe| recipe.rounds_for(cards))
        });
        let rounds = Memo::new(move |_| {
            let kept = kept.get().unwrap_or(ROUNDS).min(MOST_ROUNDS);
            longer.get().unwrap_or(kept)
        });
        let looking = StoredValue::new(None::<Looking>);
        let give_up = move || {
            let open = looking.try_update_value(Option::take);
            if let Some(open) = open.flatten() {
                open.give_up();
            }
        };
        Effect::new(move || {
            let (wanted, rounds) = (asked.get(), rounds.get());
            give_up();
            let is_there = move |seen: &Seen| seen.is_of(rounds);
            if untrack(|| seen.with(|seen| seen.as_ref().is_some_and(is_there))) {
                made.update(|made| {
                    if let Some((_, seen)) = made {
                        seen.is_last = true;
                    }
                });
                return;
            }
            let of = wanted.clone();
            let told = move |seen: Seen| {
                // The tab may have been left.
                let is_last = seen.is_last;
                let shown = made.try_set(Some((of.clone(), seen))).is_none();
                if is_last && shown && longer.get_untracked().is_some() {
                    keep(desk, cards, made);
                    longer.set(None);
                }
            };
            looking.set_value(Some(look(&wanted, Goal::rounds(rounds), told)));
        });
        on_cleanup(give_up);
        let plan = Memo::new(move |_| {
            let plan = seen.with(|seen| seen.as_ref()?.plan.clone());
            plan.map(Arc::new)
        });
        let sheets = Memo::new(move |_| {
            let cards = cards.get();
            desk.card.with(|card| {
                let mut sheets = match plan.get() {
                    Some(plan) => plan.sheets_of(&card.cut_list, cards),
                    None => card.cut_list.sheets(cards),
                };
                // Where scraps are enough, no sheet is needed.
                for blank in &card.cut_list.blanks {
                    sheets.entry(blank.stock).or_insert(Some(0));
                }
                sheets
            })
        });
        Self {
            desk,
            cards,
            sheets,
            scraps,
            seen,
            longer,
            made,
            plan,
        }
    }

    /// Looks no further, and keeps the plan that is shown.
    pub(super) fn keep_plan(self) {
        keep(self.desk, self.cards, self.made);
        self.longer.set(None);
    }

    /// Looks for a better plan ten times as long as before.
    pub(super) fn look_longer(self) {
        let looked = self.seen.with_untracked(|seen| Some(seen.as_ref()?.looked));
        let longer = looked.unwrap_or(0).max(ROUNDS).saturating_mul(10);
        self.longer.set(Some(longer.min(MOST_ROUNDS)));
    }

    /// How the sheets are cut, as far as that is shown; `None` where each part is
    /// counted on sheets of its own.
    pub(super) fn plan_now(self) -> Option<Arc<CutPlan>> {
        self.plan.get_untracked()
    }

    /// How many sheets of a paper, where that is known. Tracks.
    fn sheets_of(self, stock: StockId) -> Option<u32> {
        let sheets = self.sheets.with(|sheets| sheets.get(&stock).copied());
        u32::try_from(sheets??).ok()
    }

    /// How many sheets of a paper are on hand, and how many are short. Tracks.
    fn short_of(self, syncing: Syncing, stock: StockId) -> Option<(i64, i64)> {
        let key = self.paper(stock)?.key();
        let sheets = syncing.paper().get(&key).copied().unwrap_or(0).max(0);
        let needs = i64::from(self.sheets_of(stock)?);
        Some((sheets, needs.saturating_sub(sheets).max(0)))
    }

    /// What is bought of a paper whose pack is known, where it is short. Tracks.
    pub(super) fn to_buy(self, syncing: Syncing, stock: StockId) -> Option<ToBuy> {
        let (_, short) = self.short_of(syncing, stock)?;
        let pack = syncing.packs().get(&self.paper(stock)?.key()).copied()?;
        let short = u32::try_from(short).ok().filter(|short| *short > 0)?;
        Some(pack.to_buy(short))
    }

    /// What the sheets of each paper cost; `None` of one whose price is not known. Tracks.
    pub(super) fn costs(self, syncing: Syncing) -> Vec<(StockId, Option<Money>)> {
        let packs = syncing.packs();
        let stocks = self
            .sheets
            .with(|sheets| sheets.keys().copied().collect::<Vec<_>>());
        let costs = stocks.into_iter().map(|stock| {
            let pack = self.paper(stock).and_then(|paper| packs.get(&paper.key()));
            let cost = pack.zip(self.sheets_of(stock));
            (stock, cost.map(|(pack, sheets)| pack.cost(sheets)))
        });
        costs.collect()
    }

    /// How many cards. Tracks.
    pub(super) fn cards(self) -> u32 {
        self.cards.get()
    }

    /// How many scraps of a paper are used. Tracks.
    fn scraps_of(self, stock: StockId) -> u32 {
        self.plan.with(|plan| {
            let scraps = plan.iter().flat_map(|plan| &plan.scraps);
            let scraps = scraps.filter(|scraps| scraps.stock == stock);
            scraps.map(|scraps| scraps.count).sum()
        })
    }

    /// The paper of a stock. Tracks.
    pub(super) fn paper(self, stock: StockId) -> Option<Paper> {
        let recipe = self.desk.recipe;
        recipe.with(|recipe| recipe.stock(stock).map(Paper::of))
    }

    pub(super) fn told(self, say: &'static dyn ClassTongue, of: OfClass<'_>) -> String {
        self.desk.recipe.with(|recipe| say.told(recipe, of))
    }

    pub(super) fn written(self, money: Money) -> String {
        money.words(self.desk.notation().decimal)
    }
}

/// Keeps the plan that is shown: after how many rounds it is there again.
fn keep(desk: Desk, cards: Memo<u32>, made: RwSignal<Option<(Asked, Seen)>>) {
    let seen = made.with_untracked(|made| {
        let (_, seen) = made.as_ref()?;
        Some((seen.rounds, seen.is_of(ROUNDS)))
    });
    let Some((rounds, is_usual)) = seen else {
        return;
    };
    // What comes of the usual rounds needs no number.
    let rounds = (!is_usual).then_some(rounds);
    let (cards, kept) = (
        cards.get_untracked(),
        desk.recipe.with_untracked(Recipe::for_class),
    );
    if kept.all() == cards && kept.rounds != rounds {
        desk.change(|recipe| recipe.class = Some(ForClass { rounds, ..kept }));
    }
}

/// A row for each paper.
#[component]
pub(super) fn Papers(say: &'static dyn ClassTongue, needed: Needed) -> impl IntoView {
    let syncing = use_context::<Signal<Option<Syncing>>>();
    move || {
        let syncing = syncing?.get()?;
        Some(view! { <Counted say needed syncing/> })
    }
}

/// The same where the counts of paper are at hand.
#[component]
fn Counted(say: &'static dyn ClassTongue, needed: Needed, syncing: Syncing) -> impl IntoView {
    let stocks = Memo::new(move |_| {
        let sheets = needed.sheets;
        sheets.with(|sheets| sheets.keys().copied().collect::<Vec<_>>())
    });
    let passed_over = move || {
        let kinds = needed.scraps.with(Vec::len);
        (kinds > MOST_SCRAPS).then(|| needed.told(say, OfClass::LargestOnly(MOST_SCRAPS)))
    };
    view! {
        <ul class="rows">
            <For
                each=move || stocks.get()
                key=|stock| *stock
                children=move |stock| view! { <OnePaper say needed syncing stock/> }
            />
        </ul>
        {move || passed_over().map(|words| view! { <p class="quiet">{words}</p> })}
    }
}

#[component]
fn OnePaper(
    say: &'static dyn ClassTongue,
    needed: Needed,
    syncing: Syncing,
    stock: StockId,
) -> impl IntoView {
    let paper = Memo::new(move |_| needed.paper(stock));
    let name = move || paper.get().map(|paper| paper.name);
    let sheets = move || {
        let sheets = needed.sheets.with(|sheets| sheets.get(&stock).copied());
        let value = Value::Sheets(sheets.flatten());
        let recipe = needed.desk.recipe;
        recipe.with(|recipe| speaker(recipe).value(&value))
    };
    let besides = move || {
        let scraps = needed.scraps_of(stock);
        (scraps > 0).then(|| format!(" {}", needed.told(say, OfClass::Besides(scraps))))
    };
    let key = move || paper.get().map(|paper| paper.key()).unwrap_or_default();
    let on_hand = move || {
        let (sheets, short) = needed.short_of(syncing, stock)?;
        Some(needed.told(say, OfClass::OnHand { sheets, short }))
    };
    let pack = Memo::new(move |_| syncing.packs().get(&key()).copied());
    let costs = move || {
        let cost = pack.get()?.cost(needed.sheets_of(stock)?);
        let amount = needed.written(cost);
        Some(format!(", {}", needed.told(say, OfClass::Costs(&amount))))
    };
    let to_buy = move || {
        let to_buy = needed.to_buy(syncing, stock)?;
        let amount = to_buy.costs.map(|costs| needed.written(costs));
        let of = OfClass::ToBuy {
            packs: to_buy.packs,
            are_rolls: false,
            costs: amount.as_deref(),
        };
        Some(format!(", {}", needed.told(say, of)))
    };
    // What is said of a pack before its price is.
    let in_pack = RwSignal::new(NonZeroU32::MIN);
    let sheets_in_pack = move || pack.get().map_or(in_pack.get(), |pack| pack.sheets);
    let price = move || {
        pack.get()
            .map(|pack| needed.written(pack.price))
            .unwrap_or_default()
    };
    let set_price = move |text: &str| {
        let price = Money::read(text);
        if price.is_none() && !text.trim().is_empty() {
            return Err(say.texts().no_price.to_owned());
        }
        let sheets = untrack(sheets_in_pack);
        let pack = price.map(|price| Pack { price, sheets });
        syncing.set_pack(&untrack(key), pack);
        Ok(())
    };
    let set_sheets = move |text: &str| {
        let sheets = text.trim().parse().ok().and_then(NonZeroU32::new);
        let Some(sheets) = sheets.filter(|sheets| sheets.get() <= MOST) else {
            return Err(needed.told(say, OfClass::OneTo(MOST)));
        };
        in_pack.set(sheets);
        if let Some(pack) = pack.get_untracked() {
            syncing.set_pack(&untrack(key), Some(Pack { sheets, ..pack }));
        }
        Ok(())
    };
    view! {
        <li class="needed">
            <p><b>{name}</b> ": " {sheets} " (" {on_hand} ")" {besides} {costs} {to_buy}</p>
            <div class="fields">
                <Typed label=say.texts().pack_price keys="decimal" kept=Signal::derive(price) take=set_price/>
                <Typed
                    label=say.texts().pack_sheets
                    keys="numeric"
                    kept=Signal::derive(move || sheets_in_pack().to_string())
                    take=set_sheets
                />
            </div>
            <ScrapsOf say needed syncing stock/>
        </li>
    }
}
