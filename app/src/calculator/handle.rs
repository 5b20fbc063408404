//! What can be taken hold of in the figure: its numbers and its scores.

use foldwright_engine::length::{Length, nearest};
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::StripId;
use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::desk::Desk;
use super::picture::{Picture, ScoreSpot};
use crate::spoken::{aloud, texts};

/// A share as CSS writes it.
pub(super) fn percent(share: f64) -> String {
    format!("{:.3}%", share * 100.0)
}

/// A button over a number of the figure.
#[component]
pub(super) fn NumberSpotButton(picture: Memo<Picture>, number: usize) -> impl IntoView {
    let desk = Desk::here();
    let spot = Memo::new(move |_| picture.with(|picture| picture.numbers.get(number).copied()));
    let name = move || {
        let spot = spot.get()?;
        desk.recipe.with(|recipe| {
            let measure = recipe.measure(spot.measure)?;
            let length = recipe.notation.with_unit(measure.value);
            Some(aloud(&format!("{}, {length}", measure.name)))
        })
    };
    view! {
        <button
            type="button"
            class="spot"
            data-measure=move || spot.get().map(|spot| spot.measure.0.to_string())
            aria-label=name
            style:left=move || spot.get().map(|spot| percent(spot.left))
            style:top=move || spot.get().map(|spot| percent(spot.top))
            on:click=move |_| {
                if let Some(spot) = spot.get_untracked() {
                    desk.ask(spot.measure);
                }
            }
        ></button>
    }
}

/// How far a finger goes, in pixels, before it drags.
const STILL: f64 = 4.0;

/// Where a drag began.
#[derive(Clone, Copy)]
struct Drag {
    /// The pointer, in pixels from the left of the page.
    pointer: f64,
    /// The score then, in millimetres from the strip's start.
    score: f64,
    /// Millimetres in a pixel.
    scale: f64,
}

/// The score under a handle.
#[derive(Clone, Copy)]
struct Score {
    desk: Desk,
    spot: Memo<Option<ScoreSpot>>,
}

impl Score {
    /// The piece it is on, and its place along it. Tracks, as all but the last
    /// do.
    fn place(self) -> Option<(StripId, usize)> {
        let line = self.spot.get()?.score;
        self.desk.recipe.with(|recipe| recipe.score(line))
    }

    /// How far it lies from the strip's start.
    fn at(self) -> Length {
        let crease = self.place().and_then(|(of, number)| {
            self.desk.card.with(|card| {
                let crease = card.laid.piece(of)?.creases.get(number)?;
                Some(crease.from.x)
            })
        });
        crease.unwrap_or_default()
    }

    /// How long the strip is.
    fn end(self) -> Length {
        let end = self.place().and_then(|(of, _)| {
            self.desk
                .card
                .with(|card| Some(card.laid.piece(of)?.size.width))
        });
        end.unwrap_or_default()
    }

    fn name(self) -> Option<String> {
        let (of, number) = self.place()?;
        self.desk.recipe.with(|recipe| {
            let panels = &recipe.strip(of)?.panels;
            let (before, after) = (panels.get(number)?, panels.get(number + 1)?);
            Some(texts().desk.score_between(&before.name, &after.name))
        })
    }

    /// Moves it, where that is another place.
    fn move_to(self, to: Length) {
        let (at, place) = untrack(|| (self.at(), self.place()));
        if let Some((of, number)) = place
            && to != at
        {
            self.desk
                .edit(None, |recipe| recipe.move_score(of, number, to));
        }
    }
}

/// What is told of the score under a handle.
#[derive(Debug, Clone, Default, PartialEq)]
struct Told {
    name: Option<String>,
    end: String,
    at: String,
    said: String,
}

