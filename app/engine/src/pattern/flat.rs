//! Where every panel lies when creases are folded over flat.

use super::{Divided, Hinge, LineId, Misfit, misfits};
use crate::plane::{PieceFrame, Placement};

/// A piece with every crease folded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Flat<F> {
    /// Where each facet lies; `None` for those that hang on nothing.
    pub places: Vec<Option<Placement<PieceFrame, F>>>,
    /// Where the panels do not come together. While there are any, the places
    /// are only one of several ways to fold on towards them.
    pub misfits: Vec<Misfit>,
}

/// Folds every crease; one facet, the root, lies as told.
pub fn fold_flat<F>(divided: &Divided, root: usize, resting: Placement<PieceFrame, F>) -> Flat<F> {
    Flat {
        places: places(divided, root, resting, &|_| true),
        misfits: misfits(divided),
    }
}

/// Where each facet lies when some creases are folded and the others lie open:
/// that of its neighbour nearer to the root, mirrored in the crease between
/// them where it is folded. `None` for facets that no crease joins to the root.
pub fn places<F>(
    divided: &Divided,
    root: usize,
    resting: Placement<PieceFrame, F>,
    is_folded: &dyn Fn(LineId) -> bool,
) -> Vec<Option<Placement<PieceFrame, F>>> {
    let mut places = vec![None; divided.facets.len()];
    for (facet, way) in ways_from(divided, root) {
        places[facet] = match way {
            None => Some(resting),
            Some(hinge) => {
                let hinge = &divided.hinges[hinge];
                let before = places[hinge.across(facet)];
                if is_folded(hinge.line) {
                    before.and_then(|before| folded_over(hinge, before))
                } else {
                    before
                }
            }
        };
    }
    places
}

/// Where a panel lies across a folded crease from one that lies `before`.
pub(super) fn folded_over<F>(
    hinge: &Hinge,
    before: Placement<PieceFrame, F>,
) -> Option<Placement<PieceFrame, F>> {
    Some(Placement::over(&hinge.axis)?.then(&before))
}

/// The facets that hang together with one of them, nearest first, each with
/// the hinge it is reached by.
fn ways_from(divided: &Divided, root: usize) -> Vec<(usize, Option<usize>)> {
    let count = divided.facets.len();
    let mut hinges_of: Vec<Vec<usize>> = vec![Vec::new(); count];
    for (number, hinge) in divided.hinges.iter().enumerate() {
        for facet in [hinge.left, hinge.right] {
            if let Some(hinges) = hinges_of.get_mut(facet) {
                hinges.push(number);
            }
        }
    }
    if root >= count {
        return Vec::new();
    }
    let mut found = vec![false; count];
    found[root] = true;
    let mut ways = vec![(root, None)];
    let mut next = 0;
    while let Some((facet, _)) = ways.get(next).copied() {
        next += 1;
        for hinge in &hinges_of[facet] {
            let beyond = divided.hinges[*hinge].across(facet);
            if beyond < count && !std::mem::replace(&mut found[beyond], true) {
                ways.push((beyond, Some(*hinge)));
            }
        }
    }
    ways
}
