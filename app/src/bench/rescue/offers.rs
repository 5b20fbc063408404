//! What can be done about it: the ways, the best first.

use foldwright_engine::card::work_out;
use foldwright_engine::rescue::{
    Miscut, Offer, Plan, Rescue, Way, offer_notes, offer_title, paper_words,
};
use leptos::prelude::*;

use super::taken::take;
use super::{Lead, Rescuing};
use crate::bench::table::Table;
use crate::notice::Notices;
use crate::part::{BeforeAfter, Changed, Changes};
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
    let told = match &rescue.not_kept {
        None => ways(count),
        Some(why) => format!("It can't stay as it is. {why} {}", ways(count)),
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
            "Measure again"
        </button>
    }
}

fn ways(count: usize) -> String {
    match count {
        1 => "There is one way to go on.".to_owned(),
        count => format!("There are {count} ways to go on, the best first."),
    }
}

#[component]
fn OneOffer(number: usize, offer: Offer, miscut: Miscut) -> impl IntoView {
    let table = Table::here();
    let rescuing = Rescuing::here();
    let (store, notices) = (expect_context::<Store>(), expect_context::<Notices>());
    let tools = table.tools();
    let progress = table.progress_now();
    let at = table.key_here();
    let (title, notes, paper) = table.recipe.with_untracked(|recipe| {
        let plan = Plan {
            recipe,
            tools: &tools,
            done: &progress.done,
            trims: &progress.trims,
            at: &at,
        };
        (
            offer_title(&plan, &miscut, &offer),
            offer_notes(&plan, &miscut, &offer),
            paper_words(&offer.recipe, &offer),
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
        let changed = offer.changes.iter().map(|told| Changed {
            name: told.name.clone(),
            from: told.from.clone(),
            to: told.to.clone(),
            why: told.why.clone(),
        });
        let open = number == 0;
        let words = match offer.changes.len() {
            1 => "1 length changes".to_owned(),
            count => format!("{count} lengths change"),
        };
        view! {
            <details class="offer-changes" open=open>
                <summary>{words}</summary>
                {pictures}
                <Changes changes=changed.collect()/>
            </details>
        }
    });
    let first = number == 0;
    let kept = matches!(offer.way, Way::Keep | Way::KeepAll | Way::Trim);
    let label = format!("Go on: {title}");
    let choose = move |_| {
        take(table, store, notices, &offer);
        rescuing.open.set(false);
    };
    view! {
        <li class="offer" class:kept=kept>
            <h3>{title}</h3>
            {notes.into_iter().map(|note| view! { <p>{note}</p> }).collect_view()}
            {paper.into_iter().map(|words| view! { <p class="offer-paper">{words}</p> }).collect_view()}
            {changes}
            <button type="button" class="button bench-way" class:primary=first aria-label=label on:click=choose>
                "Go on like this"
            </button>
        </li>
    }
}
