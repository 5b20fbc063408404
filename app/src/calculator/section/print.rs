//! Which way the paper must lie for its print to read upright.

use foldwright_engine::draw;
use foldwright_engine::print::Lay;
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{Face, PieceId, Side};
use foldwright_engine::words;
use leptos::ev;
use leptos::prelude::*;

use super::super::choice::Pick;
use super::super::desk::Desk;
use super::super::picture::Picture;
use super::super::still::Still;
use super::problems::ProblemList;

/// Faces to be upright, ways to lay the strip, and what to do.
#[component]
pub(in super::super) fn Print() -> impl IntoView {
    let desk = Desk::here();
    let faces = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let panels = recipe.strips().flat_map(|(_, strip)| &strip.panels);
            panels
                .flat_map(|panel| {
                    [Side::B, Side::A].map(|side| Face {
                        panel: panel.id,
                        side,
                    })
                })
                .collect::<Vec<_>>()
        })
    });
    let instructions = move || {
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let mut told = words::how_to_cut(recipe, card, None);
                told.extend(
                    card.chart
                        .passes
                        .first()
                        .map(|pass| words::how_to_lay(recipe, card, None, pass)),
                );
                told.into_iter()
                    .map(|line| view! { <li>{line}</li> })
                    .collect_view()
            })
        })
    };
    view! {
        <h2>"How to lay the paper"</h2>
        <SheetFigure/>
        <ol class="instructions">{instructions}</ol>
        <ProblemList which=|problem| matches!(problem.place, Place::Face(_)) here=true/>
        <h2>"Must be upright"</h2>
        <p class="quiet">"Mark the sides whose print has to read upright."</p>
        <div class="faces">
            <For each=move || faces.get() key=|face| *face children=move |face| view! { <FaceCheck face/> }/>
        </div>
        <h2>"Print direction"</h2>
        <div class="fields">
            <LayPick of=None/>
        </div>
    }
}

/// How the base, or a piece glued in, lies on its paper.
#[component]
pub(super) fn LayPick(of: Option<PieceId>) -> impl IntoView {
    let desk = Desk::here();
    let lays = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let strip = recipe.strip(of);
                let stock = strip.and_then(|strip| recipe.stock(strip.stock));
                let reports = card.print_of(of).into_iter();
                let reports = reports.flat_map(|print| &print.lays);
                let told = reports.filter_map(|report| {
                    let words = words::lay_words(recipe, of, stock?, report);
                    Some((Some(report.lay), words))
                });
                std::iter::once((None, "The best one".to_owned()))
                    .chain(told)
                    .collect::<Vec<(Option<Lay>, String)>>()
            })
        })
    });
    let lay = Signal::derive(move || {
        desk.recipe.with(|recipe| match of {
            None => recipe.lay,
            Some(id) => recipe.piece(id).and_then(|piece| piece.lay),
        })
    });
    let choose = move |lay| {
        desk.change(|recipe| match of {
            None => recipe.lay = lay,
            Some(id) => {
                let mut pieces = recipe.pieces.iter_mut();
                if let Some(piece) = pieces.find(|piece| piece.id == id) {
                    piece.lay = lay;
                }
            }
        });
    };
    view! { <Pick label="Print direction, the sheet face up" options=lays chosen=lay choose/> }
}

/// The strips on the sheet they are cut from.
#[component]
fn SheetFigure() -> impl IntoView {
    let desk = Desk::here();
    let picture = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let drawing = draw::piece_on_sheet(recipe, card, None)?;
                Some(Picture::written(drawing, "sheet"))
            })
        })
    });
    view! { <Still picture/> }
}

#[component]
fn FaceCheck(face: Face) -> impl IntoView {
    let desk = Desk::here();
    let marked = move || desk.recipe.with(|recipe| recipe.upright.contains(&face));
    let name = move || desk.recipe.with(|recipe| words::face_name(recipe, face));
    let turned = move || {
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let (of, strip, _) = recipe.strip_with(face.panel)?;
                let lay = card.print_of(of)?.lay;
                let stock = recipe.stock(strip.stock)?;
                let reading = card.readings.iter().find(|reading| reading.face == face)?;
                lay.turned(stock, face.side, &reading.place)
            })
        })
    };
    let mark = move |event: ev::Event| {
        let marked = event_target_checked(&event);
        desk.edit(None, |recipe| {
            recipe.adding(|recipe| {
                recipe.upright.retain(|other| *other != face);
                if marked {
                    recipe.upright.push(face);
                }
            })
        });
    };
    view! {
        <label class="check">
            <input type="checkbox" prop:checked=marked on:change=mark/>
            <span>
                {name}
                <span class="quiet">
                    {move || match turned() {
                        None => ", no direction".to_owned(),
                        Some(turned) => format!(", {}", words::turn_words(turned)),
                    }}
                </span>
            </span>
        </label>
    }
}
