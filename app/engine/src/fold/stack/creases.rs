//! What creases ask of the facets that lie along or across them: taco–taco,
//! taco–tortilla and tortilla–tortilla.

use super::constraints::{Builder, Work};
use super::outline::{HAIR, Line, Outline, Stretch, common, spot};
use super::{Hinge, Stack};

/// A hinge, and which facets run along it.
struct Crease<'a> {
    hinge: &'a Hinge,
    /// Its index among the hinges.
    index: usize,
    line: Line,
    closed: bool,
    /// Facets, the lower number first, with the stretches they cover a hair to
    /// the left and to the right of the crease.
    beside: Vec<(usize, [Vec<Stretch>; 2])>,
}

/// A side of a line, as the index of its stretches.
const LEFT: usize = 0;
const RIGHT: usize = 1;

impl Crease<'_> {
    /// The side of the line a facet lies on along a stretch of it.
    fn side_of(&self, facet: usize, stretch: Stretch) -> usize {
        let beside = self
            .beside
            .binary_search_by_key(&facet, |(other, _)| *other);
        let beside = beside.ok().and_then(|at| self.beside.get(at));
        beside.map_or(LEFT, |(_, sides)| {
            let [left, right] = [LEFT, RIGHT].map(|side| common(&sides[side], &[stretch]));
            if left >= right { LEFT } else { RIGHT }
        })
    }
}

/// Adds the constraints of every crease; `None` where that is too much work.
pub(super) fn constraints(
    stack: &Stack,
    outlines: &[Outline],
    constraints: &mut Builder,
    work: &mut Work,
) -> Option<()> {
    let edges: usize = outlines.iter().map(|outline| outline.edges.len()).sum();
    work.add(stack.hinges.len().saturating_mul(edges))?;
    let creases: Vec<Crease<'_>> = stack
        .hinges
        .iter()
        .enumerate()
        .filter_map(|(index, hinge)| crease(stack, outlines, index, hinge))
        .collect();
    for (at, crease) in creases.iter().enumerate() {
        taco_tortilla(crease, constraints);
        for other in &creases[..at] {
            let shared = crease.line.shared(&other.line);
            if let Some(stretch) = shared {
                along_one_line(crease, other, stretch, constraints);
            }
        }
    }
    Some(())
}

fn crease<'a>(
    stack: &Stack,
    outlines: &[Outline],
    index: usize,
    hinge: &'a Hinge,
) -> Option<Crease<'a>> {
    let (a, b) = (stack.facets.get(hinge.a)?, stack.facets.get(hinge.b)?);
    let line = Line::between(spot(hinge.from), spot(hinge.to))?;
    let sides = [line.beside(HAIR), line.beside(-HAIR)];
    let beside = outlines[..stack.facets.len()]
        .iter()
        .enumerate()
        .filter_map(|(facet, outline)| {
            let stretches = [outline.along(&sides[LEFT]), outline.along(&sides[RIGHT])];
            let any = stretches.iter().any(|side| !side.is_empty());
            any.then_some((facet, stretches))
        })
        .collect();
    Some(Crease {
        hinge,
        index,
        line,
        closed: a.mirrored != b.mirrored,
        beside,
    })
}

/// A facet that reaches across a crease lies on one side of both its facets.
fn taco_tortilla(crease: &Crease<'_>, constraints: &mut Builder) {
    let Hinge { a, b, .. } = *crease.hinge;
    for (facet, [left, right]) in &crease.beside {
        if *facet != a && *facet != b && common(left, right) > HAIR {
            constraints.even(&[(*facet, a), (*facet, b)], [crease.index; 2]);
        }
    }
}

/// Two creases along one stretch of a line. A closed one is a taco, an open one
/// a tortilla.
fn along_one_line(one: &Crease<'_>, two: &Crease<'_>, stretch: Stretch, constraints: &mut Builder) {
    let (Hinge { a, b, .. }, Hinge { a: c, b: d, .. }) = (one.hinge, two.hinge);
    let (a, b, c, d) = (*a, *b, *c, *d);
    if a == c || a == d || b == c || b == d {
        return;
    }
    let causes = [one.index, two.index];
    let side = |facet| one.side_of(facet, stretch);
    let facing = |of, or, facet| if side(of) == side(facet) { of } else { or };
    match (one.closed, two.closed) {
        // Taco–taco: they nest or stay apart, unless they point at each other.
        (true, true) if side(a) == side(c) => {
            constraints.even(&[(c, a), (c, b), (d, a), (d, b)], causes);
        }
        (true, true) => {}
        // Taco–tortilla: the sheet that goes on lies on one side of the folded
        // one.
        (true, false) => {
            let beside = facing(c, d, a);
            constraints.even(&[(beside, a), (beside, b)], causes);
        }
        (false, true) => {
            let beside = facing(a, b, c);
            constraints.even(&[(beside, c), (beside, d)], causes);
        }
        // Tortilla–tortilla: two sheets that go on keep their order.
        (false, false) => {
            let (beside_a, beside_b) = if side(a) == side(c) { (c, d) } else { (d, c) };
            constraints.even(&[(a, beside_a), (b, beside_b)], causes);
        }
    }
}
