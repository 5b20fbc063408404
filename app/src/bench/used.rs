//! The paper and the supplies that the cards took, booked out, and what is left over,
//! booked in.

use foldwright_engine::card::Supplied;
use foldwright_engine::cut_plan::Scraps;
use foldwright_engine::recipe::{Recipe, Supply, Takes};
use foldwright_words::{ClassTongue, OfClass};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::table::Table;
use crate::part::heard;
use crate::spoken::{class_tongue, speaker, texts};
use crate::sync::{Paper, Scrap, Syncing, counted, supply_key};

/// Under which name something is counted, and how many there are more or fewer.
type Booking = (String, i64);

/// The sheets and scraps it took, to be taken off the paper on hand, and the
/// offcuts to be put there.
#[component]
pub(super) fn Used() -> impl IntoView {
    let syncing = use_context::<Signal<Option<Syncing>>>();
    move || {
        let syncing = syncing?.get()?;
        Some(view! { <Booked syncing/> })
    }
}

/// The same where the counts of paper are at hand.
#[component]
fn Booked(syncing: Syncing) -> impl IntoView {
    let table = Table::here();
    let taken = RwSignal::new(None::<Vec<Booking>>);
    let used = Memo::new(move |_| {
        table.recipe.with(|recipe| {
            let used = table.sheets().into_iter().filter_map(|(id, sheets)| {
                let sheets = sheets.filter(|sheets| *sheets > 0)?;
                Some((Paper::of(recipe.stock(id)?), sheets))
            });
            used.collect::<Vec<_>>()
        })
    });
    let say = RwSignal::new(None::<&'static dyn ClassTongue>);
    spawn_local(async move {
        let words = class_tongue().await;
        // The bench may have been left.
        say.try_set(words);
    });
    // Nothing is booked that is not said.
    let scraps = Memo::new(move |_| match say.get() {
        Some(_) => table.used_and_left(),
        None => Default::default(),
    });
    let supplies = Memo::new(move |_| match say.get() {
        Some(_) => taken_of(table, &table.supplies(&syncing.paper())),
        None => Vec::new(),
    });
    let book = move |all: &[Booking], sign: i64| {
        for (of, by) in all {
            syncing.add_paper(of, by * sign);
        }
    };
    let press = move |_| {
        if let Some(all) = taken.get_untracked() {
            book(&all, -1);
            taken.set(None);
            return;
        }
        let scraps = scraps.get_untracked();
        let mut all = table.recipe.with_untracked(|recipe| {
            used.with_untracked(|sheets| bookings(recipe, sheets, &scraps))
        });
        let supplies = supplies.get_untracked().into_iter();
        all.extend(supplies.map(|of| (supply_key(&of.supply), -counted(of.all))));
        book(&all, 1);
        taken.set(Some(all));
    };
    let words = move || {
        let counts = syncing.paper();
        used.with(|used| {
            let rows = used.iter().map(|(paper, sheets)| {
                let on_hand = counts.get(&paper.key()).copied().unwrap_or(0);
                view! { <li>{texts().bench.sheets_of(*sheets, &paper.name, on_hand)}</li> }
            });
            rows.collect_view()
        })
    };
    let scraps_told = move || {
        let (say, scraps) = (say.get()?, scraps.get());
        Some(table.recipe.with(|recipe| told(say, recipe, &scraps)))
    };
    let supplies_told = move || {
        let (say, supplies) = (say.get()?, supplies.get());
        let told = |recipe: &Recipe| {
            let rows = supplies.iter().map(|of| of.told(say, recipe));
            rows.map(|words| view! { <li>{heard(words)}</li> })
                .collect_view()
        };
        Some(table.recipe.with(told))
    };
    let is_any = move || {
        let are_scraps = scraps.with(|scraps| scraps.iter().any(|scraps| !scraps.is_empty()));
        let are_supplies = supplies.with(|supplies| !supplies.is_empty());
        are_scraps || are_supplies || used.with(|used| !used.is_empty())
    };
    view! {
        <Show when=is_any>
            <div class="task-words">
                <p>{texts().bench.used}</p>
                <ul>{words} {scraps_told} {supplies_told}</ul>
            </div>
            <button type="button" class="button bench-way" on:click=press>
                {move || if taken.with(Option::is_some) { texts().bench.taken_off } else { texts().bench.take_off }}
            </button>
        </Show>
    }
}

/// What the cards took of a supply that is counted.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Took {
    supply: Supply,
    all: Supplied,
    on_hand: Supplied,
}

impl Took {
    fn told(&self, say: &'static dyn ClassTongue, recipe: &Recipe) -> String {
        let written = |of| speaker(recipe).with_exact().supplied(of);
        let of = OfClass::Used {
            name: &self.supply.name,
            all: &written(self.all),
            on_hand: &written(self.on_hand),
        };
        say.told(recipe, of)
    }
}

/// What the cards took of each supply. How far a bottle is used up, nobody counts.
/// Tracks.
fn taken_of(table: Table, supplies: &[(Supply, Supplied)]) -> Vec<Took> {
    let copies = table.recipe.with(|recipe| recipe.copies);
    let took = supplies.iter().filter_map(|(supply, on_hand)| {
        let is_shared = matches!(supply.takes, Takes::Share(_));
        let each = table.card.with(|card| card.supplied(supply.takes))?;
        (!is_shared).then(|| Took {
            supply: supply.clone(),
            all: each.times(copies),
            on_hand: *on_hand,
        })
    });
    took.collect()
}

/// What is taken off the paper on hand, and what is put there.
fn bookings(recipe: &Recipe, sheets: &[(Paper, i64)], scraps: &[Vec<Scraps>; 2]) -> Vec<Booking> {
    let sheets = sheets.iter().map(|(paper, sheets)| (paper.key(), -sheets));
    let [used, left] = scraps;
    let booked = |scraps: &Scraps, by: i64| {
        let stock = recipe.stock(scraps.stock)?;
        let key = Scrap::of(stock, scraps.size).key();
        Some((key, i64::from(scraps.count) * by))
    };
    let used = used.iter().filter_map(|scraps| booked(scraps, -1));
    let left = left.iter().filter_map(|scraps| booked(scraps, 1));
    sheets.chain(used).chain(left).collect()
}

/// A line for scraps of each size: those that were used, and those left over.
fn told(
    say: &'static dyn ClassTongue,
    recipe: &Recipe,
    scraps: &[Vec<Scraps>; 2],
) -> impl IntoView + use<> {
    let [used, left] = scraps;
    let told = |scraps: &Scraps, are_used: bool| {
        let of = OfClass::Scraps {
            count: scraps.count,
            paper: &recipe.stock(scraps.stock)?.name,
            size: &speaker(recipe).short_size(scraps.size),
            are_used,
        };
        Some(view! { <li>{heard(say.told(recipe, of))}</li> })
    };
    let used = used.iter().filter_map(|scraps| told(scraps, true));
    let left = left.iter().filter_map(|scraps| told(scraps, false));
    used.chain(left).collect_view()
}
