//! All steps with their states, to jump to any of them and to change their order.

use foldwright_engine::steps::Step;
use leptos::prelude::*;

use super::order::{Moves, OrderWays, Reorder, WhyItStays};
use super::pace::HowLong;
use super::place::{Place, State};
use super::table::Table;
use crate::part::heard;
use crate::spoken::{speaker, texts};

/// The list of all steps. Taking one closes it.
#[component]
pub(super) fn StepList(
    /// Whether the list is shown.
    listed: RwSignal<bool>,
) -> impl IntoView {
    let table = Table::here();
    let reorder = Reorder::new(table);
    let entries = move || {
        table.steps.with(|steps| {
            let entries = steps.iter().enumerate();
            entries
                .map(|(number, step)| entry(reorder, table, number, step.clone(), listed))
                .collect_view()
        })
    };
    view! {
        <HowLong/>
        <OrderWays reorder/>
        <ol class="step-list">{entries}</ol>
    }
}

fn entry(
    reorder: Reorder,
    table: Table,
    number: usize,
    step: Step,
    listed: RwSignal<bool>,
) -> impl IntoView {
    let here = move || table.place.get() == Place::At(number);
    let (times, key, named) = (step.times, step.key, step.title);
    // The words of a step of one's own may become others.
    let title = Memo::new(move |_| table.bare.with(|recipe| speaker(recipe).title(&named)));
    let kind = table
        .bare
        .with_untracked(|recipe| speaker(recipe).kind(step.kind));
    let state = Memo::new(move |_| table.state(&step));
    let told = move || match state.get() {
        State::Open if here() => texts().bench.here_now.to_owned(),
        State::Open => texts().bench.not_yet.to_owned(),
        State::Begun(done) => texts().bench.some_done(done, times),
        State::Done => texts().bench.done.to_owned(),
    };
    view! {
        <li class="step-row">
            <button
                type="button"
                class="step-entry"
                class:done=move || state.get() == State::Done
                aria-current=move || here().then_some("step")
                on:click=move |_| {
                    listed.set(false);
                    table.go_to(Place::At(number));
                }
            >
                <span class="step-number">{number.saturating_add(1)}</span>
                <span class="step-title">{move || heard(title.get())}</span>
                <span class="step-state">{move || format!("{kind}, {}", told())}</span>
            </button>
            <Show when=move || reorder.is_on.get()>
                <Moves reorder step=key place=number/>
            </Show>
            <WhyItStays reorder step=key/>
        </li>
    }
}
