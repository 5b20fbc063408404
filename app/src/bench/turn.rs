//! Going on and back: by thumb, by swipe, by keyboard and page turner.

use leptos::ev;
use leptos::prelude::*;
use web_sys::wasm_bindgen::JsCast as _;
use web_sys::{Element, KeyboardEvent, PointerEvent};

use super::place::Place;
use super::table::Table;
use crate::part::{Icon, Symbol};
use crate::spoken::texts;

/// One of the two ways.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Turn {
    On,
    Back,
}

impl Turn {
    /// What a key asks for. Page turners send the keys of their setting: pages,
    /// arrows, space and enter, or the keys that change a track.
    fn of_key(key: &str, shift: bool) -> Option<Self> {
        match key {
            " " if shift => Some(Self::Back),
            "ArrowRight" | "PageDown" | " " | "Enter" | "MediaTrackNext" => Some(Self::On),
            "ArrowLeft" | "PageUp" | "MediaTrackPrevious" => Some(Self::Back),
            _ => None,
        }
    }

    fn take(self, table: Table) {
        match self {
            Self::On => table.go_on(),
            Self::Back => table.go_back(),
        }
    }
}

/// The two large buttons at the foot.
#[component]
pub(super) fn Turns() -> impl IntoView {
    let table = Table::here();
    let last = move || {
        let place = table.place.get();
        table
            .steps
            .with(|steps| place == Place::At(steps.len().saturating_sub(1)))
    };
    let next = move || {
        if last() {
            texts().bench.finish
        } else {
            texts().bench.next
        }
    };
    view! {
        <nav class="turns" aria-label=texts().bench.steps>
            <button
                type="button"
                class="turn-back"
                disabled=move || table.place.get() == Place::At(0)
                on:click=move |_| table.go_back()
            >
                <Icon symbol=Symbol::Back/>
                {texts().bench.back}
            </button>
            <Show
                when=move || table.place.get() != Place::Finish
                fallback=move || view! { <a class="turn-on" href=table.recipe_address()>{texts().bench.to_recipe}</a> }
            >
                <button type="button" class="turn-on" on:click=move |_| table.go_on()>
                    {next}
                    <Icon symbol=Symbol::Next/>
                </button>
            </Show>
        </nav>
    }
}

/// Listens to the keyboard and to page turners for as long as the bench is
/// open.
pub(super) fn listen_for_keys(table: Table, ready: impl Fn() -> bool + 'static) {
    let listener = window_event_listener(ev::keydown, move |event| {
        if let Some(turn) = wanted(&event)
            && ready()
        {
            event.prevent_default();
            turn.take(table);
        }
    });
    on_cleanup(move || listener.remove());
}

/// The turn a key stroke asks for, unless it is meant for something else.
fn wanted(event: &KeyboardEvent) -> Option<Turn> {
    let key = event.key();
    let turn = Turn::of_key(&key, event.shift_key())?;
    let presses = matches!(&*key, " " | "Enter") && is_within(event, "button, a, summary");
    (!presses && is_for_bench(event)).then_some(turn)
}

/// Whether a key stroke is meant for the bench, and not for a field, a dialog or the
/// browser.
pub(super) fn is_for_bench(event: &KeyboardEvent) -> bool {
    let other = event.default_prevented()
        || event.repeat()
        || event.is_composing()
        || event.ctrl_key()
        || event.alt_key()
        || event.meta_key();
    !other && event.target().is_some() && !is_within(event, "input, textarea, select, dialog")
}

fn is_within(event: &KeyboardEvent, what: &str) -> bool {
    let target = event.target().and_then(|it| it.dyn_into::<Element>().ok());
    target.is_some_and(|target| matches!(target.closest(what), Ok(Some(_))))
}

/// How far a finger must go sideways, in CSS pixels, and how near to the edge
/// it may start: there phones have gestures of their own. Our own values.
const FAR: i32 = 56;
const EDGE: i32 = 20;

/// Tells a swipe sideways from everything else fingers do.
#[derive(Clone, Copy)]
pub(super) struct Swipe {
    table: Table,
    from: StoredValue<Option<(i32, i32, i32)>>,
}

impl Swipe {
    pub(super) fn new(table: Table) -> Self {
        Self {
            table,
            from: StoredValue::new(None),
        }
    }

    /// A finger or pen comes down. A mouse has better things to press.
    pub(super) fn down(self, event: &PointerEvent) {
        let field = event
            .target()
            .and_then(|target| target.dyn_into::<Element>().ok())
            .is_some_and(|target| matches!(target.closest("input, textarea"), Ok(Some(_))));
        let edge = document().document_element().is_some_and(|page| {
            event.client_x() < EDGE || event.client_x() > page.client_width() - EDGE
        });
        let swipes = event.is_primary() && event.pointer_type() != "mouse" && !field && !edge;
        let from = (event.pointer_id(), event.client_x(), event.client_y());
        self.from.set_value(swipes.then_some(from));
    }

    /// It goes up again.
    pub(super) fn up(self, event: &PointerEvent) {
        let Some((id, x, y)) = self.from.get_value() else {
            return;
        };
        self.cancel();
        let across = event.client_x() - x;
        let along = event.client_y() - y;
        if event.pointer_id() == id && across.abs() >= FAR && across.abs() > 2 * along.abs() {
            let turn = if across < 0 { Turn::On } else { Turn::Back };
            turn.take(self.table);
        }
    }

    /// The browser took the finger for scrolling.
    pub(super) fn cancel(self) {
        self.from.set_value(None);
    }
}

#[cfg(test)]
mod tests {
    use super::Turn;

    // The key names are those of W3C UI Events; that page turners send them is
    // common practice.
    #[test]
    fn keys_of_keyboards_and_page_turners_turn() {
        for key in ["ArrowRight", "PageDown", " ", "Enter"] {
            assert_eq!(Turn::of_key(key, false), Some(Turn::On), "{key}");
        }
        for key in ["ArrowLeft", "PageUp"] {
            assert_eq!(Turn::of_key(key, false), Some(Turn::Back), "{key}");
        }
        assert_eq!(Turn::of_key(" ", true), Some(Turn::Back));
        for key in ["ArrowDown", "ArrowUp", "Tab", "a", "Escape"] {
            assert_eq!(Turn::of_key(key, false), None, "{key}");
        }
    }
}
