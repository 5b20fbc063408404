//! Which part of a strip is kept where cuts part it, and which fall off.

use super::LaidOut;
use crate::pattern::{Divided, Facet};
use crate::plane::{PieceFrame, Point};
use crate::problem::{Finding, LaidFinding, Place, Problem};
use crate::recipe::{Kept, Recipe, StripId};
use crate::sorted::InOrder as _;

/// The facets of a divided strip by the parts that creases join.
pub(super) struct Parts {
    /// The part that is kept, in order.
    pub(super) kept: Vec<usize>,
    /// The parts that fall off.
    pub(super) fallen: Vec<Vec<usize>>,
    /// Whether the maker said which is kept.
    pub(super) is_said: bool,
}

impl Parts {
    /// Keeps the part that is on a spot, or else the largest of those that may
    /// be kept: of equals the one of most panels, and of these the last.
    pub(super) fn of(
        divided: &Divided,
        spot: Option<Point<PieceFrame>>,
        may_keep: impl Fn(usize) -> bool,
    ) -> Self {
        let mut parts = joined(divided);
        let holds = |at: Point<PieceFrame>, part: &[usize]| {
            let mut facets = part.iter().filter_map(|facet| divided.facets.get(*facet));
            facets.any(|facet| facet.holds(at))
        };
        let said = spot.and_then(|at| parts.iter().position(|part| holds(at, part)));
        let size = |part: &[usize]| {
            let facets = part.iter().filter_map(|facet| divided.facets.get(*facet));
            let area: i128 = facets.map(Facet::twice_area).sum();
            let may_keep = part.iter().any(|facet| may_keep(*facet));
            (may_keep, area, part.len())
        };
        let largest = || (0..parts.len()).max_by_key(|part| size(&parts[*part]));
        let kept = said.or_else(largest);
        let kept = kept.map_or(Vec::new(), |kept| parts.remove(kept));
        Self {
            kept,
            fallen: parts,
            is_said: said.is_some(),
        }
    }
}

/// The facets by what creases join, each part in order.
fn joined(divided: &Divided) -> Vec<Vec<usize>> {
    let mut part_of: Vec<Option<usize>> = vec![None; divided.facets.len()];
    let mut parts: Vec<Vec<usize>> = Vec::new();
    for first in 0..divided.facets.len() {
        if part_of[first].is_some() {
            continue;
        }
        part_of[first] = Some(parts.len());
        let mut found = vec![first];
        let mut next = 0;
        while let Some(facet) = found.get(next).copied() {
            next += 1;
            for hinge in &divided.hinges {
                if ![hinge.left, hinge.right].contains(&facet) {
                    continue;
                }
                let beyond = hinge.across(facet);
                if let Some(part) = part_of.get_mut(beyond).filter(|part| part.is_none()) {
                    *part = Some(parts.len());
                    found.push(beyond);
                }
            }
        }
        found.put_in_order();
        parts.push(found);
    }
    parts
}

/// That parts fall off, until the maker has said which is kept.
pub(super) fn unsaid(of: StripId, fallen: usize) -> Option<Problem> {
    (fallen > 0).then(|| {
        let found = LaidFinding::Falls { of, parts: fallen };
        Problem::note(Place::Fallen { of, part: 0 }, Finding::Laid(found))
    })
}

impl LaidOut {
    /// What to tell the recipe to keep the part of a piece that is kept now, or
    /// one that falls off, by its number; `None` where there is no such part, or
    /// where it is too narrow to be pointed at.
    pub fn keeping(&self, recipe: &Recipe, of: StripId, part: Option<usize>) -> Option<Kept> {
        let piece = self.piece(of)?;
        let facets: Vec<_> = match part {
            None => self.panels_of(piece).iter().map(|it| &it.facet).collect(),
            Some(part) => piece.fallen.get(part)?.iter().collect(),
        };
        let largest = facets.into_iter().max_by_key(|facet| facet.twice_area())?;
        let keep = recipe.as_kept(recipe.strip(of)?, largest.inner()?)?;
        Some(keep)
    }
}
