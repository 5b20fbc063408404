//! The sheets that so many cards take, what of them is on hand, and what they cost.

use std::collections::BTreeMap;
use std::num::NonZeroU32;
use std::sync::Arc;

use foldwright_engine::cut_plan::{CutPlan, Scraps};
use foldwright_engine::paper::{Money, Pack, StockId};
use foldwright_engine::steps::Value;
use foldwright_words::{ClassTongue, OfClass};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::super::desk::Desk;
use super::scraps::ScrapsOf;
use crate::part::Typed;
use crate::planning::{Asked, MOST_SCRAPS, better, scraps_of};
use crate::spoken::speaker;
use crate::sync::{Paper, Syncing};
use crate::turns::give_way;

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
    plan: Memo<Option<Arc<CutPlan>>>,
}

impl Needed {
    /// Planned whenever the card or the number changes: a first plan soon, a better one
    /// in turns. Until then each part is counted on sheets of its own.
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
        let made = RwSignal::new(None::<(Asked, Arc<CutPlan>)>);
        Effect::new(move || {
            let wanted = asked.get();
            spawn_local(async move {
                // What shows the change comes first.
                give_way().await;
                let is_wanted = || asked.try_with_untracked(|now| *now == wanted) == Some(true);
                let shown = |plan: Option<Arc<CutPlan>>| {
                    // The tab may have been left.
                    made.try_set(plan.map(|plan| (wanted.clone(), plan)));
                };
                if let Some(best) = better(&wanted, is_wanted, shown).await {
                    shown(best);
                }
            });
        });
        // One for other cards is none.
        let plan = Memo::new(move |_| {
            asked.with(|asked| {
                made.with(|made| {
                    let (of, plan) = made.as_ref()?;
                    (of == asked).then(|| Arc::clone(plan))
                })
            })
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
            plan,
        }
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

    fn written(self, money: Money) -> String {
        money.words(self.desk.notation().decimal)
    }
}

/// A row for each paper, and what all of them cost.
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
    let costs = move || {
        let packs = syncing.packs();
        let costs = stocks.get().into_iter().map(|stock| {
            let pack = packs.get(&needed.paper(stock)?.key())?;
            Some(pack.cost(needed.sheets_of(stock)?))
        });
        let costs: Vec<Option<Money>> = costs.collect();
        let all: Money = costs.iter().flatten().copied().sum();
        let each = all.shared(NonZeroU32::new(needed.cards.get()).unwrap_or(NonZeroU32::MIN));
        costs.iter().any(Option::is_some).then(|| {
            let of = OfClass::AllCosts {
                all: &needed.written(all),
                each: &needed.written(each),
            };
            let lacks = costs.iter().any(Option::is_none);
            let lacks = lacks.then_some(say.texts().some_without_price);
            view! { <p aria-live="polite">{needed.told(say, of)} " " {lacks}</p> }
        })
    };
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
        {costs}
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
        let sheets = syncing.paper().get(&key()).copied().unwrap_or(0).max(0);
        let needs = needed.sheets_of(stock)?;
        let short = i64::from(needs).saturating_sub(sheets).max(0);
        Some(needed.told(say, OfClass::OnHand { sheets, short }))
    };
    let pack = Memo::new(move |_| syncing.packs().get(&key()).copied());
    let costs = move || {
        let cost = pack.get()?.cost(needed.sheets_of(stock)?);
        let amount = needed.written(cost);
        Some(format!(", {}", needed.told(say, OfClass::Costs(&amount))))
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
            <p><b>{name}</b> ": " {sheets} " (" {on_hand} ")" {besides} {costs}</p>
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
