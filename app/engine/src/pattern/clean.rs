//! Lines that cannot be cut or creased as drawn: on each other, along the edge,
//! off the paper, straight through each other.

use std::collections::BTreeMap;

use super::border::is_inside;
use super::net::{Net, Source};
use super::{Fault, Pattern};
use crate::plane::Segment;
use crate::sorted::InOrder as _;

impl Net {
    /// Keeps one of several edges between the same knots, the border before
    /// the lines.
    pub(super) fn drop_doubles(&mut self, pattern: &Pattern, faults: &mut Vec<Fault>) {
        let mut kept: BTreeMap<(usize, usize), Source> = BTreeMap::new();
        let mut doubled = Vec::new();
        self.edges.retain(|edge| {
            let ends = (edge.from.min(edge.to), edge.from.max(edge.to));
            let Some(first) = kept.get(&ends) else {
                kept.insert(ends, edge.source);
                return true;
            };
            doubled.push((*first, *edge));
            false
        });
        let id = |index: usize| pattern.lines.get(index).map(|line| line.id);
        let mut found: Vec<Fault> = Vec::new();
        for (first, edge) in doubled {
            let part = self.course(&edge);
            let Source::Line(second) = edge.source else {
                continue;
            };
            let Some(line) = id(second) else { continue };
            let fault = match first {
                Source::Outline | Source::Hole => Fault::AlongEdge { line, part },
                Source::Line(first) => Fault::Overlap {
                    lines: [id(first).unwrap_or(line), line],
                    part,
                },
            };
            match found.last_mut() {
                Some(last) if joins(last, &fault) => *last = joined(last, &fault),
                _ => found.push(fault),
            }
        }
        faults.append(&mut found);
    }

    /// Drops the parts of lines that lie off the paper.
    pub(super) fn drop_outside(&mut self, pattern: &Pattern, faults: &mut Vec<Fault>) {
        let border: Vec<_> = self
            .edges
            .iter()
            .filter(|edge| edge.source.is_border())
            .map(|edge| self.course(edge))
            .collect();
        let mut found: Vec<Fault> = Vec::new();
        let knots = &self.knots;
        self.edges.retain(|edge| {
            let Source::Line(index) = edge.source else {
                return true;
            };
            let part = Segment::new(knots[edge.from], knots[edge.to]);
            let inside = is_inside(border.iter().copied(), part.from, part.to);
            if let (false, Some(line)) = (inside, pattern.lines.get(index)) {
                let fault = Fault::Outside {
                    line: line.id,
                    part,
                };
                match found.last_mut() {
                    Some(last) if joins(last, &fault) => *last = joined(last, &fault),
                    _ => found.push(fault),
                }
            }
            inside
        });
        faults.append(&mut found);
    }

    /// The creases that cross two by two, both running on unchanged, where
    /// nothing else meets them.
    pub(super) fn crossings(&self, pattern: &Pattern) -> Vec<Fault> {
        let mut at_knot: Vec<Vec<Source>> = vec![Vec::new(); self.knots.len()];
        for edge in &self.edges {
            at_knot[edge.from].push(edge.source);
            at_knot[edge.to].push(edge.source);
        }
        let crease = |source: &Source| match source {
            Source::Outline | Source::Hole => None,
            Source::Line(index) => pattern
                .lines
                .get(*index)
                .filter(|line| line.fold().is_some()),
        };
        let mut faults = Vec::new();
        for (at, mut sources) in self.knots.iter().zip(at_knot) {
            sources.put_in_order();
            let [a, b, c, d] = sources[..] else { continue };
            if let (true, Some(first), Some(second)) = (a == b && c == d, crease(&a), crease(&c)) {
                faults.push(Fault::Crossing {
                    lines: [first.id, second.id],
                    at: *at,
                });
            }
        }
        faults
    }
}

/// Whether one fault goes on where another ends.
fn joins(first: &Fault, next: &Fault) -> bool {
    match (first, next) {
        (
            Fault::Outside { line, part },
            Fault::Outside {
                line: other,
                part: next,
            },
        )
        | (
            Fault::AlongEdge { line, part },
            Fault::AlongEdge {
                line: other,
                part: next,
            },
        ) => line == other && part.to == next.from,
        (
            Fault::Overlap { lines, part },
            Fault::Overlap {
                lines: other,
                part: next,
            },
        ) => lines == other && part.to == next.from,
        _ => false,
    }
}

/// Two faults of which the second goes on where the first ends.
fn joined(first: &Fault, next: &Fault) -> Fault {
    let mut both = *first;
    if let (
        Fault::Outside { part, .. } | Fault::AlongEdge { part, .. } | Fault::Overlap { part, .. },
        Fault::Outside { part: next, .. }
        | Fault::AlongEdge { part: next, .. }
        | Fault::Overlap { part: next, .. },
    ) = (&mut both, next)
    {
        part.to = next.to;
    }
    both
}
