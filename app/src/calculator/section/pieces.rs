//! The pieces folded from other sheets and glued in.

use foldwright_engine::card::add_piece;
use foldwright_engine::plane::Size;
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{Face, PieceId, Seat, StripId};
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::pull_down::Pick;
use super::piece::OnePiece;
use super::problems::ProblemList;
use super::row_head::RowHead;
use crate::part::heard;
use crate::spoken::{naming, speaker, texts};

/// The pieces in the order they are glued in, and a button to add one.
#[component]
pub(in super::super) fn Pieces() -> impl IntoView {
    let desk = Desk::here();
    let ids = Memo::new(move |_| {
        desk.recipe.with(|recipe| {
            let pieces = recipe.pieces.iter();
            pieces.map(|piece| piece.id).collect::<Vec<_>>()
        })
    });
    let options = Signal::derive(move || faces(desk, StripId::Base));
    let wanted = RwSignal::new(None::<Face>);
    // A face that is gone, or none yet: an inside, where most pieces go.
    let chosen = Signal::derive(move || {
        let wanted = wanted.get();
        options.with(|options| {
            let kept = options.iter().find(|(face, _)| Some(*face) == wanted);
            kept.or(options.get(1)).map(|(face, _)| *face)
        })
    });
    let offered = Signal::derive(move || {
        let faces = options.get().into_iter();
        faces
            .map(|(face, words)| (Some(face), words))
            .collect::<Vec<_>>()
    });
    let add = move |_| {
        let Some(face) = chosen.get_untracked() else {
            return;
        };
        let mut fresh = None;
        desk.edit(None, |recipe| {
            let added = add_piece(recipe, face, naming())?;
            fresh = Some(added.id);
            Ok(added.changes)
        });
        if fresh.is_some() {
            desk.piece.set(fresh);
        }
    };
    view! {
        <h2>{texts().shape.glue_piece_in}</h2>
        <p class="quiet">
            {texts().shape.what_a_piece_is}
        </p>
        <div class="fields">
            <Pick label=texts().shape.tab_goes_on options=offered chosen choose=move |face| wanted.set(face)/>
        </div>
        <div class="actions">
            <button type="button" class="button" on:click=add>{texts().shape.add_piece}</button>
        </div>
        <h2>{texts().shape.pieces}</h2>
        <Show when=move || ids.with(Vec::is_empty)>
            <p class="quiet">{texts().shape.no_pieces}</p>
        </Show>
        <ol class="layers">
            <For each=move || ids.get() key=|id| *id children=move |id| view! { <PieceRow id/> }/>
        </ol>
    }
}

/// The faces a piece can be glued to: those of the base, and of the pieces
/// before it. Tracks.
pub(super) fn faces(desk: Desk, piece: StripId) -> Vec<(Face, String)> {
    let before = |of: StripId| {
        desk.recipe.with(|recipe| {
            let place = |id: PieceId| recipe.pieces.iter().position(|it| it.id == id);
            match (of, piece) {
                (StripId::Base, _) | (_, StripId::Base) => true,
                (StripId::Piece(of), StripId::Piece(piece)) => place(of) < place(piece),
            }
        })
    };
    let seats = desk.seats(None).into_iter();
    seats
        .filter_map(|(seat, words)| match seat {
            Seat::Face(face) => {
                let of = desk
                    .recipe
                    .with(|recipe| recipe.strip_with(face.panel).map(|(of, ..)| of));
                before(of?).then_some((face, words))
            }
            Seat::Layer(_) => None,
        })
        .collect()
}

/// A piece in a line; a tap opens its particulars.
#[component]
fn PieceRow(id: PieceId) -> impl IntoView {
    let desk = Desk::here();
    let open = Memo::new(move |_| desk.piece.get() == Some(id));
    let name = move || {
        desk.recipe
            .with(|recipe| recipe.piece(id).map(|piece| piece.name.clone()))
    };
    let about = move || {
        desk.recipe.with(|recipe| {
            let piece = recipe.piece(id)?;
            let size = Size {
                width: recipe.value(piece.strip.length),
                height: recipe.value(piece.strip.height),
            };
            Some(heard(match piece.joins.first() {
                Some(join) => speaker(recipe).on(size, Seat::Face(join.on)),
                None => recipe.notation.size(size.width, size.height),
            }))
        })
    };
    view! {
        <li class="layer">
            <RowHead open show=move |shows: bool| desk.piece.set(shows.then_some(id)) name about/>
            <Show when=move || open.get()>
                <ProblemList which=move |problem| problem.place == Place::Piece(id) here=true/>
                <OnePiece id/>
            </Show>
        </li>
    }
}
