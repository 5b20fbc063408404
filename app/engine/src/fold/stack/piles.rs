//! Which facets lie on each other where.

use std::collections::BTreeSet;

use super::constraints::Work;
use super::outline::{HAIR, Outline, Spot};
use crate::fold::bits::Bits;
use crate::sorted::InOrder as _;

/// An edge from left to right; upright ones are left out, as what they part is
/// told by the places left and right of them.
struct Edge {
    left: Spot,
    right: Spot,
    /// Whose outline it is part of.
    owner: usize,
    /// Rise for each unit to the right.
    slope: f64,
}

impl Edge {
    fn height(&self, x: f64) -> f64 {
        self.left[1] + (x - self.left[0]) * self.slope
    }

    /// Where two edges cross, if they do and part by more than a hair.
    fn crossing(&self, other: &Self) -> Option<f64> {
        let from = self.left[0].max(other.left[0]);
        let to = self.right[0].min(other.right[0]);
        if from >= to {
            return None;
        }
        let before = self.height(from) - other.height(from);
        let after = self.height(to) - other.height(to);
        let parts = before.abs().max(after.abs()) > HAIR;
        (parts && (before > 0.0) != (after > 0.0))
            .then(|| from + (to - from) * before / (before - after))
    }
}

/// The sets of outlines that lie over one place of the plane, each once. Places
/// narrower than a hair are passed over. `None` where that is too much work.
pub(super) fn piles(outlines: &[Outline], work: &mut Work) -> Option<BTreeSet<Bits>> {
    let mut edges: Vec<Edge> = Vec::new();
    let mut turns: Vec<f64> = Vec::new();
    for (owner, outline) in outlines.iter().enumerate() {
        for [from, to] in &outline.edges {
            turns.push(from[0]);
            let (left, right) = if from[0] < to[0] {
                (*from, *to)
            } else {
                (*to, *from)
            };
            if left[0] < right[0] {
                let slope = (right[1] - left[1]) / (right[0] - left[0]);
                edges.push(Edge {
                    left,
                    right,
                    owner,
                    slope,
                });
            }
        }
    }
    edges.put_in_order_by(|a, b| a.left[0].total_cmp(&b.left[0]));
    for (at, edge) in edges.iter().enumerate() {
        let after = edges[at + 1..].partition_point(|other| other.left[0] < edge.right[0]);
        work.add(after)?;
        let meeting = edges[at + 1..][..after].iter();
        turns.extend(meeting.filter_map(|other| edge.crossing(other)));
    }
    turns.put_in_order_by(f64::total_cmp);
    turns.dedup_by(|next, kept| *next - *kept <= HAIR);

    // Between two turns nothing crosses, so one upright line tells all.
    let mut found = BTreeSet::new();
    let mut beginning = edges.iter().peekable();
    let mut here: Vec<&Edge> = Vec::new();
    let mut hits: Vec<(f64, &Edge)> = Vec::new();
    for x in turns.windows(2).map(|ends| f64::midpoint(ends[0], ends[1])) {
        while let Some(edge) = beginning.next_if(|edge| edge.left[0] <= x) {
            here.push(edge);
        }
        here.retain(|edge| edge.right[0] > x);
        work.add(here.len() * (1 + outlines.len() / 16))?;
        hits.clear();
        hits.extend(here.iter().map(|edge| (edge.height(x), *edge)));
        hits.put_in_order_by(|a, b| a.0.total_cmp(&b.0));
        let mut pile = Bits::below(outlines.len());
        for ends in hits.windows(2) {
            let [(low, lower), (high, upper)] = [ends[0], ends[1]];
            pile.flip(lower.owner);
            // The gap is measured upright, its width square to the edges.
            let steepest = lower.slope.abs().max(upper.slope.abs());
            if high - low > HAIR * steepest.hypot(1.0) && !found.contains(&pile) {
                found.insert(pile.clone());
            }
        }
    }
    Some(found)
}
