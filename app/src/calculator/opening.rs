//! The card on its way open: one fold after another, or all at once.

use foldwright_engine::stage::stage;
use leptos::prelude::*;

use super::desk::Desk;
use super::picture::Found;
use crate::part::Choice;
use crate::spoken::{language, speaker, texts};

/// How far the card is opened, and how.
#[derive(Clone, Copy)]
pub(super) struct Opens {
    /// How many of its scores are done, one after another.
    pub(super) steps: RwSignal<f64>,
    /// How much of the way all of them are, where they open at once.
    pub(super) share: RwSignal<f64>,
    /// Whether they are asked to open at once.
    pub(super) together: RwSignal<bool>,
}

impl Opens {
    pub(super) fn new() -> Self {
        Self {
            steps: RwSignal::new(0.0),
            share: RwSignal::new(0.0),
            together: RwSignal::new(false),
        }
    }
}

/// A share in whole tenths: words follow what moves no closer.
pub(super) fn tenths(share: f64) -> f64 {
    (share * 10.0).round() / 10.0
}

/// How far open it is with all its folds at once, in words.
pub(super) fn all_at_once(share: f64) -> String {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a share between nothing and one is a small whole number of hundredths"
    )]
    let hundredths = (share.clamp(0.0, 1.0) * 100.0).round() as usize;
    language().unfolding().all_at_once(hundredths)
}

/// How long one score takes to open by itself, in frames of about 16 ms.
const FRAMES: u32 = 24;

/// How long all scores take to open at once, in such frames.
const FRAMES_OF_ALL: u32 = 60;

/// How far the card is opened by the way that was chosen.
#[derive(Clone, Copy)]
struct Slide {
    opens: Opens,
    /// How many scores open one after another.
    folds: Memo<u32>,
    /// Whether it opens at once: that was asked for, and it does.
    at_once: Memo<bool>,
    /// Which movement is the last one begun.
    going: StoredValue<u32>,
}

impl Slide {
    /// What is moved. Tracks.
    fn at(self) -> RwSignal<f64> {
        if self.at_once.get() {
            self.opens.share
        } else {
            self.opens.steps
        }
    }

    /// As far as it goes. Tracks.
    fn last(self) -> f64 {
        if self.at_once.get() {
            1.0
        } else {
            f64::from(self.folds.get())
        }
    }

    /// A card that lost a score cannot be further open than flat. Tracks.
    fn now(self) -> f64 {
        self.at().get().min(self.last())
    }

    fn stop(self) {
        self.going.update_value(|turn| *turn = turn.wrapping_add(1));
    }

    fn set(self, to: f64) {
        self.stop();
        untrack(|| self.at()).set(to);
    }

    /// Moves on to the next score or the one before; all of the way where all open at
    /// once.
    fn go(self, further: bool) {
        self.stop();
        let turn = self.going.get_value();
        let (at, from, to, frames) = untrack(|| {
            let now = self.now();
            let (to, frames) = match (self.at_once.get(), further) {
                (true, false) => (0.0, FRAMES_OF_ALL),
                (true, true) => (1.0, FRAMES_OF_ALL),
                (false, false) => ((now - 0.01).floor().max(0.0), FRAMES),
                (false, true) => ((now + 0.01).ceil().min(self.last()), FRAMES),
            };
            (self.at(), now, to, frames)
        });
        if wants_stillness() {
            at.set(to);
        } else {
            let wanted = move || self.going.try_get_value() == Some(turn);
            advance(at, [from, to], [1, frames], wanted);
        }
    }
}

/// The slider that folds the card, and buttons from state to state.
#[component]
pub(super) fn Opening(
    opens: Opens,
    /// How it opens at once, once that was asked for, if it does.
    found: Memo<Option<Found>>,
) -> impl IntoView {
    let desk = Desk::here();
    let at_once = Memo::new(move |_| found.with(|found| matches!(found, Some(Found::Opens(_)))));
    let slide = Slide {
        opens,
        folds: Memo::new(move |_| {
            desk.card.with(|card| {
                let states = card.folded.as_ref().map_or(1, |folded| folded.states.len());
                u32::try_from(states.saturating_sub(1)).unwrap_or(u32::MAX)
            })
        }),
        at_once,
        going: StoredValue::new(0),
    };
    let name = Memo::new(move |_| {
        let at = slide.now();
        if at_once.get() {
            return all_at_once(at);
        }
        let stage = desk.card.with(|card| stage(card, at));
        desk.recipe.with(|recipe| speaker(recipe).stage(&stage))
    });
    let words =
        move |one: &'static str, all: &'static str| move || if at_once.get() { all } else { one };
    let closer = words(
        texts().desk.one_fold_closer,
        language().unfolding().all_closed,
    );
    let further = words(
        texts().desk.one_fold_further,
        language().unfolding().all_open,
    );
    let is_closed = move || slide.now() <= 0.0;
    let is_flat = move || slide.now() >= slide.last();
    // One score opens one way.
    let several = move || slide.folds.get() > 1;
    view! {
        <div class="opening">
            <button
                type="button"
                class="button"
                aria-label=closer
                disabled=is_closed
                on:click=move |_| slide.go(false)
            >
                {texts().desk.fold}
            </button>
            <div class="opening-slide">
                <input
                    type="range"
                    min="0"
                    step=move || if at_once.get() { "0.01" } else { "0.02" }
                    max=move || slide.last().to_string()
                    aria-label=texts().desk.how_far_open
                    aria-valuetext=move || name.get()
                    prop:value=move || slide.now().to_string()
                    on:input=move |event| {
                        if let Ok(to) = event_target_value(&event).parse() {
                            slide.set(to);
                        }
                    }
                />
                <p class="opening-name">{move || name.get()}</p>
            </div>
            <button
                type="button"
                class="button"
                aria-label=further
                disabled=is_flat
                on:click=move |_| slide.go(true)
            >
                {texts().desk.open}
            </button>
        </div>
        <Show when=several>
            <Ways slide/>
        </Show>
    }
}

/// One after another, or all at once.
#[component]
fn Ways(slide: Slide) -> impl IntoView {
    let say = language().unfolding();
    let together = slide.opens.together;
    let refused = move || together.get() && !slide.at_once.get();
    view! {
        <div class="looks">
            <Choice
                label=say.how_it_opens
                options=move || vec![(false, say.one_after_another), (true, say.all_together)]
                chosen=together
                choose=move |chosen| {
                    slide.stop();
                    together.set(chosen);
                }
            />
            <p role="status">{move || refused().then_some(say.not_together)}</p>
        </div>
    }
}

/// One frame of so many on the way from one state to another, and then the next.
fn advance(
    to_move: RwSignal<f64>,
    [from, to]: [f64; 2],
    [frame, frames]: [u32; 2],
    wanted: impl Fn() -> bool + Copy + 'static,
) {
    request_animation_frame(move || {
        if !wanted() {
            return;
        }
        let part = f64::from(frame) / f64::from(frames);
        let eased = part * part * (3.0 - 2.0 * part);
        // The page may have gone meanwhile.
        let gone = to_move.try_set(from + (to - from) * eased).is_some();
        if frame < frames && !gone {
            advance(to_move, [from, to], [frame + 1, frames], wanted);
        }
    });
}

/// Whether the maker asked their device for less movement.
fn wants_stillness() -> bool {
    let asked = window().match_media("(prefers-reduced-motion: reduce)");
    asked.ok().flatten().is_some_and(|asked| asked.matches())
}
