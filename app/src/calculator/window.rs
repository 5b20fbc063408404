//! A window of the strip, taken hold of in the figure.

use foldwright_engine::length::{Length, nearest};
use foldwright_engine::plane::{PieceFrame, Point};
use leptos::prelude::*;

use super::desk::Desk;
use super::grip::Grip;
use super::picture::{Picture, WindowSpot};
use crate::spoken::{aloud, texts};

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
            let (left, up) = (written(low.x), written(low.y));
            Some(aloud(&texts().desk.window_handle(name, &left, &up)))
        })
    }

    /// Moves its lower left corner from where it was to the nearest marks.
    fn move_by(self, was: Point<PieceFrame>, by: [Length; 2]) {
        let (Some(spot), Some(low)) = (self.spot.get_untracked(), untrack(|| self.low())) else {
            return;
        };
        let step = untrack(|| self.desk.notation().step);
        let marked = |length| nearest(length, step).at;
        let to = Point::<PieceFrame>::new(marked(was.x + by[0]), marked(was.y + by[1]));
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
    view! {
        <Grip
            picture
            class="window-grip"
            spot=Signal::derive(move || spot.get().map(|spot| [spot.left, spot.top]))
            name=Signal::derive(move || held.name())
            held=move || held.low()
            move_by=move |was, by, _| held.move_by(was, by)
        />
    }
}
