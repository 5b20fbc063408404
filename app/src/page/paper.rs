//! How many sheets there are of each paper.

use std::collections::BTreeMap;

use foldwright_engine::length::{Length, Step};
use leptos::html;
use leptos::prelude::*;

use super::page_title;
use crate::store::Store;
use crate::sync::{Paper, Syncing};
use crate::typing::unless_typing;

/// The most sheets that can be counted. Our own bound: a pallet.
const MOST: i64 = 99_999;
/// Units in a millimetre.
const MILLIMETRE: i64 = Length::mm(1).units();

/// The papers of all recipes, and those that are counted already.
#[component]
pub(crate) fn PaperAtHand() -> impl IntoView {
    page_title(|| String::from("Paper at hand"));
    let store = expect_context::<Store>();
    let syncing = expect_context::<Syncing>();
    let papers = Memo::new(move |_| {
        let recipes = store.recipes();
        let stocks = recipes.iter().flat_map(|(_, record)| &record.recipe.stocks);
        let mut papers: BTreeMap<String, Paper> = stocks
            .map(Paper::of)
            .map(|paper| (paper.key(), paper))
            .collect();
        for (key, count) in syncing.paper() {
            if let Some(paper) = Paper::parse(&key).filter(|_| count != 0) {
                papers.insert(key, paper);
            }
        }
        let mut papers: Vec<Paper> = papers.into_values().collect();
        papers.sort();
        papers
    });
    view! {
        <section class="page settings">
            <h1>"Paper at hand"</h1>
            <p class="lead">
                "The papers of your recipes, and how many sheets there are. The bench can take off \
                 what a card used. What two people take or bring at once adds up."
            </p>
            <Show
                when=move || papers.with(|papers| !papers.is_empty())
                fallback=|| view! { <p class="quiet">"No recipe names a paper yet."</p> }
            >
                <ul class="rows">
                    <For
                        each=move || papers.get()
                        key=Paper::key
                        children=|paper| view! { <OnePaper paper/> }
                    />
                </ul>
            </Show>
        </section>
    }
}

#[component]
fn OnePaper(paper: Paper) -> impl IntoView {
    let store = expect_context::<Store>();
    let syncing = expect_context::<Syncing>();
    let key = StoredValue::new(paper.key());
    let count = Memo::new(move |_| {
        let counts = syncing.paper();
        key.with_value(|key| counts.get(key).copied()).unwrap_or(0)
    });
    let add = move |by: i64| {
        if by != 0 {
            key.with_value(|key| syncing.add_paper(key, by));
        }
    };
    let typed = move |event: leptos::ev::Event| {
        let field = event_target::<web_sys::HtmlInputElement>(&event);
        let now = count.get_untracked();
        if let Ok(sheets @ 0..=MOST) = field.value().trim().parse::<i64>() {
            add(sheets - now);
        }
        field.set_value(&count.get_untracked().to_string());
    };
    let input = NodeRef::<html::Input>::new();
    let (shown, left) = unless_typing(
        input,
        move || count.get().to_string(),
        Signal::stored(false),
    );
    let size = paper.size();
    // Sheets made in whole millimetres are known by these everywhere.
    let metric = [size.width, size.height].iter().all(|side| {
        side.div_rem(MILLIMETRE)
            .is_some_and(|(_, rest)| rest == Length::ZERO)
    });
    let words = move || {
        let mut notation = store.settings().notation;
        if metric {
            notation.step = Step::Millimetre;
        }
        notation.size(size.width, size.height)
    };
    let [fewer, more, field] = ["One sheet fewer of", "One sheet more of", "Sheets of"]
        .map(|what| format!("{what} {}", paper.name));
    view! {
        <li class="paper">
            <span class="paper-name">
                <span>{paper.name}</span>
                <span class="quiet">{words}</span>
            </span>
            <span class="paper-count">
                <button
                    class="button icon"
                    aria-label=fewer
                    disabled=move || { count.get() <= 0 }
                    on:click=move |_| add(-1)
                >
                    "−"
                </button>
                <input
                    node_ref=input
                    type="text"
                    inputmode="numeric"
                    maxlength="5"
                    aria-label=field
                    data-unfinished="change"
                    prop:value=shown
                    on:change=typed
                    on:blur=move |_| left()
                />
                <button class="button icon" aria-label=more on:click=move |_| add(1)>"+"</button>
            </span>
        </li>
    }
}
