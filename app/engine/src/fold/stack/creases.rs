//! What creases ask of the facets that lie along or across them.

use super::outline::{HAIR, Line, Outline, Stretch, common, spot};
use super::rules::{Builder, Work};
use super::{Hinge, Stack};

/// A hinge, and which facets run along it.
struct Crease<'a> {
    hinge: &'a Hinge,
    /// Its place among the hinges.
    place: usize,
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

/// Adds what every crease asks for; `None` where that is too much work.
pub(super) fn rules(
    stack: &Stack,
    outlines: &[Outline],
    rules: &mut Builder,
    work: &mut Work,
) -> Option<()> {
    let edges: usize = outlines.iter().map(|outline| outline.edges.len()).sum();
    work.add(stack.hinges.len().saturating_mul(edges))?;
    let creases: Vec<Crease<'_>> = stack
        .hinges
        .iter()
        .enumerate()
        .filter_map(|(place, hinge)| crease(stack, outlines, place, hinge))
        .collect();
    for (at, crease) in creases.iter().enumerate() {
        reached_across(crease, rules);
        for other in &creases[..at] {
            let shared = crease.line.shared(&other.line);
            if let Some(stretch) = shared {
                at_one_place(crease, other, stretch, rules);
            }
        }
    }
    Some(())
}

fn crease<'a>(
    stack: &Stack,
    outlines: &[Outline],
    place: usize,
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
        place,
        line,
        closed: a.mirrored != b.mirrored,
        beside,
    })
}

/// A facet that reaches across a crease lies on one side of both its facets.
fn reached_across(crease: &Crease<'_>, rules: &mut Builder) {
    let Hinge { a, b, .. } = *crease.hinge;
    for (facet, [left, right]) in &crease.beside {
        if *facet != a && *facet != b && common(left, right) > HAIR {
            rules.agree(&[(*facet, a), (*facet, b)], [crease.place; 2]);
        }
    }
}

/// Two creases along one stretch of a line.
fn at_one_place(one: &Crease<'_>, two: &Crease<'_>, stretch: Stretch, rules: &mut Builder) {
    let (Hinge { a, b, .. }, Hinge { a: c, b: d, .. }) = (one.hinge, two.hinge);
    let (a, b, c, d) = (*a, *b, *c, *d);
    if a == c || a == d || b == c || b == d {
        return;
    }
    let causes = [one.place, two.place];
    let side = |facet| one.side_of(facet, stretch);
    let facing = |of, or, facet| if side(of) == side(facet) { of } else { or };
    match (one.closed, two.closed) {
        // They nest or stay apart, unless they point at each other.
        (true, true) if side(a) == side(c) => {
            rules.agree(&[(c, a), (c, b), (d, a), (d, b)], causes);
        }
        (true, true) => {}
        // The sheet that goes on lies on one side of the folded one.
        (true, false) => {
            let beside = facing(c, d, a);
            rules.agree(&[(beside, a), (beside, b)], causes);
        }
        (false, true) => {
            let beside = facing(a, b, c);
            rules.agree(&[(beside, c), (beside, d)], causes);
        }
        // Two sheets that go on keep their order.
        (false, false) => {
            let (beside_a, beside_b) = if side(a) == side(c) { (c, d) } else { (d, c) };
            rules.agree(&[(a, beside_a), (b, beside_b)], causes);
        }
    }
}
