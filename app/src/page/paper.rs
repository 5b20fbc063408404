//! How many sheets there are of each paper.

use std::collections::BTreeMap;

use foldwright_engine::length::{Length, Step};
use foldwright_engine::paper::SideLook;
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::page_title;
use crate::part::{LessOrMore, Swatch, told};
use crate::spoken::{speaker_without_recipe, texts};
use crate::store::Store;
use crate::sync::{Paper, Syncing};
use crate::turns::Turn;
use crate::typing::unless_typing;

/// The most sheets that can be counted. Our own bound: a pallet.
const MOST: i64 = 99_999;
/// Units in a millimetre.
const MILLIMETRE: i64 = Length::mm(1).units();

/// The papers of all recipes, and those that are counted already.
#[component]
pub(crate) fn PaperAtHand() -> impl IntoView {
    page_title(|| String::from(texts().list.paper_on_hand));
    let store = expect_context::<Store>();
    let syncing = expect_context::<Syncing>();
    let stocks = stocks(store);
    let papers = Memo::new(move |_| {
        let mut papers = stocks.get()?;
        for (key, count) in syncing.paper() {
            if let Some(paper) = Paper::parse(&key).filter(|_| count != 0) {
                papers.entry(key).or_insert((paper, None));
            }
        }
        let mut papers: Vec<_> = papers.into_values().collect();
        papers.sort_by(|(one, _), (other, _)| one.cmp(other));
        Some(papers)
    });
    let none = move || papers.with(|papers| papers.as_ref().is_some_and(Vec::is_empty));
    view! {
        <section class="page settings">
            <h1>{texts().list.paper_on_hand}</h1>
            <p class="lead">
                {texts().keep.papers_of_recipes}
            </p>
            <Show
                when=move || !none()
                fallback=|| view! { <p class="quiet">{texts().keep.no_paper_named}</p> }
            >
                <ul class="rows">
                    <For
                        each=move || papers.get().unwrap_or_default()
                        key=|(paper, look)| (paper.key(), *look)
                        children=|(paper, look)| view! { <OnePaper paper look/> }
                    />
                </ul>
            </Show>
        </section>
    }
}

/// A paper, and how its face looks where a recipe uses it.
type Seen = (Paper, Option<SideLook>);

/// The papers of all recipes by their keys, once all are looked at, which is
/// done in turns. Of those that are one, the face that was photographed is shown.
fn stocks(store: Store) -> RwSignal<Option<BTreeMap<String, Seen>>> {
    let found = RwSignal::new(None);
    let calm = store.calm();
    let present = StoredValue::new(0);
    Effect::new(move || {
        let number = calm.get();
        present.set_value(number);
        spawn_local(async move {
            let mut papers = BTreeMap::new();
            let mut turn = Turn::begin();
            for id in store.ids() {
                let recipe = store.read(&id);
                let stocks = recipe.iter().flat_map(|recipe| &recipe.stocks);
                for stock in stocks {
                    let paper = Paper::of(stock);
                    let (_, look) = papers.entry(paper.key()).or_insert((paper, None));
                    if look.is_none_or(|look: SideLook| look.photo.is_none()) {
                        *look = Some(stock.face);
                    }
                }
                turn.or_next().await;
                if present.try_get_value() != Some(number) {
                    return;
                }
            }
            found.set(Some(papers));
        });
    });
    found
}

#[component]
fn OnePaper(paper: Paper, look: Option<SideLook>) -> impl IntoView {
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
        told(
            speaker_without_recipe(notation)
                .with_exact()
                .short_size(size),
        )
    };
    let texts = &texts().keep;
    let field = texts.sheets_of(&paper.name);
    view! {
        <li class="paper">
            {look.map(|look| view! { <Swatch look=Signal::stored(Some(look))/> })}
            <span class="paper-name">
                <span>{paper.name.clone()}</span>
                <span class="quiet">{words}</span>
            </span>
            <span class="paper-count">
                <LessOrMore
                    less=texts.one_fewer_of(&paper.name)
                    more=texts.one_more_of(&paper.name)
                    button="button icon"
                    is_least=Signal::derive(move || count.get() <= 0)
                    is_most=Signal::stored(false)
                    by=move |more| add(if more { 1 } else { -1 })
                >
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
                </LessOrMore>
            </span>
        </li>
    }
}
