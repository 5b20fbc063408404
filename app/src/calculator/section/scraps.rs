//! The scraps of a paper that are on the shelf.

use foldwright_engine::paper::StockId;
use foldwright_words::{ClassTongue, OfClass};
use leptos::prelude::*;

use super::needed::Needed;
use crate::part::{LessOrMore, SizeFields, TypedSize, told};
use crate::spoken::{aloud, speaker, texts};
use crate::sync::{Scrap, Syncing};

/// Each size with its count, and fields for another one.
#[component]
pub(super) fn ScrapsOf(
    say: &'static dyn ClassTongue,
    needed: Needed,
    syncing: Syncing,
    stock: StockId,
) -> impl IntoView {
    let scraps = Memo::new(move |_| {
        let Some(paper) = needed.paper(stock) else {
            return Vec::new();
        };
        let counts = syncing.paper();
        let scraps = counts.iter().filter(|(_, count)| **count > 0);
        let scraps = scraps.filter_map(|(key, _)| Scrap::parse(key));
        scraps.filter(|scrap| scrap.paper == paper).collect()
    });
    let typed = TypedSize::default();
    let unit = Signal::derive(move || needed.desk.notation().unit());
    let size = Memo::new(move |_| typed.size(unit.get()));
    let add = move |_| {
        let scrap = size.get_untracked().and_then(|size| {
            let recipe = needed.desk.recipe;
            recipe.with_untracked(|recipe| Some(Scrap::of(recipe.stock(stock)?, size)))
        });
        if let Some(scrap) = scrap {
            syncing.add_paper(&scrap.key(), 1);
        }
    };
    view! {
        <ul class="rows">
            <For
                each=move || scraps.get()
                key=Scrap::key
                children=move |scrap| view! { <OneSize say needed syncing scrap/> }
            />
        </ul>
        <details class="typed">
            <summary>{say.texts().add_scrap}</summary>
            <SizeFields typed unit of=texts().begin.the_scrap/>
            <p class="quiet">{say.texts().scrap_upright}</p>
            <button type="button" class="button" disabled=move || size.with(Option::is_none) on:click=add>
                {say.texts().put_on_shelf}
            </button>
        </details>
    }
}

#[component]
fn OneSize(
    say: &'static dyn ClassTongue,
    needed: Needed,
    syncing: Syncing,
    scrap: Scrap,
) -> impl IntoView {
    let size = scrap.size();
    let key = StoredValue::new(scrap.key());
    let count = Memo::new(move |_| {
        let counts = syncing.paper();
        key.with_value(|key| counts.get(key).copied()).unwrap_or(0)
    });
    let recipe = needed.desk.recipe;
    let words = move || recipe.with(|recipe| speaker(recipe).with_exact().short_size(size));
    let button = move |of: fn(&str) -> OfClass<'_>| {
        let size = recipe.with(|recipe| speaker(recipe).short_size(size));
        aloud(&needed.told(say, of(&size)))
    };
    view! {
        <li class="paper">
            <span>{move || told(words())}</span>
            <span class="paper-count">
                <LessOrMore
                    less=Signal::derive(move || button(|size| OfClass::Fewer(size)))
                    more=Signal::derive(move || button(|size| OfClass::More(size)))
                    button="button icon"
                    is_least=Signal::derive(move || count.get() <= 0)
                    is_most=Signal::stored(false)
                    by=move |more| key.with_value(|key| syncing.add_paper(key, if more { 1 } else { -1 }))
                >
                    <output>{count}</output>
                </LessOrMore>
            </span>
        </li>
    }
}
