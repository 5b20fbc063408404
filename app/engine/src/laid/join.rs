//! How pieces are glued to each other.

use super::{Bond, LaidOut};
use crate::plane::{PieceFrame, Placement, Segment};
use crate::problem::{Place, Problem, Weight};
use crate::recipe::{Join, Piece, Recipe};

/// Adds the bonds of all pieces, and what is wrong with them.
pub(super) fn glue(recipe: &Recipe, laid: &mut LaidOut) {
    for piece in &recipe.pieces {
        if piece.joins.first().is_none_or(|first| first.at.is_none()) {
            laid.problems.push(Problem {
                place: Place::Piece(piece.id),
                weight: Weight::Stop,
                what: format!("{} has no place in the card.", piece.name),
                why: "It is not said where it is glued first.".to_owned(),
                remedy: "Say which of its panels is glued where.".to_owned(),
            });
            continue;
        }
        for (number, join) in piece.joins.iter().enumerate() {
            match bond(recipe, laid, piece, number, join) {
                Some(bond) => laid.bonds.push(bond),
                None => laid.problems.push(Problem {
                    place: Place::Piece(piece.id),
                    weight: Weight::Stop,
                    what: format!("{} can't be glued as it is said.", piece.name),
                    why: format!(
                        "{}, or {}, is not there, or the line it is laid along has no length.",
                        recipe.panel_name(join.panel),
                        recipe.panel_name(join.on.panel)
                    ),
                    remedy: "Choose other panels, or another line.".to_owned(),
                }),
            }
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
    let part = laid.place_of(join.panel)?;
    let on = laid.place_of(join.on.panel)?;
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
    /// The crease a panel, by its place among all, is laid by: its first, or
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
