//! The pieces folded from other sheets and glued in.

use foldwright_engine::card::add_piece;
use foldwright_engine::plane::Size;
use foldwright_engine::problem::Place;
use foldwright_engine::recipe::{Face, PieceId, Seat, Side, StripId};
use leptos::prelude::*;

use super::super::desk::Desk;
use super::piece::OnePiece;
use super::problems::ProblemList;
use super::row_head::RowHead;
use super::seat::{Offered, SeatChoice, seats};
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
    let options = Memo::new(move |_| faces(desk, StripId::Base));
    let wanted = RwSignal::new(None::<Seat>);
    // A face that is gone, or none yet: an inside, where most pieces go.
    let chosen = Memo::new(move |_| {
        let wanted = wanted.get();
        options.with(|options| {
            let kept = options.iter().find(|it| Some(it.seat) == wanted);
            let inside = |it: &&Offered| it.face().is_some_and(|face| face.side == Side::A);
            kept.or_else(|| options.iter().find(inside))
                .map(|it| it.seat)
        })
    });
    let add = move |_| {
        let Some(Seat::Face(face)) = chosen.get_untracked() else {
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
        <SeatChoice label=texts().shape.tab_goes_on name="tab" options chosen choose=move |seat| wanted.set(Some(seat))/>
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
pub(super) fn faces(desk: Desk, piece: StripId) -> Vec<Offered> {
    let seats = seats(desk, None).into_iter();
    desk.recipe.with(|recipe| {
        let place = |id: PieceId| recipe.pieces.iter().position(|it| it.id == id);
        let is_before = |face: Face| {
            let of = recipe.strip_with(face.panel).map(|(of, ..)| of);
            of.is_some_and(|of| match (of, piece) {
                (StripId::Base, _) | (_, StripId::Base) => true,
                (StripId::Piece(of), StripId::Piece(piece)) => place(of) < place(piece),
            })
        };
        seats
            .filter(|it| it.face().is_some_and(is_before))
            .collect()
    })
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
