//! How many cards.

use leptos::html;
use leptos::prelude::*;

use super::LessOrMore;
use crate::spoken::texts;
use crate::typing::unless_typing;

/// The most cards a recipe can be for.
const MOST: u32 = 9999;

/// A number of cards, to be typed or stepped through.
#[component]
pub(crate) fn HowMany(
    /// How many there are.
    #[prop(into)]
    cards: Signal<u32>,
    /// What to do with another number.
    set: impl Fn(u32) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let set = move |number: u32| set(number.clamp(1, MOST));
    let typed = move |text: &str| {
        // While it is half typed, what holds stays.
        if let Ok(number @ 1..=MOST) = text.trim().parse() {
            set(number);
        }
    };
    let field = NodeRef::<html::Input>::new();
    let (shown, left) = unless_typing(
        field,
        move || cards.get().to_string(),
        Signal::stored(false),
    );
    view! {
        <div class="count" role="group" aria-label=texts().bench.how_many_cards>
            <p class="count-label">{texts().bench.cards_to_make}</p>
            <div class="count-row">
                <LessOrMore
                    less=texts().bench.one_card_fewer
                    more=texts().bench.one_card_more
                    button="count-button"
                    is_least=Signal::derive(move || cards.get() == 1)
                    is_most=Signal::derive(move || cards.get() == MOST)
                    by=move |more| set(one_on(cards.get_untracked(), more))
                >
                    <input
                        node_ref=field
                        class="count-field"
                        type="text"
                        inputmode="numeric"
                        maxlength="4"
                        aria-label=texts().bench.cards_to_make_between
                        data-unfinished="change"
                        prop:value=shown
                        on:blur=move |_| left()
                        on:input=move |event| typed(&event_target_value(&event))
                        on:change=move |event| {
                            event_target::<web_sys::HtmlInputElement>(&event)
                                .set_value(&cards.get_untracked().to_string());
                        }
                    />
                </LessOrMore>
            </div>
        </div>
    }
}

/// One more, or one fewer.
pub(crate) const fn one_on(number: u32, more: bool) -> u32 {
    if more {
        number.saturating_add(1)
    } else {
        number.saturating_sub(1)
    }
}
