//! Which way the paper must lie for its print to read upright.

use foldwright_engine::card::lay_facts;
use foldwright_engine::part::Part;
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{Face, Lay, Side, StripId};
use foldwright_engine::steps::{how_to_cut, how_to_lay};
use leptos::ev;
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::pull_down::Pick;
use super::on_sheet::OnSheet;
use super::problems::ProblemList;
use crate::part::told;
use crate::spoken::{language, speaker, texts};

/// Faces to be upright, ways to lay the strip, and what to do.
#[component]
pub(crate) fn Print() -> impl IntoView {
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
                let mut does = how_to_cut(recipe, card, StripId::Base);
                let first = card.chart.passes.first();
                does.extend(
                    first
                        .map(|pass| how_to_lay(recipe, card, StripId::Base, pass))
                        .unwrap_or_default(),
                );
                speaker(recipe)
                    .with_exact()
                    .instructions(&does)
                    .into_iter()
                    .map(|line| view! { <li>{told(line)}</li> })
                    .collect_view()
            })
        })
    };
    view! {
        <h2>{texts().paper.how_to_lay}</h2>
        <OnSheet/>
        <ol class="instructions">{instructions}</ol>
        <ProblemList which=|problem| matches!(problem.place, Place::Face(_)) here=true/>
        <h2>{texts().paper.must_be_upright}</h2>
        <p class="quiet">{texts().paper.mark_upright}</p>
        <div class="faces">
            <For each=move || faces.get() key=|face| *face children=move |face| view! { <FaceCheck face/> }/>
        </div>
        <h2>{texts().paper.print_direction}</h2>
        <div class="fields">
            <LayPick of=StripId::Base/>
        </div>
    }
}

/// How the base, or a piece glued in, lies on its paper.
#[component]
pub(super) fn LayPick(of: StripId) -> impl IntoView {
    let desk = Desk::here();
    let lays = Signal::derive(move || {
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let strip = recipe.strip(of);
                let stock = strip.and_then(|strip| recipe.stock(strip.stock));
                let reports = card.lies(Part::Strip(of)).into_iter();
                let reports = reports.flat_map(|print| &print.lays);
                let say = speaker(recipe);
                let told = reports.filter_map(|report| {
                    let facts = lay_facts(recipe, of, stock?, report);
                    Some((Some(report.lay), say.lay(&facts)))
                });
                std::iter::once((None, texts().paper.best.to_owned()))
                    .chain(told)
                    .collect::<Vec<(Option<Lay>, String)>>()
            })
        })
    });
    let lay = Signal::derive(move || {
        desk.recipe.with(|recipe| match of {
            StripId::Base => recipe.lay,
            StripId::Piece(id) => recipe.piece(id).and_then(|piece| piece.lay),
        })
    });
    let choose = move |lay| {
        desk.change(|recipe| match of {
            StripId::Base => recipe.lay = lay,
            StripId::Piece(id) => {
                let mut pieces = recipe.pieces.iter_mut();
                if let Some(piece) = pieces.find(|piece| piece.id == id) {
                    piece.lay = lay;
                }
            }
        });
    };
    view! { <Pick label=texts().paper.direction_face_up options=lays chosen=lay choose/> }
}

#[component]
fn FaceCheck(face: Face) -> impl IntoView {
    let desk = Desk::here();
    let marked = move || desk.recipe.with(|recipe| recipe.upright.contains(&face));
    let name = move || desk.recipe.with(|recipe| speaker(recipe).face(face));
    let turned = move || {
        desk.recipe.with(|recipe| {
            desk.card.with(|card| {
                let (of, strip, _) = recipe.strip_with(face.panel)?;
                let lay = card.lies(Part::Strip(of))?.lay;
                let stock = recipe.stock(strip.stock)?;
                let reading = card.readings.iter().find(|reading| reading.face == face)?;
                lay.turned(stock, face.side, &reading.place)
            })
        })
    };
    let first_seen = move || {
        desk.sights.with(|all| {
            let seen = all.iter().find(|seen| seen.face == face)?;
            desk.recipe
                .with(|recipe| Some(language().sights().seen(&speaker(recipe), &seen.sight)))
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
                    ", " {move || desk.recipe.with(|recipe| speaker(recipe).print(turned()))} ". " {first_seen}
                </span>
            </span>
        </label>
    }
}
