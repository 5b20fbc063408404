//! A window of the strip, taken hold of in the figure.

use foldwright_engine::length::nearest;
use foldwright_engine::plane::{PieceFrame, Point};
use leptos::ev;
use leptos::html;
use leptos::prelude::*;

use super::desk::Desk;
use super::handle::{from_mm, percent};
use super::picture::{Picture, WindowSpot};

/// Where a drag began.
#[derive(Clone, Copy)]
struct Pull {
    /// The pointer, in pixels from the left and the top of the page.
    pointer: [f64; 2],
    /// The window's lower left corner then.
    low: Point<PieceFrame>,
    /// Millimetres in a pixel.
    scale: f64,
}

/// The window under a handle.
#[derive(Clone, Copy)]
struct Held {
    desk: Desk,
    spot: Memo<Option<WindowSpot>>,
}

impl Held {
    /// Where its lower left corner lies on the strip. Tracks.
    fn low(self) -> Option<Point<PieceFrame>> {
        let spot = self.spot.get()?;
        let window =
            |recipe: &foldwright_engine::recipe::Recipe| recipe.window_on_strip(spot.window);
        self.desk.recipe.with(window).map(|window| window.low)
    }

    /// What it is called, where it lies, and how it is moved. Tracks.
    fn name(self) -> Option<String> {
        let (spot, low) = (self.spot.get()?, self.low()?);
        self.desk.recipe.with(|recipe| {
            let name = &recipe.cutout(spot.window)?.name;
            let written = |length| recipe.notation.with_unit(length);
            Some(format!(
                "{name}, {} from the left and {} from below; arrow keys move it",
                written(low.x),
                written(low.y)
            ))
        })
    }

    /// Moves its lower left corner to the nearest marks.
    fn move_to(self, to: Point<PieceFrame>) {
        let (Some(spot), Some(low)) = (self.spot.get_untracked(), untrack(|| self.low())) else {
            return;
        };
        let step = untrack(|| self.desk.notation().step);
        let to = Point::<PieceFrame>::new(nearest(to.x, step).at, nearest(to.y, step).at);
        if to != low {
            let by = (to.x - low.x, to.y - low.y);
            self.desk
                .edit(None, |recipe| recipe.move_window(spot.window, by));
        }
    }
}

/// A window that is dragged, or moved with the arrow keys, from mark to mark.
#[component]
pub(super) fn WindowHandle(picture: Memo<Picture>, number: usize) -> impl IntoView {
    let desk = Desk::here();
    let spot = Memo::new(move |_| picture.with(|picture| picture.windows.get(number).copied()));
    let held = Held { desk, spot };
    let handle = NodeRef::<html::Button>::new();
    let pull = StoredValue::new(None::<Pull>);
    // -1 where the strip lies turned over, its upper edge below.
    let up = move || picture.with_untracked(|picture| if picture.turned { -1.0 } else { 1.0 });
    let begin = move |event: ev::PointerEvent| {
        let (Some(handle), Some(low)) = (handle.get_untracked(), untrack(|| held.low())) else {
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
            low,
            scale: picture.with_untracked(|picture| picture.size[0]) / width,
        }));
    };
    let drag = move |event: ev::PointerEvent| {
        let Some(pull) = pull.get_value() else { return };
        let right = f64::from(event.client_x()) - pull.pointer[0];
        let down = f64::from(event.client_y()) - pull.pointer[1];
        held.move_to(Point::new(
            pull.low.x + from_mm(right * pull.scale),
            pull.low.y - from_mm(down * pull.scale * up()),
        ));
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
        let Some(low) = untrack(|| held.low()) else {
            return;
        };
        event.prevent_default();
        let step = untrack(|| desk.notation().step).length();
        let y = if up() < 0.0 { -y } else { y };
        held.move_to(Point::new(low.x + step * x, low.y + step * y));
    };
    // A handle that goes in the middle of a drag must not leave it open.
    on_cleanup(finish);
    view! {
        <button
            node_ref=handle
            type="button"
            class="line-end window-grip"
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
