//! Turning the card in space: by dragging it, or with the arrow keys; and bringing
//! it nearer, with two fingers or with plus and minus.

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

/// How near the card is brought at most, and by a press of a key. (Own choice.)
const NEAREST: f64 = 4.0;
const NEARER: f64 = 1.25;

/// A drag from where it began.
#[derive(Clone, Copy)]
struct Pull {
    pointer: [f64; 2],
    from: Direction,
}

/// Two pointers on the card, and how far apart they were when it was so near.
#[derive(Clone, Copy)]
struct Pinch {
    pointers: [(i32, [f64; 2]); 2],
    apart: f64,
    near: f64,
}

impl Pinch {
    /// How far apart they are; never nothing.
    fn apart(&self) -> f64 {
        let [one, other] = self.pointers.map(|(_, at)| at);
        (one[0] - other[0]).hypot(one[1] - other[1]).max(1.0)
    }
}

/// From where the card is looked at in space.
#[derive(Clone, Copy)]
pub(super) struct Turning {
    first: Signal<Direction>,
    /// None as at first.
    pub(super) from: RwSignal<Option<Direction>>,
    /// How much nearer than at first.
    near: RwSignal<f64>,
    pull: StoredValue<Option<Pull>>,
    pinch: StoredValue<Option<Pinch>>,
    /// The pointer that is down, with where.
    down: StoredValue<Option<(i32, [f64; 2])>>,
    pulled: StoredValue<bool>,
}

impl Turning {
    pub(super) fn new(first: Signal<Direction>) -> Self {
        Self {
            first,
            from: RwSignal::new(None),
            near: RwSignal::new(1.0),
            pull: StoredValue::new(None),
            pinch: StoredValue::new(None),
            down: StoredValue::new(None),
            pulled: StoredValue::new(false),
        }
    }

    fn now(self) -> Direction {
        let from = self.from.get_untracked();
        from.unwrap_or_else(|| self.first.get_untracked())
    }

    /// How much nearer than at first it is looked at. Tracks.
    pub(super) fn near(self) -> f64 {
        self.near.get()
    }

    /// Whether it is looked at as at first. Tracks.
    pub(super) fn is_as_at_first(self) -> bool {
        self.from.get().is_none() && self.near.get() <= 1.0
    }

    /// Goes on looking from where it is looked at now, whatever would be best.
    pub(super) fn stay(self) {
        let now = self.now();
        if self.from.get_untracked() != Some(now) {
            self.from.set(Some(now));
        }
    }

    pub(super) fn as_at_first(self) {
        self.from.set(None);
        self.near.set(1.0);
    }

    fn bring(self, near: f64) {
        self.near.set(near.clamp(1.0, NEAREST));
    }

    pub(super) fn take(self, event: &ev::PointerEvent) {
        let this = (event.pointer_id(), pointer(event));
        match self.down.get_value() {
            Some(other) if other.0 != this.0 => {
                let mut pinch = Pinch {
                    pointers: [other, this],
                    apart: 1.0,
                    near: self.near.get_untracked(),
                };
                pinch.apart = pinch.apart();
                self.pinch.set_value(Some(pinch));
                self.pull.set_value(None);
                self.pulled.set_value(true);
            }
            _ if event.button() == 0 => {
                self.pulled.set_value(false);
                self.down.set_value(Some(this));
                self.pull.set_value(Some(Pull {
                    pointer: this.1,
                    from: self.now(),
                }));
            }
            _ => {}
        }
    }

    /// The side that is near goes with the pointer; with two, the card comes nearer as
    /// they part.
    pub(super) fn pull(self, event: &ev::PointerEvent) {
        if event.buttons() == 0 {
            return self.let_go(event);
        }
        if let Some(mut pinch) = self.pinch.get_value() {
            for held in &mut pinch.pointers {
                if held.0 == event.pointer_id() {
                    held.1 = pointer(event);
                }
            }
            self.pinch.set_value(Some(pinch));
            return self.bring(pinch.near * pinch.apart() / pinch.apart);
        }
        let Some(Pull { pointer: at, from }) = self.pull.get_value() else {
            return;
        };
        let now = pointer(event);
        self.down.set_value(Some((event.pointer_id(), now)));
        let [right, down] = [0, 1].map(|i| now[i] - at[i]);
        if right.hypot(down) > TAP {
            self.pulled.set_value(true);
        }
        if self.was_pulled() {
            let turned = from.turned(-right * PIXEL, down * PIXEL);
            self.from.set(Some(turned));
        }
    }

    /// A pointer is up, or gone; one that is left of two no longer turns the card.
    pub(super) fn let_go(self, event: &ev::PointerEvent) {
        let id = event.pointer_id();
        self.pull.set_value(None);
        let left = self.pinch.get_value().and_then(|pinch| {
            let mut pointers = pinch.pointers.into_iter();
            pointers.find(|held| held.0 != id)
        });
        self.pinch.set_value(None);
        self.down.set_value(left);
    }

    /// The page does not scroll under two fingers.
    pub(super) fn hold_page(self, event: &ev::TouchEvent) {
        if self.pinch.with_value(Option::is_some) {
            event.prevent_default();
        }
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
                return self.as_at_first();
            }
            "+" => return self.bring(self.near.get_untracked() * NEARER),
            "-" => return self.bring(self.near.get_untracked() / NEARER),
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
