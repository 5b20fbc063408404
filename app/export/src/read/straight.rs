//! Edges that continue one another, as one line each.

use std::collections::BTreeMap;

use foldwright_engine::pattern::TOUCHES_WITHIN;
use foldwright_engine::plane::{PieceFrame, Point, Segment};

type Spot = Point<PieceFrame>;

/// The lines that edges of one kind make up. Edges are one line where all their vertices
/// lie on it, to what counts as touching.
pub(super) fn joined(spots: &[Spot], edges: &[[usize; 2]]) -> Vec<Segment<PieceFrame>> {
    let mut at: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (number, ends) in edges.iter().enumerate() {
        for end in ends {
            at.entry(*end).or_default().push(number);
        }
    }
    let mut used = vec![false; edges.len()];
    let mut lines = Vec::new();
    for (number, ends) in edges.iter().enumerate() {
        if std::mem::replace(&mut used[number], true) {
            continue;
        }
        let mut chain = ends.to_vec();
        for _ in 0..2 {
            while let Some((edge, next)) = following(spots, edges, &at, &used, &chain) {
                used[edge] = true;
                chain.push(next);
            }
            chain.reverse();
        }
        let ends = chain.first().zip(chain.last());
        lines.extend(ends.map(|(from, to)| Segment::new(spots[*from], spots[*to])));
    }
    lines
}

/// The edge that goes straight on from the end of a chain of vertices, and where to.
fn following(
    spots: &[Spot],
    edges: &[[usize; 2]],
    at: &BTreeMap<usize, Vec<usize>>,
    used: &[bool],
    chain: &[usize],
) -> Option<(usize, usize)> {
    let (first, last) = (chain.first()?, chain.last()?);
    let free = at.get(last)?.iter().filter(|edge| !used[**edge]);
    let mut ways = free.map(|edge| {
        let [a, b] = edges[*edge];
        (*edge, if a == *last { b } else { a })
    });
    ways.find(|(_, next)| {
        let course = Segment::new(spots[*first], spots[*next]);
        let between = chain.iter().skip(1);
        let mut between = between.map(|it| spots[*it]);
        between.all(|at| course.is_near(at, TOUCHES_WITHIN))
    })
}
