//! Setting a clock for the step at this place.

use foldwright_engine::steps::Kind;
use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::{Clocks, MOST_MINUTES};
use crate::bench::aids::AtHand;
use crate::bench::said::Said;
use crate::bench::table::Table;
use crate::spoken::language;

/// The minutes with a button of their own. Our own choice: no maker of glue is meant.
const MINUTES: [u32; 3] = [5, 15, 30];

/// Three buttons and a field, and how long glue takes is left to its maker.
#[component]
pub(in crate::bench) fn SetClock() -> impl IntoView {
    let table = Table::here();
    let said = Said::here();
    let clocks = Clocks::here();
    let hand = AtHand::here();
    let texts = language().beside();
    let field = NodeRef::<html::Input>::new();
    let is_wrong = RwSignal::new(false);
    let set = move |minutes: u32| {
        let card = table.recipe.with_untracked(|recipe| recipe.name.clone());
        let step = said.step.with_untracked(|step| step.title.clone());
        let of = if step.is_empty() {
            card
        } else {
            texts.of_step(&step, &card)
        };
        clocks.set(of, minutes);
        hand.close();
    };
    let buttons = MINUTES.map(|minutes| {
        view! {
            <button type="button" class="button clock-set" on:click=move |_| set(minutes)>
                {texts.minutes(minutes)}
            </button>
        }
    });
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        let typed = field.get_untracked().map(|field| field.value());
        match typed.unwrap_or_default().trim().parse() {
            Ok(minutes @ 1..=MOST_MINUTES) => set(minutes),
            _ => is_wrong.set(true),
        }
    };
    view! {
        <div class="clock-buttons">{buttons.into_iter().collect_view()}</div>
        <form class="clock-own" on:submit=submit>
            <label class="field">
                <span>{texts.own_minutes}</span>
                <input
                    node_ref=field
                    type="text"
                    inputmode="numeric"
                    autocomplete="off"
                    maxlength="4"
                    aria-invalid=move || if is_wrong.get() { "true" } else { "false" }
                    on:input=move |_| is_wrong.set(false)
                />
                <span class="wrong" aria-live="polite">
                    {move || is_wrong.get().then_some(texts.not_minutes)}
                </span>
            </label>
            <button type="submit" class="button clock-set">{texts.start}</button>
        </form>
        <p class="quiet">{texts.about_clocks}</p>
    }
}

/// The way to a clock from a step at which something dries or is pressed.
#[component]
pub(in crate::bench) fn ClockForStep() -> impl IntoView {
    let table = Table::here();
    let hand = AtHand::here();
    let waits = move || {
        table.step.with(|step| {
            let kind = step.as_ref().map(|step| step.kind);
            matches!(kind, Some(Kind::Glue | Kind::Insert | Kind::Dry))
        })
    };
    view! {
        <Show when=waits>
            <button
                type="button"
                class="button bench-way"
                aria-haspopup="dialog"
                on:click=move |_| hand.open()
            >
                {language().beside().set_a_clock}
            </button>
        </Show>
    }
}
