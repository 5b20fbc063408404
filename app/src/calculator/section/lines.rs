//! Creases and cuts at any angle, drawn on the strip besides its scores.

use foldwright_engine::length::{Length, nearest};
use foldwright_engine::pattern::{LineId, LineKind};
use foldwright_engine::plane::Point;
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{DrawnLineId, EditError, End, Fold, Recipe, StripId};
use leptos::html;
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::field::{LengthField, NameField};
use super::super::pick::brought;
use super::row_head::RowHead;
use super::rows::Rows;
use super::strip::RestsFlat;
use crate::part::{Choice, heard};
use crate::spoken::{naming, speaker, texts};

/// The lines in the order they were drawn, and buttons to draw more.
#[component]
pub(super) fn Lines(of: StripId) -> impl IntoView {
    let desk = Desk::here();
    let ids = move |recipe: &Recipe| {
        let lines = recipe.strip(of).map(|strip| &strip.lines[..]);
        let lines = lines.unwrap_or_default().iter();
        lines.map(|line| line.id).collect()
    };
    // A new line cuts off the first corner that is free, at 45 degrees.
    let add = move |kind: LineKind| {
        desk.edit(None, |recipe| {
            let strip = recipe.strip(of).ok_or(EditError::NoPiece)?;
            let (length, height) = (recipe.value(strip.length), recipe.value(strip.height));
            let side = strip.panels.first();
            let side = side.map_or(length, |panel| recipe.value(panel.width));
            let far = nearest(side.min(height).half_down(), recipe.notation.step).at;
            let zero = Length::ZERO;
            let (from, to) = if strip.lines.len() % 2 == 0 {
                (Point::new(zero, far), Point::new(far, zero))
            } else {
                (Point::new(zero, height - far), Point::new(far, height))
            };
            let added = recipe.add_line(of, kind, from, to, naming())?;
            desk.chosen.set(Some(Place::Line(added.id)));
            Ok(added.changes)
        });
    };
    view! {
        <h2>{texts().shape.creases_and_cuts}</h2>
        <p class="quiet">
            {match of {
                StripId::Base => {
                    texts().shape.lines_of_base
                }
                StripId::Piece(_) => {
                    texts().shape.lines_of_piece
                }
            }}
        </p>
        <Rows class="layers lines" ids row=move |id| view! { <LineRow id of/> }.into_any()/>
        <div class="actions">
            <button
                type="button"
                class="button"
                on:click=move |_| add(LineKind::Crease(Fold::Valley))
            >
                {texts().shape.add_crease}
            </button>
            <button type="button" class="button" on:click=move |_| add(LineKind::Cut)>
                {texts().shape.add_cut}
            </button>
        </div>
    }
}

/// A line in a few words; its particulars while it is the chosen one.
#[component]
fn LineRow(id: DrawnLineId, of: StripId) -> impl IntoView {
    let desk = Desk::here();
    let place = Place::Line(id);
    let open = Memo::new(move |_| desk.chosen.get() == Some(place));
    let name = move || {
        desk.recipe.with(|recipe| {
            let line = recipe.line(id);
            line.map_or_else(String::new, |line| line.name.clone())
        })
    };
    let about = move || desk.recipe.with(|recipe| heard(speaker(recipe).runs(id)));
    let row = NodeRef::<html::Li>::new();
    brought(move || row.get().map(Into::into), move || place);
    view! {
        <li node_ref=row class="layer brought" tabindex="-1">
            <RowHead
                open
                show=move |shows: bool| desk.chosen.set(shows.then_some(place))
                name
                about
            />
            <Show when=move || open.get()>
                <OneLine id of/>
            </Show>
        </li>
    }
}

/// The particulars of a line.
#[component]
fn OneLine(id: DrawnLineId, of: StripId) -> impl IntoView {
    let desk = Desk::here();
    let name = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let line = recipe.line(id);
            line.map_or_else(String::new, |line| line.name.clone())
        })
    });
    let kind = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let line = recipe.line(id);
            line.map_or(LineKind::Cut, |line| line.kind)
        })
    });
    let is_crease = Memo::new(move |_| kind.get() != LineKind::Cut);
    let rename = move |name: String| {
        // Fails only for a line that is gone, and then there is nothing to name.
        desk.change(|recipe| drop(recipe.rename_line(id, &name, naming())));
    };
    let remove = move |_| {
        desk.edit(None, |recipe| recipe.remove_line(id));
    };
    view! {
        <div class="layer-body">
            <NameField label=texts().shape.line name rename/>
            <Choice
                label=if of.is_base() {
                    texts().shape.does_from_inside
                } else {
                    texts().shape.does_from_front
                }
                options=|| vec![
                    (LineKind::Crease(Fold::Mountain), texts().shape.mountain),
                    (LineKind::Crease(Fold::Valley), texts().shape.valley),
                    (LineKind::Cut, texts().shape.cut),
                ]
                chosen=kind
                choose=move |kind| {
                    desk.edit(None, |recipe| recipe.turn_line_into(id, kind));
                }
            />
            <Show when=move || is_crease.get()>
                <RestsFlat of=Signal::stored(of) crease=LineId::of_line(id)/>
            </Show>
            <div class="numbers">
                <EndFields id end=End::From labels=(texts().shape.start_left, texts().shape.start_bottom)/>
                <EndFields id end=End::To labels=(texts().shape.end_left, texts().shape.end_bottom)/>
            </div>
            <button
                type="button"
                class="button quiet"
                aria-label=move || texts().desk.remove_this(&name.get())
                on:click=remove
            >
                {texts().desk.remove}
            </button>
        </div>
    }
}

/// Where an end of a line lies.
#[component]
fn EndFields(id: DrawnLineId, end: End, labels: (&'static str, &'static str)) -> impl IntoView {
    let desk = Desk::here();
    let at = Memo::new(move |_| desk.recipe.with(|recipe| recipe.line_end(id, end)));
    let place = move || {
        let zero = Point::new(Length::ZERO, Length::ZERO);
        at.get().unwrap_or(zero)
    };
    let set = move |to| {
        desk.edit(None, |recipe| recipe.move_line_end(id, end, to, naming()));
    };
    view! {
        <LengthField
            label=labels.0
            length=Signal::derive(move || place().x)
            set=move |x| set(Point::new(x, untrack(place).y))
        />
        <LengthField
            label=labels.1
            length=Signal::derive(move || place().y)
            set=move |y| set(Point::new(untrack(place).x, y))
        />
    }
}
