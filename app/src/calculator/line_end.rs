//! The ends of a crease or cut, taken hold of in the figure.

use foldwright_engine::length::Length;
use foldwright_engine::plane::{PieceFrame, Point};
use foldwright_engine::recipe::End;
use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::desk::Desk;
use super::handle::{from_mm, percent};
use super::picture::{EndSpot, Picture};

/// Where a drag began.
#[derive(Clone, Copy)]
struct Pull {
    /// The pointer, in pixels from the left and the top of the page.
    pointer: [f64; 2],
    /// The end then.
    end: Point<PieceFrame>,
    /// Millimetres in a pixel.
    scale: f64,
}

impl Pull {
    /// Where the end is dragged to. `up` is -1 where the strip lies turned over,
    /// its upper edge below.
    fn to(self, event: &ev::PointerEvent, up: f64) -> Point<PieceFrame> {
        let right = f64::from(event.client_x()) - self.pointer[0];
        let down = f64::from(event.client_y()) - self.pointer[1];
        Point::new(
            self.end.x + from_mm(right * self.scale),
            self.end.y - from_mm(down * self.scale * up),
        )
    }

    /// A finger's breadth of the figure, as it would be on the paper.
    fn reach(self) -> Length {
        from_mm(8.0 * self.scale)
    }
}

/// The end under a handle.
#[derive(Clone, Copy)]
struct Held {
    desk: Desk,
    spot: Memo<Option<EndSpot>>,
}

impl Held {
    /// Where it lies. Tracks.
    fn at(self) -> Option<Point<PieceFrame>> {
        let spot = self.spot.get()?;
        let end = |recipe: &foldwright_engine::recipe::Recipe| recipe.line_end(spot.line, spot.end);
        self.desk.recipe.with(end)
    }

    /// What it is called, where it lies, and how it is moved. Tracks.
    fn name(self) -> Option<String> {
        let (spot, at) = (self.spot.get()?, self.at()?);
        self.desk.recipe.with(|recipe| {
            let line = recipe.line(spot.line)?;
            let end = match spot.end {
                End::From => "Start",
                End::To => "End",
            };
            let written = |length| recipe.notation.with_unit(length);
            Some(format!(
                "{end} of {}, {} from the left and {} from below; arrow keys move it",
                line.name,
                written(at.x),
                written(at.y)
            ))
        })
    }

    /// Moves it to the nearest marks, or onto what is within `reach`.
    fn move_to(self, to: Point<PieceFrame>, reach: Length) {
        let Some(EndSpot { line, end, .. }) = self.spot.get_untracked() else {
            return;
        };
        let recipe = self.desk.recipe;
        let to = recipe.with_untracked(|recipe| recipe.snapped(line, to, reach));
        if untrack(|| self.at()) != Some(to) {
            self.desk
                .edit(None, |recipe| recipe.move_line_end(line, end, to));
        }
    }
}

/// An end of a line that is dragged, or moved with the arrow keys, from mark to
/// mark and onto what is near.
#[component]
pub(super) fn EndHandle(picture: Memo<Picture>, number: usize) -> impl IntoView {
    let desk = Desk::here();
    let spot = Memo::new(move |_| picture.with(|picture| picture.ends.get(number).copied()));
    let held = Held { desk, spot };
    let handle = NodeRef::<html::Button>::new();
    let pull = StoredValue::new(None::<Pull>);
    let up = move || picture.with_untracked(|picture| if picture.turned { -1.0 } else { 1.0 });
    let begin = move |event: ev::PointerEvent| {
        let (Some(handle), Some(end)) = (handle.get_untracked(), untrack(|| held.at())) else {
            return;
        };
        let sheet = handle.parent_element();
        let width = sheet.map_or(0.0, |sheet| sheet.get_bounding_client_rect().width());
        if event.button() != 0 || width <= 0.0 {
            return;
        }
        // Without it the drag ends where the pointer leaves the handle.
        let _ = handle.set_pointer_capture(event.pointer_id());
        desk.history.hold();
        pull.set_value(Some(Pull {
            pointer: [f64::from(event.client_x()), f64::from(event.client_y())],
            end,
            scale: picture.with_untracked(|picture| picture.size[0]) / width,
        }));
    };
    let drag = move |event: ev::PointerEvent| {
        if let Some(pull) = pull.get_value() {
            held.move_to(pull.to(&event, up()), pull.reach());
        }
    };
    let finish = move || {
        if pull.try_update_value(Option::take).flatten().is_some() {
            desk.history.release();
        }
    };
    let key = move |event: ev::KeyboardEvent| {
        let (x, y) = match event.key().as_str() {
            "ArrowRight" => (1, 0),
            "ArrowLeft" => (-1, 0),
            "ArrowUp" => (0, 1),
            "ArrowDown" => (0, -1),
            _ => return,
        };
        let Some(now) = untrack(|| held.at()) else {
            return;
        };
        event.prevent_default();
        let step = untrack(|| desk.notation().step).length();
        let y = if up() < 0.0 { -y } else { y };
        let to = Point::new(now.x + step * x, now.y + step * y);
        held.move_to(to, Length::ZERO);
    };
    // A handle that goes in the middle of a drag must not leave it open.
    on_cleanup(finish);
    view! {
        <button
            node_ref=handle
            type="button"
            class="line-end"
            aria-label=move || held.name()
            style:left=move || spot.get().map(|spot| percent(spot.left))
            style:top=move || spot.get().map(|spot| percent(spot.top))
            on:pointerdown=begin
            on:pointermove=drag
            on:pointerup=move |_| finish()
            on:pointercancel=move |_| finish()
            on:keydown=key
        ></button>
    }
}
