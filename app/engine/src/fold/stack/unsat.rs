//! Why there is no order: an unsatisfiable core.

use super::constraints::{Constraints, Part};
use super::solver::{MOST_PROPAGATIONS, Solver, Undecided};
use crate::fold::bits::Bits;

/// Facets that cannot lie on each other as they are joined: with any one of
/// them gone, or any one of the joints, the others could, as far as the search
/// could tell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Core {
    /// The facets.
    pub facets: Vec<usize>,
    /// The hinges that keep them from it.
    pub hinges: Vec<usize>,
    /// The bonds that do.
    pub bonds: Vec<usize>,
}

/// The smallest core found by leaving out facets, then joints (deletion, as is
/// usual for minimal unsatisfiable subsets); `None` where there is an order.
pub(super) fn core(constraints: &Constraints) -> Result<Option<Core>, Undecided> {
    let mut part = Part {
        facets: Bits::all(constraints.facets),
        joints: Bits::all(constraints.hinges + constraints.bonds),
    };
    if Solver::within(constraints, &part).solve(&[])? {
        return Ok(None);
    }
    let mut budget = MOST_PROPAGATIONS;
    shrink(constraints, &mut part, |part| &mut part.facets, &mut budget);
    shrink(constraints, &mut part, |part| &mut part.joints, &mut budget);
    let joints = || part.joints.iter();
    Ok(Some(Core {
        facets: part.facets.iter().collect(),
        hinges: joints()
            .filter(|joint| *joint < constraints.hinges)
            .collect(),
        bonds: joints()
            .filter_map(|joint| joint.checked_sub(constraints.hinges))
            .collect(),
    }))
}

/// Leaves out what the core does not need: large helpings first, then one by
/// one. What the budget does not suffice to tell stays in.
fn shrink(
    constraints: &Constraints,
    part: &mut Part,
    members: fn(&mut Part) -> &mut Bits,
    budget: &mut u64,
) {
    let mut helping = members(part).count() as usize;
    while helping > 1 {
        helping = helping.div_ceil(2);
        let all: Vec<usize> = members(part).iter().collect();
        for some in all.chunks(helping) {
            if *budget == 0 {
                return;
            }
            let mut smaller = part.clone();
            for one in some {
                members(&mut smaller).drop(*one);
            }
            let within = constraints.within(&smaller);
            let mut solver = Solver::within(&within, &smaller);
            solver.budget = *budget;
            if solver.solve(&[]) == Ok(false) {
                *part = smaller;
            }
            *budget = solver.budget;
        }
    }
}
