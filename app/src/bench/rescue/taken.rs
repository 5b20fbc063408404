//! A way out is taken, and taken back.

use foldwright_engine::rescue::Offer;
use leptos::prelude::*;

use super::Rescuing;
use crate::bench::table::Table;
use crate::notice::{Notice, Notices};
use crate::spoken::{first, texts};
use crate::store::{Progress, Rescued, Store};

/// Goes on as offered, and says how to go back to the plan.
pub(super) fn take(table: Table, store: Store, notices: Notices, offer: &Offer) {
    let id = table.id();
    let mut rescued = Rescued {
        before: table.recipe.get_untracked(),
        progress: table.progress_now(),
        apart: None,
    };
    let taken = Progress::of(offer.step, &offer.done, &offer.trims);
    match &offer.rest {
        None => table.go_on_with(offer.recipe.clone(), &taken),
        Some(rest) => {
            let mut apart = offer.recipe.clone();
            let name = texts().rescue.saved_name(&apart.name, offer.cards);
            apart.name.clone_from(&name);
            apart.runs.clear();
            let Some(other) = store.put(&apart) else {
                return;
            };
            store.set_progress(&other, |progress| *progress = taken);
            let going = Progress::of(rest.step, &rest.done, &rest.trims);
            table.go_on_with(rest.recipe.clone(), &going);
            notices.show(
                Notice::plain(texts().rescue.recipe_of_its_own(&name))
                    .with_link(texts().rescue.to_its_bench, format!("/bench/{other}")),
            );
            rescued.apart = Some(other);
        }
    }
    let mut all = store.rescues(&id);
    all.push(rescued);
    store.set_rescues(&id, &all);
    notices.show(
        Notice::plain(texts().rescue.bench_goes_on)
            .with(first().undo, move || take_back(table, store, &id)),
    );
}

/// Back to the plan before the last rescue: recipe and progress as they were.
pub(super) fn take_back(table: Table, store: Store, id: &str) {
    let mut rescues = store.rescues(id);
    let Some(mut last) = rescues.pop() else {
        return;
    };
    store.set_rescues(id, &rescues);
    if let Some(apart) = &last.apart {
        store.delete(apart);
    }
    // The bench may have been left meanwhile.
    if let Some(present) = table.recipe.try_get_untracked() {
        // What stands beside the steps, and the log, are not part of the plan.
        last.before.notes = present.notes;
        last.before.photos = present.photos;
        last.before.runs = present.runs;
        table.go_on_with(last.before, &last.progress);
    } else {
        store.change(id, |recipe| {
            last.before.notes = std::mem::take(&mut recipe.notes);
            last.before.photos = std::mem::take(&mut recipe.photos);
            last.before.runs = std::mem::take(&mut recipe.runs);
            *recipe = last.before;
        });
        store.set_progress(id, |progress| {
            let run = progress.run;
            *progress = last.progress;
            progress.run = progress.run.or(run);
        });
    }
}

/// The way back to the plan, where a rescue has changed it.
#[component]
pub(super) fn BackToPlan() -> impl IntoView {
    let table = Table::here();
    let rescuing = Rescuing::here();
    let store = expect_context::<Store>();
    let id = table.id();
    let rescues = store.rescues(&id);
    (!rescues.is_empty()).then(|| {
        let back = move |_| {
            take_back(table, store, &id);
            rescuing.open.set(false);
        };
        view! {
            <div class="callout back-to-plan">
                <p>{texts().rescue.plan_was_changed}</p>
                <button type="button" class="button" on:click=back>{texts().rescue.back_to_plan}</button>
            </div>
        }
    })
}
