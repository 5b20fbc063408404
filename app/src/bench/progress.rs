//! The head of the bench: the way out, and how far the whole card has come.

use foldwright_engine::steps::Step;
use leptos::prelude::*;

use super::aids::AidsButton;
use super::aloud::ReadAloud;
use super::list::StepList;
use super::place::{Place, State};
use super::table::Table;
use crate::part::{Icon, Sheet, Symbol};
use crate::spoken::texts;

/// The way out, and the band that shows every step.
#[component]
pub(super) fn Head() -> impl IntoView {
    let table = Table::here();
    let listed = RwSignal::new(false);
    let name = move || table.recipe.with(|recipe| recipe.name.clone());
    let spoken = move || texts().bench.show_all_steps(&where_at(table));
    view! {
        <div class="bench-head">
            <a
                class="bench-leave"
                href=table.recipe_address()
                aria-label=move || texts().bench.leave_for(&name())
            >
                <Icon symbol=Symbol::Back/>
            </a>
            <button
                type="button"
                class="bench-progress"
                aria-label=spoken
                aria-haspopup="dialog"
                on:click=move |_| listed.set(true)
            >
                <span class="bench-where">
                    <span>{move || where_at(table)}</span>
                    <span class="bench-name">{name}</span>
                </span>
                <Band/>
            </button>
            <ReadAloud/>
            <AidsButton/>
        </div>
        <p class="visually-hidden" aria-live="polite">{move || where_at(table)}</p>
        <Sheet open=listed title=texts().bench.all_steps>
            <StepList listed/>
        </Sheet>
    }
}

/// "Step 5 of 14".
fn where_at(table: Table) -> String {
    let all = table.steps.with(Vec::len);
    match table.place.get() {
        Place::At(number) => texts().bench.step_of(number.saturating_add(1), all),
        Place::Finish => texts().bench.all_of_steps(all),
    }
}

/// One segment a step, those of one kind of work together.
#[component]
fn Band() -> impl IntoView {
    let table = Table::here();
    let groups = move || {
        table.steps.with(|steps| {
            let groups = steps.chunk_by(|one, next| one.kind == next.kind);
            groups.map(|group| one_kind(table, group)).collect_view()
        })
    };
    view! { <span class="band" aria-hidden="true">{groups}</span> }
}

fn one_kind(table: Table, group: &[Step]) -> impl IntoView + use<> {
    let width = group.len().to_string();
    let segments = group.iter().cloned().map(|step| {
        let here = {
            let key = step.key;
            move || {
                table
                    .step
                    .with(|at| at.as_ref().is_some_and(|at| at.key == key))
            }
        };
        let state = move || match table.state(&step) {
            State::Open => "open",
            State::Begun(_) => "begun",
            State::Done => "done",
        };
        view! { <span class="band-step" class:here=here data-state=state></span> }
    });
    view! {
        <span class="band-kind" style=("--steps", width)>
            {segments.collect_view()}
        </span>
    }
}
