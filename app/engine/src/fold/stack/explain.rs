//! Why there is no order.

use super::rules::{Part, Rules};
use super::search::{MOST_STEPS, Search, Undecided};
use crate::fold::bits::Bits;

/// Facets that cannot lie on each other as they are joined: with any one of
/// them gone, or any one of the joints, the others could, as far as the search
/// could tell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Conflict {
    /// The facets.
    pub facets: Vec<usize>,
    /// The hinges that put them into conflict.
    pub hinges: Vec<usize>,
    /// The bonds that do.
    pub bonds: Vec<usize>,
}

/// The smallest conflict found by leaving out facets, then joints; `None`
/// where there is an order.
pub(super) fn conflict(rules: &Rules) -> Result<Option<Conflict>, Undecided> {
    let mut part = Part {
        facets: Bits::all(rules.facets),
        joints: Bits::all(rules.hinges + rules.bonds),
    };
    if Search::within(rules, &part).solve(&[])? {
        return Ok(None);
    }
    let mut steps = MOST_STEPS;
    shrink(rules, &mut part, |part| &mut part.facets, &mut steps);
    shrink(rules, &mut part, |part| &mut part.joints, &mut steps);
    let joints = || part.joints.iter();
    Ok(Some(Conflict {
        facets: part.facets.iter().collect(),
        hinges: joints().filter(|joint| *joint < rules.hinges).collect(),
        bonds: joints()
            .filter_map(|joint| joint.checked_sub(rules.hinges))
            .collect(),
    }))
}

/// Leaves out what the conflict does not need: large helpings first, then one
/// by one. What the steps do not suffice to tell stays in.
fn shrink(rules: &Rules, part: &mut Part, members: fn(&mut Part) -> &mut Bits, steps: &mut u64) {
    let mut helping = members(part).count() as usize;
    while helping > 1 {
        helping = helping.div_ceil(2);
        let all: Vec<usize> = members(part).iter().collect();
        for some in all.chunks(helping) {
            if *steps == 0 {
                return;
            }
            let mut smaller = part.clone();
            for one in some {
                members(&mut smaller).drop(*one);
            }
            let within = rules.within(&smaller);
            let mut search = Search::within(&within, &smaller);
            search.steps = *steps;
            if search.solve(&[]) == Ok(false) {
                *part = smaller;
            }
            *steps = search.steps;
        }
    }
}
