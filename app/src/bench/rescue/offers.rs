//! What can be done about it: the ways, the best first.

use foldwright_engine::card::work_out;
use foldwright_engine::recipe::Recipe;
use foldwright_engine::rescue::{Miscut, Moved, Offer, Plan, Remark, Rescue, Way};
use leptos::prelude::*;

use super::taken::take;
use super::{Lead, Rescuing};
use crate::bench::table::Table;
use crate::notice::Notices;
use crate::part::{BeforeAfter, Changed, Changes, heard, told};
use crate::spoken::{aloud, speaker, texts};
use crate::store::Store;

/// Every way out, each with what it changes and what it costs.
#[component]
pub(super) fn Offers(
    /// What was told.
    miscut: Miscut,
    /// What can be done.
    rescue: Rescue,
) -> impl IntoView {
    let rescuing = Rescuing::here();
    let count = rescue.offers.len();
    let table = Table::here();
    let ways = texts().rescue.ways(count);
    let told = match &rescue.not_kept {
        None => ways,
        Some(why) => {
            let why = table
                .recipe
                .with_untracked(|recipe| speaker(recipe).with_exact().against(why));
            [texts().rescue.not_as_it_is, &why, &ways].join(" ")
        }
    };
    let offers = rescue.offers.into_iter().enumerate();
    let offers = offers.map(|(number, offer)| {
        let miscut = miscut.clone();
        view! { <OneOffer number offer miscut/> }
    });
    view! {
        <Lead words=told/>
        <ol class="offers">{offers.collect_view()}</ol>
        <button type="button" class="button bench-way" on:click=move |_| rescuing.found.set(None)>
            {texts().rescue.measure_again}
        </button>
    }
}

/// How a measure of the recipe moves, and why.
fn changed(recipe: &Recipe, moved: &Moved) -> Changed {
    let (change, why) = (moved.change, moved.why.as_ref());
    let say = speaker(recipe).with_exact();
    Changed {
        name: recipe
            .measure(change.measure)
            .map_or_else(String::new, |measure| measure.name.clone()),
        from: say.plain_length(change.from),
        to: say.short_length(change.to),
        why: why.map_or_else(String::new, |why| say.because(why)),
    }
}

#[component]
fn OneOffer(number: usize, offer: Offer, miscut: Miscut) -> impl IntoView {
    let table = Table::here();
    let rescuing = Rescuing::here();
    let (store, notices) = (expect_context::<Store>(), expect_context::<Notices>());
    let tools = table.tools();
    let progress = table.progress_now();
    let (done, trims) = (table.done_and_cut(), progress.known_trims());
    let (title, notes, paper) = table.recipe.with_untracked(|recipe| {
        let plan = Plan {
            recipe,
            tools: &tools,
            done: &done,
            trims: &trims,
            at: table.key_here(),
        };
        let say = speaker(recipe).with_exact();
        let mut notes = Vec::new();
        for remark in offer.remarks(&plan, &miscut) {
            match remark {
                Remark::Note(note) => notes.push(say.note(&note)),
                Remark::Against(against) => notes.push(say.against(&against)),
                Remark::Do(does) => notes.push(say.instruction(&does)),
            }
        }
        (
            speaker(recipe).heading(&offer.heading(&miscut)),
            notes,
            say.papers(&offer.paper),
        )
    });
    let changes = (!offer.changes.is_empty()).then(|| {
        let before = table.recipe.get_untracked();
        let card = table.card.get_untracked();
        let then = work_out(&offer.recipe, &tools);
        let pictures = (card.finished != then.finished).then(|| {
            view! {
                <BeforeAfter
                    before=(before, card)
                    after=(offer.recipe.clone(), then)
                    name=format!("offer{number}")
                />
            }
        });
        let changed = table.recipe.with_untracked(|recipe| {
            let changes = offer.changes.iter();
            changes.map(|moved| changed(recipe, moved)).collect()
        });
        let open = number == 0;
        let words = texts().rescue.lengths_change(offer.changes.len());
        view! {
            <details class="offer-changes" open=open>
                <summary>{words}</summary>
                {pictures}
                <Changes changes=changed/>
            </details>
        }
    });
    let first = number == 0;
    let kept = matches!(offer.way, Way::Keep | Way::KeepAll | Way::Trim);
    let label = aloud(&texts().rescue.go_on(&title));
    let choose = move |_| {
        take(table, store, notices, &offer);
        rescuing.open.set(false);
    };
    view! {
        <li class="offer" class:kept=kept>
            <h3>{heard(title)}</h3>
            {notes.into_iter().map(|note| view! { <p>{told(note)}</p> }).collect_view()}
            {paper.into_iter().map(|words| view! { <p class="offer-paper">{told(words)}</p> }).collect_view()}
            {changes}
            <button type="button" class="button bench-way" class:primary=first aria-label=label on:click=choose>
                {texts().rescue.go_on_so}
            </button>
        </li>
    }
}
