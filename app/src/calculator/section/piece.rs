//! One piece: its paper, its panels, and where it is glued.

use foldwright_engine::faces::reading_of;
use foldwright_engine::length::Length;
use foldwright_engine::part::Part;
use foldwright_engine::plane::Point;
use foldwright_engine::recipe::{
    End, Face, Join, MeasureId, PanelId, PieceId, Seat, Side, Strip, StripId,
};
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::field::{LengthField, NameField};
use super::super::number::Number;
use super::super::pull_down::Pick;
use super::super::ties::Rules;
use super::cut_from::CutFrom;
use super::cutouts::Cutouts;
use super::fallen::Fallen;
use super::lines::Lines;
use super::pieces::faces;
use super::print::LayPick;
use super::seat::{Offered, SeatChoice};
use super::strip::{PanelRows, Shared};
use crate::part::Choice;
use crate::spoken::{naming, speaker, texts};

/// The particulars of one piece.
#[component]
pub(super) fn OnePiece(id: PieceId) -> impl IntoView {
    let desk = Desk::here();
    // A piece on its way out is shown no more, but may still be asked for.
    let of = move |part: fn(&Strip) -> MeasureId| {
        Signal::derive(move || {
            desk.recipe.with(|recipe| {
                let strip = recipe
                    .strip(StripId::Piece(id))
                    .unwrap_or(&recipe.base.strip);
                part(strip)
            })
        })
    };
    let measures = Signal::derive(move || {
        let (length, height) = (of(|strip| strip.length), of(|strip| strip.height));
        vec![length.get(), height.get()]
    });
    let name = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            let piece = recipe.piece(id);
            piece.map_or_else(String::new, |piece| piece.name.clone())
        })
    });
    let rename = move |name: String| {
        // Fails only for a piece that is gone, and then there is nothing to name.
        desk.change(|recipe| drop(recipe.rename_piece(id, &name, naming())));
    };
    view! {
        <div class="layer-body">
            <div class="numbers">
                <Number measure=of(|strip| strip.length) label=texts().shape.length/>
                <Number measure=of(|strip| strip.height) label=texts().shape.height/>
            </div>
            <Shared of=StripId::Piece(id)/>
            <Rules measures/>
            <div class="fields">
                <NameField label=texts().shape.name name rename/>
                <CutFrom label=texts().shape.cut_from part=Part::Strip(StripId::Piece(id))/>
                <LayPick of=StripId::Piece(id)/>
            </div>
            <Joins id/>
            <h3>{texts().shape.its_panels}</h3>
            <PanelRows of=StripId::Piece(id)/>
            <Lines of=StripId::Piece(id)/>
            <Fallen of=StripId::Piece(id)/>
            <Cutouts of=StripId::Piece(id)/>
            <button
                type="button"
                class="button quiet"
                on:click=move |_| {
                    desk.edit(None, |recipe| recipe.remove_piece(id));
                }
            >
                {texts().shape.take_piece_out}
            </button>
        </div>
    }
}

/// Where the piece is glued.
#[component]
fn Joins(id: PieceId) -> impl IntoView {
    let desk = Desk::here();
    let count = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let piece = recipe.piece(id);
            piece.map_or(0, |piece| piece.joins.len())
        })
    });
    // Another place begins with the last panel, on the face beside the first.
    let add = move |_| {
        let panel = panels(desk, id).last().map(|(panel, _)| *panel);
        let faces = faces(desk, StripId::Piece(id));
        let first = desk.recipe.with_untracked(|recipe| {
            let piece = recipe.piece(id)?;
            piece.joins.first().map(|join| join.on)
        });
        let wanted = |face: &Face| match first {
            Some(first) => face.side == first.side && face.panel != first.panel,
            None => face.side == Side::A,
        };
        let on = desk.card.with_untracked(|card| {
            let faces = faces.iter().filter_map(Offered::face).filter(wanted);
            faces.min_by_key(|face| card.laid.index_of(face.panel))
        });
        if let (Some(panel), Some(on)) = (panel, on.or(first)) {
            desk.edit(None, |recipe| recipe.add_join(id, panel, on));
        }
    };
    view! {
        <h3>{texts().shape.where_glued}</h3>
        <ol class="panels">
            <For
                each=move || 0..count.get()
                key=|number| *number
                children=move |number| view! { <JoinRow id number/> }
            />
        </ol>
        <div class="actions">
            <button type="button" class="button" on:click=add>
                {texts().shape.glue_another}
            </button>
        </div>
    }
}

/// The panels of a piece, parts included. Tracks.
fn panels(desk: Desk, id: PieceId) -> Vec<(PanelId, String)> {
    desk.recipe.with(|recipe| {
        desk.card.with(|card| {
            let piece = card.laid.piece(StripId::Piece(id));
            let panels = piece.map(|piece| card.laid.panels_of(piece));
            let panels = panels.unwrap_or_default().iter();
            panels
                .map(|panel| (panel.id, speaker(recipe).panel(panel.id)))
                .collect()
        })
    })
}

