//! Turning the card in space: by dragging it, or with the arrow keys.

use foldwright_engine::draw::Direction;
use leptos::ev;
use leptos::prelude::*;

use crate::spoken::texts;

/// From where the opening card is looked at first, nearly: it is drawn so that
/// lengths on the table keep their size, which no direction does.
pub(super) const OPENING: Direction = Direction {
    round: -18.0,
    above: 69.0,
};

/// Degrees in a pixel of a drag, and in a press of a key. (Own choice.)
const PIXEL: f64 = 0.5;
const PRESS: f64 = 10.0;

/// How far a pointer goes that still taps, in pixels.
const TAP: f64 = 4.0;

/// A drag from where it began.
#[derive(Clone, Copy)]
struct Pull {
    pointer: [f64; 2],
    from: Direction,
}

/// From where the card is looked at in space.
#[derive(Clone, Copy)]
pub(super) struct Turning {
    first: Signal<Direction>,
    /// None as at first.
    pub(super) from: RwSignal<Option<Direction>>,
    pull: StoredValue<Option<Pull>>,
    pulled: StoredValue<bool>,
}

impl Turning {
    pub(super) fn new(first: Signal<Direction>) -> Self {
        Self {
            first,
            from: RwSignal::new(None),
            pull: StoredValue::new(None),
            pulled: StoredValue::new(false),
        }
    }

    fn now(self) -> Direction {
        let from = self.from.get_untracked();
        from.unwrap_or_else(|| self.first.get_untracked())
    }

    pub(super) fn take(self, event: &ev::PointerEvent) {
        self.pulled.set_value(false);
        if event.button() == 0 {
            self.pull.set_value(Some(Pull {
                pointer: pointer(event),
                from: self.now(),
            }));
        }
    }

    /// The side that is near goes with the pointer.
    pub(super) fn pull(self, event: &ev::PointerEvent) {
        let Some(Pull { pointer: at, from }) = self.pull.get_value() else {
            return;
        };
        if event.buttons() == 0 {
            return self.let_go();
        }
        let [right, down] = [0, 1].map(|i| pointer(event)[i] - at[i]);
        if right.hypot(down) > TAP {
            self.pulled.set_value(true);
        }
        if self.was_pulled() {
            let turned = from.turned(-right * PIXEL, down * PIXEL);
            self.from.set(Some(turned));
        }
    }

    pub(super) fn let_go(self) {
        self.pull.set_value(None);
    }

    /// Whether the last press of the pointer was a drag.
    pub(super) fn was_pulled(self) -> bool {
        self.pulled.get_value()
    }

    fn press(self, event: &ev::KeyboardEvent) {
        let (round, above) = match event.key().as_str() {
            "ArrowLeft" => (-PRESS, 0.0),
            "ArrowRight" => (PRESS, 0.0),
            "ArrowUp" => (0.0, PRESS),
            "ArrowDown" => (0.0, -PRESS),
            "Home" => {
                event.prevent_default();
                return self.from.set(None);
            }
            _ => return,
        };
        event.prevent_default();
        self.from.set(Some(self.now().turned(round, above)));
    }
}

fn pointer(event: &ev::PointerEvent) -> [f64; 2] {
    [f64::from(event.client_x()), f64::from(event.client_y())]
}

/// Turns the card for the keyboard with the arrow keys, and for all who do not
/// drag a little further with each press.
#[component]
pub(super) fn Turner(turning: Turning) -> impl IntoView {
    view! {
        <button
            type="button"
            class="button"
            on:keydown=move |event| turning.press(&event)
            on:click=move |_| turning.from.set(Some(turning.now().turned(3.0 * PRESS, 0.0)))
        >
            {texts().desk.turn_card}
        </button>
    }
}
