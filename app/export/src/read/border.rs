//! The rings of edges that bound the paper.

use std::collections::BTreeMap;

use foldwright_engine::length::Length;
use foldwright_engine::plane::{PieceFrame, Point};

use super::Refusal;
use super::web::Is;

type Spot = Point<PieceFrame>;
type Edges = BTreeMap<[usize; 2], Is>;

/// The rings of the border, by their vertices in order, and all edges with those of the
/// border marked. Where no edge is said to be border, it is what lies outermost.
pub(super) fn border(
    spots: &[Spot],
    mut edges: Edges,
) -> Result<(Vec<Vec<usize>>, Edges), Refusal> {
    if !edges.values().any(|is| *is == Is::Border) {
        outermost(spots, &mut edges)?;
    }
    let mut beside: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    let borders = edges.iter().filter(|(_, is)| **is == Is::Border);
    for ([a, b], _) in borders {
        beside.entry(*a).or_default().push(*b);
        beside.entry(*b).or_default().push(*a);
    }
    if let Some((at, _)) = beside.iter().find(|(_, beside)| beside.len() != 2) {
        return Err(Refusal::Border { at: spots[*at] });
    }
    let mut rings = Vec::new();
    while let Some(first) = beside.keys().next().copied() {
        let mut ring = Vec::new();
        let mut at = first;
        // Each vertex has two neighbours, so that a walk only ends where it began.
        while let Some(next) = beside.remove(&at) {
            ring.push(at);
            let open = next.into_iter().find(|it| beside.contains_key(it));
            at = open.unwrap_or(first);
        }
        rings.push(ring);
    }
    Ok((rings, edges))
}

/// Marks the edges that lie outermost as border.
fn outermost(spots: &[Spot], edges: &mut Edges) -> Result<(), Refusal> {
    let mut beside: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for [a, b] in edges.keys() {
        beside.entry(*a).or_default().push(*b);
        beside.entry(*b).or_default().push(*a);
    }
    let first = beside.keys().copied().min_by_key(|it| spots[*it]);
    let first = first.ok_or(Refusal::NoPattern)?;
    // Nothing lies to the left of the first one.
    let (mut at, mut back) = (first, std::f64::consts::PI);
    let mut ring = Vec::new();
    loop {
        if ring.contains(&at) {
            return Err(Refusal::Border { at: spots[at] });
        }
        ring.push(at);
        // Anticlockwise from where it came, the first way is the outermost.
        let ways = beside.get(&at).into_iter().flatten();
        let ways = ways.map(|to| (turn(back, bearing(spots[at], spots[*to])), *to));
        let next = ways.min_by(|a, b| a.0.total_cmp(&b.0));
        let Some((_, next)) = next else {
            return Err(Refusal::Border { at: spots[at] });
        };
        let ends = [at.min(next), at.max(next)];
        match edges.get_mut(&ends) {
            Some(is @ (Is::Unassigned | Is::Flat)) => *is = Is::Border,
            Some(Is::Border) => return Err(Refusal::Border { at: spots[at] }),
            _ => return Err(Refusal::NoBorder),
        }
        back = bearing(spots[next], spots[at]);
        at = next;
        if at == first {
            return Ok(());
        }
    }
}

/// The direction from one point to another, in radians.
fn bearing(from: Spot, to: Spot) -> f64 {
    let [x, y] = [to.x - from.x, to.y - from.y].map(Length::as_mm_f64);
    y.atan2(x)
}

/// How far to turn anticlockwise from one direction to another; all the way round where
/// they are one.
fn turn(from: f64, to: f64) -> f64 {
    let turn = (to - from).rem_euclid(std::f64::consts::TAU);
    if turn == 0.0 {
        std::f64::consts::TAU
    } else {
        turn
    }
}
