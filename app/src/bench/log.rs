//! What was finished goes into the log, and stands there.

use foldwright_engine::cut_plan::Scraps;
use foldwright_engine::recipe::{Recipe, Spent};
use leptos::prelude::*;

use super::place::State;
use super::table::Table;
use crate::notice::{Notice, Notices};
use crate::part::Runs;
use crate::spoken::speaker;

/// The log of the recipe. Once all steps are done, this run is in it.
#[component]
pub(super) fn Log() -> impl IntoView {
    let table = Table::here();
    let notices = expect_context::<Notices>();
    let all_done = Memo::new(move |_| {
        table.steps.with(|steps| {
            let done = |step| table.state(step) == State::Done;
            !steps.is_empty() && steps.iter().all(done)
        })
    });
    Effect::new(move || {
        if !all_done.get() {
            return;
        }
        let spent = untrack(|| spent(table));
        if let Err(why) = table.log_run(spent) {
            let words = table
                .recipe
                .with_untracked(|recipe| speaker(recipe).refused(&why));
            notices.show(Notice::warning("log", words));
        }
    });
    view! { <Runs edited=table.edited() open=true/> }
}

/// What the cards took, as it is booked.
fn spent(table: Table) -> Vec<Spent> {
    let sheets = table.sheets();
    let [used, left] = table.used_and_left();
    table.recipe.with(|recipe| {
        let whole = sheets.into_iter().filter_map(|(id, sheets)| {
            let count = u32::try_from(sheets?).ok().filter(|sheets| *sheets > 0)?;
            Some(Spent {
                paper: recipe.stock(id)?.name.clone(),
                size: None,
                count,
                left: false,
            })
        });
        let used = used.iter().filter_map(|it| scraps(recipe, it, false));
        let left = left.iter().filter_map(|it| scraps(recipe, it, true));
        whole.chain(used).chain(left).collect()
    })
}

fn scraps(recipe: &Recipe, scraps: &Scraps, left: bool) -> Option<Spent> {
    Some(Spent {
        paper: recipe.stock(scraps.stock)?.name.clone(),
        size: Some(scraps.size),
        count: scraps.count,
        left,
    })
}
