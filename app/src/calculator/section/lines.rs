//! Creases and cuts at any angle, drawn on the strip besides its scores.

use foldwright_engine::length::{Length, nearest};
use foldwright_engine::pattern::{LineId, LineKind};
use foldwright_engine::plane::Point;
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{EditError, End, Fold, PieceId};
use foldwright_engine::words;
use leptos::html;
use leptos::prelude::*;

use super::super::choice::Segments;
use super::super::desk::Desk;
use super::super::field::{LengthField, NameField};
use super::super::pick::brought;
use super::strip::RestsFlat;

/// The lines in the order they were drawn, and buttons to draw more.
#[component]
pub(super) fn Lines(of: Option<PieceId>) -> impl IntoView {
    let desk = Desk::here();
    let ids = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let lines = recipe.strip(of).map(|strip| &strip.lines[..]);
            let lines = lines.unwrap_or_default().iter();
            lines.map(|line| line.id).collect::<Vec<_>>()
        })
    });
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
            let added = recipe.add_line(of, kind, from, to)?;
            desk.chosen.set(Some(Place::Line(added.id)));
            Ok(added.changes)
        });
    };
    view! {
        <h2>"Creases and cuts"</h2>
        <p class="quiet">
            {match of {
                None => {
                    "Besides the scores, at any angle: a corner to turn in, a slit, a step that rises \
                     from the fold. Type where they run, or tap one in the figure and \
                     drag it, whole or by an end."
                }
                Some(_) => {
                    "Besides the scores, at any angle: the foot of a wing, the fold of a tab, a \
                     corner to cut away. What is cut off whole falls away."
                }
            }}
        </p>
        <ol class="layers lines">
            <For each=move || ids.get() key=|id| *id children=move |id| view! { <LineRow id of/> }/>
        </ol>
        <div class="actions">
            <button
                type="button"
                class="button"
                on:click=move |_| add(LineKind::Crease(Fold::Valley))
            >
                "Add crease"
            </button>
            <button type="button" class="button" on:click=move |_| add(LineKind::Cut)>
                "Add cut"
            </button>
        </div>
    }
}

/// A line in a few words; its particulars while it is the chosen one.
#[component]
fn LineRow(id: LineId, of: Option<PieceId>) -> impl IntoView {
    let desk = Desk::here();
    let place = Place::Line(id);
    let open = Memo::new(move |_| desk.chosen.get() == Some(place));
    let name = move || {
        desk.recipe.with(|recipe| {
            let line = recipe.line(id);
            line.map_or_else(String::new, |line| line.name.clone())
        })
    };
    let about = move || desk.recipe.with(|recipe| words::line_facts(recipe, id));
    let row = NodeRef::<html::Li>::new();
    brought(move || row.get().map(Into::into), move || place);
    view! {
        <li node_ref=row class="layer brought" tabindex="-1">
            <button
                type="button"
                class="layer-head"
                aria-expanded=move || if open.get() { "true" } else { "false" }
                on:click=move |_| desk.chosen.set((!open.get_untracked()).then_some(place))
            >
                <b>{name}</b>
                <span class="quiet">{about}</span>
            </button>
            <Show when=move || open.get()>
                <OneLine id of/>
            </Show>
        </li>
    }
}

/// The particulars of a line.
#[component]
fn OneLine(id: LineId, of: Option<PieceId>) -> impl IntoView {
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
        desk.change(|recipe| drop(recipe.rename_line(id, &name)));
    };
    let remove = move |_| {
        desk.edit(None, |recipe| recipe.remove_line(id));
    };
    view! {
        <div class="layer-body">
            <NameField label="Line" name rename/>
            <Segments
                label=if of.is_none() {
                    "What it does, seen from the inside"
                } else {
                    "What it does, seen from the front"
                }
                options=vec![
                    (LineKind::Crease(Fold::Mountain), "Mountain"),
                    (LineKind::Crease(Fold::Valley), "Valley"),
                    (LineKind::Cut, "Cut"),
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
                <EndFields id end=End::From labels=("Start, from the left", "Start, from below")/>
                <EndFields id end=End::To labels=("End, from the left", "End, from below")/>
            </div>
            <button
                type="button"
                class="button quiet"
                aria-label=move || format!("Remove {}", name.get())
                on:click=remove
            >
                "Remove"
            </button>
        </div>
    }
}

/// Where an end of a line lies.
#[component]
fn EndFields(id: LineId, end: End, labels: (&'static str, &'static str)) -> impl IntoView {
    let desk = Desk::here();
    let at = Memo::new(move |_| desk.recipe.with(|recipe| recipe.line_end(id, end)));
    let place = move || {
        let zero = Point::new(Length::ZERO, Length::ZERO);
        at.get().unwrap_or(zero)
    };
    let set = move |to| {
        desk.edit(None, |recipe| recipe.move_line_end(id, end, to));
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
