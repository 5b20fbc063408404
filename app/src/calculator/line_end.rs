//! A crease or cut, taken hold of in the figure, whole or by an end.

use foldwright_engine::length::Length;
use foldwright_engine::plane::{PieceFrame, Point, Segment};
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
    /// The line then.
    line: Segment<PieceFrame>,
    /// Millimetres in a pixel.
    scale: f64,
}

impl Pull {
    /// How far it is dragged. `up` is -1 where the strip lies turned over, its
    /// upper edge below.
    fn by(self, event: &ev::PointerEvent, up: f64) -> [Length; 2] {
        let right = f64::from(event.client_x()) - self.pointer[0];
        let down = f64::from(event.client_y()) - self.pointer[1];
        [right, -down * up].map(|pixels| from_mm(pixels * self.scale))
    }

    /// A finger's breadth of the figure, as it would be on the paper.
    fn reach(self) -> Length {
        from_mm(8.0 * self.scale)
    }
}

/// The end or the line under a handle.
#[derive(Clone, Copy)]
struct Held {
    desk: Desk,
    spot: Memo<Option<EndSpot>>,
}

impl Held {
    /// Where the line lies. Tracks.
    fn line(self) -> Option<Segment<PieceFrame>> {
        let spot = self.spot.get()?;
        self.desk.recipe.with(|recipe| {
            let end = |end| recipe.line_end(spot.line, end);
            Some(Segment::new(end(End::From)?, end(End::To)?))
        })
    }

    /// What it is called, where it lies, and how it is moved. Tracks.
    fn name(self) -> Option<String> {
        let (spot, course) = (self.spot.get()?, self.line()?);
        self.desk.recipe.with(|recipe| {
            let line = recipe.line(spot.line)?;
            let (end, at) = match spot.end {
                None => ("All", course.from),
                Some(End::From) => ("Start", course.from),
                Some(End::To) => ("End", course.to),
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

    /// Moves it from where the line was to the nearest marks, or onto what is
    /// within `reach`.
    fn move_by(self, was: Segment<PieceFrame>, by: [Length; 2], reach: Length) {
        let Some(EndSpot { line, end, .. }) = self.spot.get_untracked() else {
            return;
        };
        let moved = |at: Point<PieceFrame>| Point::new(at.x + by[0], at.y + by[1]);
        let to = self.desk.recipe.with_untracked(|recipe| {
            let snapped = |at| recipe.snapped(line, moved(at), reach);
            match end {
                None => {
                    recipe.line_snapped(line, Segment::new(moved(was.from), moved(was.to)), reach)
                }
                Some(End::From) => Segment::new(snapped(was.from), was.to),
                Some(End::To) => Segment::new(was.from, snapped(was.to)),
            }
        });
        // On its way over the other end it waits.
        if untrack(|| self.line()) != Some(to) && !to.is_point() {
            self.desk.edit(None, |recipe| recipe.move_line(line, to));
        }
    }
}

/// An end of a line, or the whole of it, that is dragged, or moved with the arrow keys, from mark to
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
        let (Some(handle), Some(line)) = (handle.get_untracked(), untrack(|| held.line())) else {
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
            line,
            scale: picture.with_untracked(|picture| picture.size[0]) / width,
        }));
    };
    let drag = move |event: ev::PointerEvent| {
        if let Some(pull) = pull.get_value() {
            held.move_by(pull.line, pull.by(&event, up()), pull.reach());
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
        let Some(now) = untrack(|| held.line()) else {
            return;
        };
        event.prevent_default();
        let step = untrack(|| desk.notation().step).length();
        let y = if up() < 0.0 { -y } else { y };
        held.move_by(now, [step * x, step * y], Length::ZERO);
    };
    // A handle that goes in the middle of a drag must not leave it open.
    on_cleanup(finish);
    view! {
        <button
            node_ref=handle
            type="button"
            class="line-end"
            class:whole=move || spot.get().is_some_and(|spot| spot.end.is_none())
            aria-label=move || held.name()
            style:left=move || spot.get().map(|spot| percent(spot.left))
            style:top=move || spot.get().map(|spot| percent(spot.top))
            style:translate=move || spot.get().and_then(|spot| spot.aside).map(aside)
            on:pointerdown=begin
            on:pointermove=drag
            on:pointerup=move |_| finish()
            on:pointercancel=move |_| finish()
            on:keydown=key
        ></button>
    }
}

/// Beside its place, where it would lie on other handles.
fn aside([right, down]: [f64; 2]) -> String {
    const FAR: f64 = 2.4;
    let way = [right, down].map(|share| share * FAR);
    format!(
        "calc(-50% + {:.2}rem) calc(-50% + {:.2}rem)",
        way[0], way[1]
    )
}
