//! Facets glued to each other, as rigid bodies.

use super::assembly::{Assembly, Facet};
use super::linkage::GIVE;
use super::space::{Rigid, length, sub};
use super::verdict::{Finding, Item};

/// Longest coordinate that is taken for a card's, in millimetres.
const FARTHEST: f64 = 10_000.0;

/// Whether a point lies where cards do.
pub(super) fn sound(at: &[f64; 2]) -> bool {
    at.iter().all(|part| part.abs() <= FARTHEST)
}

/// How far two placements carry points within `reach` of the origin apart.
pub(super) fn apart(a: &Rigid, b: &Rigid, reach: f64) -> f64 {
    let turned = (0..3).fold(0.0, |most: f64, way| {
        most.max(length(sub(a.turn[way], b.turn[way])))
    });
    length(sub(a.shift, b.shift)) + turned * reach
}

/// The diagonal of the rectangle round a facet.
pub(super) fn size(facet: &Facet) -> f64 {
    let side = |way: usize| {
        let along = || facet.corners.iter().map(|corner| corner[way]);
        along().fold(f64::MIN, f64::max) - along().fold(f64::MAX, f64::min)
    };
    side(0).hypot(side(1))
}

/// Joins facets that are glued to each other into bodies.
pub(super) fn glued(
    assembly: &Assembly,
    reach: f64,
    findings: &mut Vec<Finding>,
) -> (Vec<(usize, Rigid)>, usize) {
    let facets = assembly.facets.len();
    let mut at = vec![Vec::new(); facets];
    for (index, bond) in assembly.bonds.iter().enumerate() {
        let shift = sound(&bond.lay.shift);
        if bond.on >= facets || bond.part >= facets || !shift || !bond.lay.turn.is_finite() {
            findings.push(Finding::Malformed(Item::Bond(index)));
            continue;
        }
        let lay = bond.lay.in_space();
        at[bond.on].push((index, bond.part, lay));
        at[bond.part].push((index, bond.on, lay.undone()));
    }
    let mut lays: Vec<Option<(usize, Rigid)>> = vec![None; facets];
    let mut bodies = 0;
    let mut torn = vec![false; assembly.bonds.len()];
    for first in 0..facets {
        if lays[first].is_some() {
            continue;
        }
        lays[first] = Some((bodies, Rigid::HERE));
        let mut queue = vec![(first, Rigid::HERE)];
        while let Some((facet, lay)) = queue.pop() {
            for (bond, next, on_it) in &at[facet] {
                let here = lay.after(on_it);
                match &lays[*next] {
                    None => {
                        lays[*next] = Some((bodies, here));
                        queue.push((*next, here));
                    }
                    Some((_, known)) => torn[*bond] |= apart(known, &here, reach) > GIVE,
                }
            }
        }
        bodies += 1;
    }
    let torn = (0..).zip(torn).filter(|(_, torn)| *torn);
    findings.extend(torn.map(|(bond, _)| Finding::Contradiction { bond }));
    (lays.into_iter().flatten().collect(), bodies)
}
