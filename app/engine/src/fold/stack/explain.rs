//! Why there is no order.

use super::bits::Bits;
use super::rules::{Part, Rules};
use super::search::{Search, Undecided};

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
    shrink(rules, &mut part, |part| &mut part.facets);
    shrink(rules, &mut part, |part| &mut part.joints);
    let (hinges, bonds) = part.joints.iter().partition(|joint| *joint < rules.hinges);
    Ok(Some(Conflict {
        facets: part.facets.iter().collect(),
        hinges,
        bonds,
    }))
}

/// Leaves out what the conflict does not need: large helpings first, then one
/// by one.
fn shrink(rules: &Rules, part: &mut Part, members: fn(&mut Part) -> &mut Bits) {
    let mut helping = (members(part).count() as usize).div_ceil(2);
    while helping > 0 {
        let all: Vec<usize> = members(part).iter().collect();
        for some in all.chunks(helping) {
            let mut smaller = part.clone();
            for one in some {
                members(&mut smaller).drop(*one);
            }
            let within = rules.within(&smaller);
            // Where the search gives up, what was left out stays in.
            if Search::within(&within, &smaller).solve(&[]) == Ok(false) {
                *part = smaller;
            }
        }
        helping = if helping > 1 { helping.div_ceil(2) } else { 0 };
    }
}