/// One panel that is glued down.
#[component]
fn JoinRow(id: PieceId, number: usize) -> impl IntoView {
    let desk = Desk::here();
    let join = Memo::new(move |_| {
        desk.recipe
            .with(|recipe| recipe.piece(id)?.joins.get(number).copied())
    });
    let part = move |of: fn(&Join) -> (PanelId, Face)| {
        let join = join.get();
        join.as_ref().map_or(
            (
                PanelId(0),
                Face {
                    panel: PanelId(0),
                    side: Side::A,
                },
            ),
            of,
        )
    };
    let panel = Signal::derive(move || part(|join| (join.panel, join.on)).0);
    let on = Signal::derive(move || part(|join| (join.panel, join.on)).1);
    let change = move |panel: PanelId, on: Face| {
        desk.edit(None, |recipe| recipe.change_join(id, number, panel, on));
    };
    let options = Memo::new(move |_| faces(desk, StripId::Piece(id)));
    let laid = Signal::derive(move || join.get().is_some_and(|join| join.at.is_some()));
    let lay = move |along: bool| {
        if along == laid.get_untracked() {
            return;
        }
        // It begins where the panel lies anyhow, or along the left edge.
        let line = along.then(|| untrack(|| landing(desk, id, number)));
        desk.edit(None, |recipe| match line {
            Some([from, to]) => recipe.lay_join(id, number, from, to, naming()),
            None => recipe.free_join(id, number),
        });
    };
    let shows = Signal::derive(move || {
        let mark = join.get().and_then(|join| join.at);
        mark.map_or(Side::A, |mark| mark.shows)
    });
    let turn = move |side: Side| {
        if side != shows.get_untracked() {
            desk.edit(None, |recipe| recipe.turn_join(id, number));
        }
    };
    view! {
        <li class="panel">
            <div class="fields">
                <Pick
                    label=texts().shape.panel
                    options=Signal::derive(move || panels(desk, id))
                    chosen=panel
                    choose=move |panel| change(panel, on.get_untracked())
                />
            </div>
            <SeatChoice
                label=texts().shape.glued_to
                name=format!("join{}of{number}", id.0)
                options
                chosen=Signal::derive(move || Some(Seat::Face(on.get())))
                choose=move |seat| {
                    if let Seat::Face(on) = seat {
                        change(panel.get_untracked(), on);
                    }
                }
            />
            // The first place settles where the piece lies.
            {(number > 0)
                .then(|| {
                    view! {
                        <Choice
                            label=texts().shape.where_on_it
                            options=|| vec![(false, texts().shape.where_it_lands), (true, texts().shape.along_a_line)]
                            chosen=laid
                            choose=lay
                        />
                    }
                })}
            <Show when=move || laid.get()>
                <p class="quiet">
                    {move || {
                        let face = desk.recipe.with(|recipe| speaker(recipe).face(on.get()));
                        texts().shape.crease_laid_along(&face)
                    }}
                </p>
                <div class="numbers">
                    <MarkFields
                        id
                        number
                        end=End::From
                        labels=(texts().shape.first_left, texts().shape.first_bottom)
                    />
                    <MarkFields
                        id
                        number
                        end=End::To
                        labels=(texts().shape.second_left, texts().shape.second_bottom)
                    />
                </div>
                <div class="field">
                    <span>{texts().shape.shows_once_glued}</span>
                    <Choice
                        label=texts().shape.which_panel_side_shows
                        options=|| vec![(Side::A, texts().shape.front), (Side::B, texts().shape.back)]
                        chosen=shows
                        choose=turn
                    />
                </div>
            </Show>
            {(number > 0)
                .then(|| {
                    view! {
                        <div class="actions">
                            <button
                                type="button"
                                class="button quiet"
                                on:click=move |_| {
                                    desk.edit(None, |recipe| recipe.remove_join(id, number));
                                }
                            >
                                {texts().shape.do_not_glue}
                            </button>
                        </div>
                    }
                })}
        </li>
    }
}

/// The line a join lies along as the card is, in whole marks.
fn landing(
    desk: Desk,
    id: PieceId,
    number: usize,
) -> [Point<foldwright_engine::plane::PieceFrame>; 2] {
    let step = desk.notation().step;
    let marked = |at: Point<_>| {
        let mark = |length| foldwright_engine::length::nearest(length, step).at;
        Point::new(mark(at.x), mark(at.y))
    };
    let found = desk.card.with(|card| {
        let folded = card.folded.as_ref()?;
        let glued = folded.glued.iter().find(|it| it.join == (id, number))?;
        let crease = card.laid.crease_of(glued.part)?;
        Some([crease.from, crease.to].map(|end| glued.place.point(end)))
    });
    let zero = Point::new(Length::ZERO, Length::ZERO);
    found.map_or([zero, Point::new(Length::ZERO, Length::mm(10))], |line| {
        line.map(marked)
    })
}

/// Where a point of the line lies, measured on the face that it is glued to, as
/// the reader of that face sees it.
#[component]
fn MarkFields(
    id: PieceId,
    number: usize,
    end: End,
    labels: (&'static str, &'static str),
) -> impl IntoView {
    let desk = Desk::here();
    // The point on its face, and how the face is read.
    let seen = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let join = recipe.piece(id)?.joins.get(number)?;
            let mark = join.at?;
            let corner = recipe.corner(match end {
                End::From => mark.from,
                End::To => mark.to,
            });
            desk.card.with(|card| {
                let reading = reading_of(&card.laid, &card.readings, join.on)?;
                Some((reading.place.point(corner), reading))
            })
        })
    });
    let at = move || {
        let zero = Point::new(Length::ZERO, Length::ZERO);
        seen.get().map_or(zero, |(at, _)| at)
    };
    let set = move |to| {
        let Some((_, reading)) = seen.get_untracked() else {
            return;
        };
        let to = reading.place.back().point(to);
        desk.edit(None, |recipe| recipe.move_mark(id, number, end, to));
    };
    view! {
        <LengthField
            label=labels.0
            length=Signal::derive(move || at().x)
            set=move |x| set(Point::new(x, untrack(at).y))
        />
        <LengthField
            label=labels.1
            length=Signal::derive(move || at().y)
            set=move |y| set(Point::new(untrack(at).x, y))
        />
    }
}
