//! Clocks beside the steps: glue that dries while other work goes on.

mod bell;
mod set;
mod strip;

use std::time::Duration;

use leptos::ev;
use leptos::prelude::*;

use crate::by_name::{call, of_browser};
use crate::random;
use crate::spoken::language;
use crate::store::{Clock, Look, Store, now};
use bell::Bell;
pub(super) use set::{ClockForStep, SetClock};
pub(super) use strip::ClockStrip;

/// In milliseconds.
const MINUTE: u64 = 60_000;

/// The most minutes a clock can be set for: a day. Our own bound.
const MOST_MINUTES: u32 = 1440;

/// The clocks of this device while its bench is open.
#[derive(Clone, Copy)]
pub(super) struct Clocks {
    store: Store,
    all: RwSignal<Vec<Clock>>,
    /// The steady count of this page when the clocks were looked at last.
    at: StoredValue<u64>,
    /// Whether the page was out of sight since then.
    was_hidden: StoredValue<bool>,
    bell: Bell,
}

impl Clocks {
    pub(super) fn here() -> Self {
        expect_context()
    }

    /// Has the clocks run on for as long as the bench is open.
    pub(super) fn begin() -> Self {
        let store = expect_context::<Store>();
        let clocks = Self {
            store,
            all: RwSignal::new(Vec::new()),
            at: StoredValue::new(steady()),
            was_hidden: StoredValue::new(false),
            bell: Bell::new(),
        };
        clocks.take_up();
        clocks.tell_ends();
        let tick = set_interval_with_handle(move || clocks.look(), Duration::from_secs(1));
        let hidden = window_event_listener(ev::visibilitychange, move |_| {
            if document().hidden() {
                clocks.was_hidden.set_value(true);
            }
            clocks.look();
            clocks.keep();
        });
        let left = window_event_listener(ev::pagehide, move |_| {
            clocks.look();
            clocks.keep();
        });
        let elsewhere = window_event_listener(ev::storage, move |event| {
            if Store::is_of_clocks(&event) {
                clocks.take_up();
            }
        });
        // After a reload a browser makes no sound before somebody has touched the page.
        let touched = window_event_listener(ev::pointerdown, move |_| {
            if clocks.all.with_untracked(|all| !all.is_empty()) {
                clocks.bell.get_ready();
            }
        });
        on_cleanup(move || {
            if let Ok(tick) = tick {
                tick.clear();
            }
            hidden.remove();
            left.remove();
            elsewhere.remove();
            touched.remove();
            clocks.look();
            clocks.keep();
        });
        clocks
    }

    /// Sets a clock for so many minutes. To be called as somebody taps: browsers let
    /// sound and messages be asked for only then.
    fn set(self, of: String, minutes: u32) {
        self.bell.get_ready();
        self.bell.ask();
        let clock = Clock {
            id: random::short(),
            of,
            left: u64::from(minutes) * MINUTE,
            seen: now(),
            is_uncertain: false,
            is_told: false,
        };
        self.look();
        self.all.update(|all| all.push(clock.clone()));
        let mut kept = self.store.clocks();
        kept.push(clock);
        self.store.set_clocks(&kept);
    }

    /// Takes a clock away, run down or not.
    fn dismiss(self, id: u32) {
        self.all.update(|all| all.retain(|clock| clock.id != id));
        let mut kept = self.store.clocks();
        kept.retain(|clock| clock.id != id);
        self.store.set_clocks(&kept);
    }

    /// Takes up what is kept: clocks that run here already run on as they do.
    fn take_up(self) {
        let own = self.all.get_untracked();
        let mut kept = self.store.clocks();
        for clock in &mut kept {
            if let Some(own) = own.iter().find(|own| own.id == clock.id) {
                let is_told = clock.is_told || own.is_told;
                clock.clone_from(own);
                clock.is_told = is_told;
            } else {
                clock.look(Look {
                    now: now(),
                    steady: None,
                    may_have_slept: false,
                });
            }
        }
        if own != kept {
            self.all.set(kept);
        }
    }

    /// Looks at all clocks again.
    fn look(self) {
        let Some(before) = self.at.try_get_value() else {
            return;
        };
        let at = steady();
        self.at.set_value(at);
        let look = Look {
            now: now(),
            steady: Some(at.saturating_sub(before)),
            may_have_slept: self.was_hidden.get_value() || document().hidden(),
        };
        self.was_hidden.set_value(document().hidden());
        let runs = self
            .all
            .with_untracked(|all| all.iter().any(|clock| !clock.is_up()));
        if runs {
            self.all.update(|all| {
                for clock in all {
                    clock.look(look);
                }
            });
            self.tell_ends();
        }
    }

    /// Rings for clocks that have run down, once for each.
    fn tell_ends(self) {
        let is_due = |clock: &&Clock| clock.is_up() && !clock.is_told;
        let due = self.all.with_untracked(|all| {
            let due = all.iter().filter(is_due);
            due.map(|clock| clock.of.clone()).collect::<Vec<_>>()
        });
        if due.is_empty() {
            return;
        }
        self.all.update(|all| {
            for clock in all {
                clock.is_told |= clock.is_up();
            }
        });
        self.keep();
        for of in due {
            self.bell.ring(&language().beside().time_is_up(&of));
        }
    }

    /// Keeps how far the clocks have run. One that another tab has taken away stays
    /// away.
    fn keep(self) {
        let Some(own) = self.all.try_get_untracked() else {
            return;
        };
        let mut kept = self.store.clocks();
        if kept.is_empty() {
            return;
        }
        for clock in &mut kept {
            if let Some(own) = own.iter().find(|own| own.id == clock.id) {
                clock.clone_from(own);
            }
        }
        self.store.set_clocks(&kept);
    }
}

/// The steady count of this page, in milliseconds.
pub(super) fn steady() -> u64 {
    let performance = of_browser("performance");
    let count = performance.and_then(|it| call(&it, "now", &[]).ok()?.as_f64());
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "milliseconds since the page was opened are few and not below zero"
    )]
    let count = count.unwrap_or_default() as u64;
    count
}
