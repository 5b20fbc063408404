//! Many cards at once: how many, and for how many a step is done.

use leptos::prelude::*;

use super::table::Table;
use crate::part::{HowMany, LessOrMore, Sheet, one_on};
use crate::spoken::texts;

/// How many cards are made.
#[component]
pub(super) fn Copies() -> impl IntoView {
    let table = Table::here();
    let copies = Memo::new(move |_| table.recipe.with(|recipe| recipe.copies));
    view! { <HowMany cards=copies set=move |copies| table.set_copies(copies)/> }
}

/// For how many cards of a batch the step at this place is done. Not shown
/// where a step is done once.
#[component]
pub(super) fn Counter() -> impl IntoView {
    let table = Table::here();
    let times = Memo::new(move |_| {
        table
            .step
            .with(|step| step.as_ref().map_or(1, |step| step.times))
    });
    let done = Memo::new(move |_| table.done());
    let asked = RwSignal::new(false);
    let all = move || done.get() == times.get();
    view! {
        <Show when=move || times.get() != 1>
            <div class="count" role="group" aria-label=texts().bench.cards_counted>
                <p class="count-label">
                    {texts().bench.done_for} " "
                    <button type="button" class="count-times" aria-haspopup="dialog" on:click=move |_| asked.set(true)>
                        {move || texts().bench.cards(times.get())}
                    </button>
                </p>
                <div class="count-row">
                    <LessOrMore
                        less=texts().bench.one_fewer_done
                        more=texts().bench.one_more_done
                        button="count-button"
                        is_least=Signal::derive(move || done.get() == 0)
                        is_most=Signal::derive(all)
                        by=move |more| table.set_done(one_on(done.get_untracked(), more))
                    >
                        <output class="count-now" aria-live="polite">
                            {move || done.get()}
                            <span class="count-of">{move || format!(" {}", texts().bench.of(times.get()))}</span>
                        </output>
                    </LessOrMore>
                    <button
                        type="button"
                        class="count-all"
                        disabled=all
                        on:click=move |_| table.set_done(times.get_untracked())
                    >
                        {texts().bench.all_done}
                    </button>
                </div>
            </div>
        </Show>
        <Sheet open=asked title=texts().bench.how_many_cards>
            <Copies/>
        </Sheet>
    }
}