/// A score that is dragged, or moved with the arrow keys, from mark to mark.
#[component]
pub(super) fn ScoreHandle(picture: Memo<Picture>, number: usize) -> impl IntoView {
    let desk = Desk::here();
    let spot = Memo::new(move |_| picture.with(|picture| picture.scores.get(number).copied()));
    let score = Score { desk, spot };
    // Together, since a card may have a hundred handles, and what follows a recipe
    // takes its time to leave a long list of others.
    let told = Memo::new(move |_| Told {
        name: score.name(),
        end: score.end().as_mm_f64().to_string(),
        at: score.at().as_mm_f64().to_string(),
        said: aloud(&desk.written(score.at())),
    });
    let handle = NodeRef::<html::Div>::new();
    let drag = StoredValue::new(None::<Drag>);
    let was_moved = StoredValue::new(false);

    let begin = move |event: ev::PointerEvent| {
        let Some(handle) = handle.get_untracked() else {
            return;
        };
        let Some(sheet) = handle.parent_element() else {
            return;
        };
        let width = sheet.get_bounding_client_rect().width();
        if event.button() != 0 || width <= 0.0 {
            return;
        }
        // Without it the drag ends where the pointer leaves the handle.
        let _ = handle.set_pointer_capture(event.pointer_id());
        desk.history.hold();
        drag.set_value(Some(Drag {
            pointer: f64::from(event.client_x()),
            score: untrack(|| score.at()).as_mm_f64(),
            scale: picture.with_untracked(|picture| picture.size[0]) / width,
        }));
        was_moved.set_value(false);
    };
    let pull = move |event: ev::PointerEvent| {
        let Some(drag) = drag.get_value() else { return };
        let way = f64::from(event.client_x()) - drag.pointer;
        // A finger that taps is never quite still.
        if way.abs() < STILL && !was_moved.get_value() {
            return;
        }
        was_moved.set_value(true);
        let way = way * drag.scale;
        let step = untrack(|| desk.notation().step);
        score.move_to(nearest(from_mm(drag.score + way), step).at);
    };
    let finish = move || {
        if drag.try_update_value(Option::take).flatten().is_some() {
            desk.history.release();
        }
    };
    let key = move |event: ev::KeyboardEvent| {
        let steps = match event.key().as_str() {
            "ArrowRight" | "ArrowUp" => 1,
            "ArrowLeft" | "ArrowDown" => -1,
            "PageUp" => 8,
            "PageDown" => -8,
            "Enter" | " " => {
                event.prevent_default();
                if let Some(spot) = spot.get_untracked() {
                    desk.go(Place::of_line(spot.score));
                }
                return;
            }
            _ => return,
        };
        event.prevent_default();
        let step = untrack(|| desk.notation().step);
        let mark = nearest(untrack(|| score.at()), step).at;
        score.move_to(mark + step.length() * steps);
    };
    // A handle that goes in the middle of a drag must not leave it open.
    on_cleanup(finish);
    view! {
        <div
            node_ref=handle
            class="score-handle"
            role="slider"
            tabindex="0"
            aria-label=move || told.with(|told| told.name.clone())
            aria-valuemin="0"
            aria-valuemax=move || told.with(|told| told.end.clone())
            aria-valuenow=move || told.with(|told| told.at.clone())
            aria-valuetext=move || told.with(|told| told.said.clone())
            style:left=move || spot.get().map(|spot| percent(spot.left))
            style:top=move || spot.get().map(|spot| percent(spot.top))
            style:height=move || spot.get().map(|spot| percent(spot.height))
            on:pointerdown=begin
            on:pointermove=pull
            on:pointerup=move |_| finish()
            on:pointercancel=move |_| finish()
            on:keydown=key
            on:click=move |event| {
                // The end of a drag chooses nothing.
                if was_moved.get_value() {
                    event.stop_propagation();
                }
            }
        ></div>
    }
}

/// A place of the figure as a length, to the micron.
pub(super) fn from_mm(mm: f64) -> Length {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a cast to an integer stops at its ends, and no screen is that wide"
    )]
    Length::microns((mm * 1000.0).round() as i64)
}
