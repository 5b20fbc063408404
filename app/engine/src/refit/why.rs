//! What moved a measure.

use std::collections::VecDeque;

use super::Cause;
use super::model::{Held, Model};
use crate::sorted::InOrder as _;

/// For each measure what moved it off its nearest mark: what the nearest marks
/// would not have satisfied, by itself or through equations; a wish before what
/// the recipe says.
pub(super) fn whys(model: &Model, values: &[i128], given_up: &[usize]) -> Vec<Option<Cause>> {
    let targets = model.targets();
    let soft = model.soft.iter().enumerate();
    let kept = soft.filter(|(number, _)| !given_up.contains(number));
    let kept = kept.map(|(_, held)| held);
    let all: Vec<&Held> = model.hard.iter().chain(kept).collect();
    let mut broken: Vec<&Held> = all.iter().copied().filter(|it| !it.by(&targets)).collect();
    broken.put_in_order_by_key(|held| held.cause);
    let mut whys = vec![None; values.len()];
    for start in broken {
        let mut next = VecDeque::from([start]);
        while let Some(held) = next.pop_front() {
            for at in held.terms.keys() {
                let moved = values.get(*at) != targets.get(*at);
                let Some(why) = whys.get_mut(*at).filter(|why| moved && why.is_none()) else {
                    continue;
                };
                *why = Some(start.cause);
                let follows = |it: &&&Held| {
                    it.least == it.most && it.terms.len() > 1 && it.terms.contains_key(at)
                };
                next.extend(all.iter().filter(follows));
            }
        }
    }
    whys
}
