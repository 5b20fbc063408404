//! Many cards at once: how many, and for how many a step is done.

use leptos::html;
use leptos::prelude::*;

use super::table::Table;
use crate::part::Sheet;
use crate::typing::unless_typing;

/// The most cards a recipe can be for.
const MOST: u32 = 9999;

/// How many cards are made.
#[component]
pub(super) fn Copies() -> impl IntoView {
    let table = Table::here();
    let copies = Memo::new(move |_| table.recipe.with(|recipe| recipe.copies));
    let set = move |copies: u32| {
        table
            .history
            .edit(|recipe| recipe.copies = copies.clamp(1, MOST));
    };
    let typed = move |text: &str| {
        // While it is half typed, what holds stays.
        if let Ok(number @ 1..=MOST) = text.trim().parse() {
            set(number);
        }
    };
    let field = NodeRef::<html::Input>::new();
    let (shown, left) = unless_typing(
        field,
        move || copies.get().to_string(),
        Signal::stored(false),
    );
    view! {
        <div class="count" role="group" aria-label="How many cards">
            <p class="count-label">"Cards to make"</p>
            <div class="count-row">
                <button
                    type="button"
                    class="count-button"
                    aria-label="One card fewer"
                    disabled=move || copies.get() == 1
                    on:click=move |_| set(copies.get_untracked().saturating_sub(1))
                >
                    "−"
                </button>
                <input
                    node_ref=field
                    class="count-field"
                    type="text"
                    inputmode="numeric"
                    maxlength="4"
                    aria-label="Cards to make, 1 to 9999"
                    data-unfinished="change"
                    prop:value=shown
                    on:blur=move |_| left()
                    on:input=move |event| typed(&event_target_value(&event))
                    on:change=move |event| {
                        event_target::<web_sys::HtmlInputElement>(&event)
                            .set_value(&copies.get_untracked().to_string());
                    }
                />
                <button
                    type="button"
                    class="count-button"
                    aria-label="One card more"
                    disabled=move || copies.get() == MOST
                    on:click=move |_| set(copies.get_untracked().saturating_add(1))
                >
                    "+"
                </button>
            </div>
        </div>
    }
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
            <div class="count" role="group" aria-label="Cards counted">
                <p class="count-label">
                    "Done, for "
                    <button type="button" class="count-times" aria-haspopup="dialog" on:click=move |_| asked.set(true)>
                        {move || format!("{} cards", times.get())}
                    </button>
                </p>
                <div class="count-row">
                    <button
                        type="button"
                        class="count-button"
                        aria-label="One fewer done"
                        disabled=move || done.get() == 0
                        on:click=move |_| table.set_done(done.get_untracked().saturating_sub(1))
                    >
                        "−"
                    </button>
                    <output class="count-now" aria-live="polite">
                        {move || done.get()}
                        <span class="count-of">{move || format!(" of {}", times.get())}</span>
                    </output>
                    <button
                        type="button"
                        class="count-button"
                        aria-label="One more done"
                        disabled=all
                        on:click=move |_| table.set_done(done.get_untracked().saturating_add(1))
                    >
                        "+"
                    </button>
                    <button
                        type="button"
                        class="count-all"
                        disabled=all
                        on:click=move |_| table.set_done(times.get_untracked())
                    >
                        "All done"
                    </button>
                </div>
            </div>
        </Show>
        <Sheet open=asked title="How many cards">
            <Copies/>
        </Sheet>
    }
}
