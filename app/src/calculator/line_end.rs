//! A crease or cut, taken hold of in the figure, whole or by an end.

use foldwright_engine::length::Length;
use foldwright_engine::plane::{PieceFrame, Point, Segment};
use foldwright_engine::recipe::End;
use leptos::prelude::*;

use super::desk::Desk;
use super::grip::Grip;
use super::picture::{EndSpot, Picture};
use crate::spoken::{aloud, naming, texts};

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
            let texts = &texts().desk;
            let written = |length| recipe.notation.with_unit(length);
            let at = match spot.end {
                None | Some(End::From) => course.from,
                Some(End::To) => course.to,
            };
            let (name, left, up) = (&line.name, &written(at.x), &written(at.y));
            Some(aloud(&match spot.end {
                None => texts.whole_line(name, left, up),
                Some(End::From) => texts.line_start(name, left, up),
                Some(End::To) => texts.line_end(name, left, up),
            }))
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
            self.desk
                .edit(None, |recipe| recipe.move_line(line, to, naming()));
        }
    }
}

/// An end of a line, or the whole of it, moved from mark to mark and onto what
/// is near.
#[component]
pub(super) fn EndHandle(picture: Memo<Picture>, number: usize) -> impl IntoView {
    let desk = Desk::here();
    let spot = Memo::new(move |_| picture.with(|picture| picture.ends.get(number).copied()));
    let held = Held { desk, spot };
    let class = move || match spot.get() {
        Some(EndSpot { end: None, .. }) => "whole",
        _ => "",
    };
    view! {
        <Grip
            picture
            class=Signal::derive(class)
            spot=Signal::derive(move || spot.get().map(|spot| [spot.left, spot.top]))
            aside=Signal::derive(move || spot.get().and_then(|spot| spot.aside).map(aside))
            name=Signal::derive(move || held.name())
            held=move || held.line()
            move_by=move |was, by, reach| held.move_by(was, by, reach)
        />
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
