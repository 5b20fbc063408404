//! How pieces are glued to each other.

use super::{Bond, LaidOut};
use crate::plane::{PieceFrame, Placement, Segment};
use crate::problem::{Finding, LaidFinding, Place, Problem};
use crate::recipe::{Join, Piece, Recipe};

/// Adds the bonds of all pieces, and what is wrong with them.
pub(super) fn glue(recipe: &Recipe, laid: &mut LaidOut) {
    for piece in &recipe.pieces {
        if piece.joins.first().is_none_or(|first| first.at.is_none()) {
            let found = LaidFinding::NoPlace(piece.id);
            laid.problems
                .push(Problem::stop(Place::Piece(piece.id), Finding::Laid(found)));
            continue;
        }
        for (number, join) in piece.joins.iter().enumerate() {
            if let Some(bond) = bond(recipe, laid, piece, number, join) {
                laid.bonds.push(bond);
                continue;
            }
            let found = LaidFinding::NoJoin {
                piece: piece.id,
                part: join.panel,
                on: join.on.panel,
            };
            laid.problems
                .push(Problem::stop(Place::Piece(piece.id), Finding::Laid(found)));
        }
    }
}

fn bond(
    recipe: &Recipe,
    laid: &LaidOut,
    piece: &Piece,
    number: usize,
    join: &Join,
) -> Option<Bond> {
    let part = laid.index_of(join.panel)?;
    let on = laid.index_of(join.on.panel)?;
    let place = match join.at {
        None => None,
        Some(mark) => {
            let line = Segment::new(recipe.corner(mark.from), recipe.corner(mark.to));
            // On side A what shows is up; on side B it is down.
            let mirrored = mark.shows != join.on.side;
            Some(Placement::laying(mirrored, &laid.crease_of(part)?, &line)?)
        }
    };
    Some(Bond {
        join: (piece.id, number),
        part,
        on,
        face: join.on,
        place,
    })
}

impl LaidOut {
    /// The crease a panel, by its index among all, is laid by: its first, or
    /// else its left edge.
    pub fn crease_of(&self, panel: usize) -> Option<Segment<PieceFrame>> {
        let mut hinges = self.hinges.iter();
        let crease = hinges.find(|hinge| [hinge.left, hinge.right].contains(&panel));
        if let Some(hinge) = crease {
            return Some(hinge.axis);
        }
        // An outline begins at its corner farthest left, and runs anticlockwise.
        let corners = &self.panels.get(panel)?.facet.outline.corners;
        Some(Segment::new(*corners.first()?, *corners.last()?))
    }
}
