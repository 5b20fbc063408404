//! Sheets folded by hand, as it were: fold the whole pile over a line, again
//! and again, unfold, and look at the creases. Such a pattern folds flat, and
//! every panel lies where it lay.

#![expect(
    clippy::cast_possible_truncation,
    clippy::expect_used,
    reason = "a test's points lie well within a metre, and helpers of a test may fail it"
)]

mod patterns;

use std::collections::BTreeSet;

use foldwright_engine::length::Length;
use foldwright_engine::pattern::{Facet, LineKind, Misfit, Pattern, divide, fold_flat, misfits};
use foldwright_engine::plane::{Bearing, CardFrame, PieceFrame, Placement, Point, Segment};
use patterns::{draw, drawn};
use proptest::prelude::{Strategy, any, prop_assert, prop_assert_eq, prop_assume, proptest};
use proptest::sample::Index;

type Spot = [f64; 2];

/// A part of the sheet in millimetres, and the map to where it lies: where x,
/// where y and where the origin go.
#[derive(Debug, Clone)]
struct Part {
    corners: Vec<Spot>,
    map: [Spot; 3],
}

fn moved([x, y, origin]: &[Spot; 3], at: Spot) -> Spot {
    [0, 1].map(|i| x[i] * at[0] + y[i] * at[1] + origin[i])
}

/// A line to fold over; what lies to its left comes to lie on the rest.
struct Line {
    through: Spot,
    normal: Spot,
}

impl Line {
    fn height(&self, at: Spot) -> f64 {
        (at[0] - self.through[0]) * self.normal[0] + (at[1] - self.through[1]) * self.normal[1]
    }

    fn mirrored(&self, map: &[Spot; 3]) -> [Spot; 3] {
        let direction = |of: Spot| {
            let along = of[0] * self.normal[0] + of[1] * self.normal[1];
            [0, 1].map(|i| of[i] - 2.0 * along * self.normal[i])
        };
        let height = self.height(map[2]);
        let origin = [0, 1].map(|i| map[2][i] - 2.0 * height * self.normal[i]);
        [direction(map[0]), direction(map[1]), origin]
    }
}

/// A label and two ends.
type Crease = (char, Spot, Spot);

fn length(a: Spot, b: Spot) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// Folds every part over the line; `None` where that makes a crease, or leaves
/// a strip, too small for paper.
fn fold_over(parts: &[Part], line: &Line) -> Option<(Vec<Part>, Vec<Crease>)> {
    let mut folded = Vec::new();
    let mut creases = Vec::new();
    for part in parts {
        let heights: Vec<_> = part
            .corners
            .iter()
            .map(|at| line.height(moved(&part.map, *at)))
            .collect();
        if heights.iter().any(|height| height.abs() < 1.0) {
            return None;
        }
        let (mut stays, mut moves, mut ends) = (Vec::new(), Vec::new(), Vec::new());
        for (number, at) in part.corners.iter().enumerate() {
            let next = (number + 1) % part.corners.len();
            let (here, there) = (heights[number], heights[next]);
            if here < 0.0 { &mut stays } else { &mut moves }.push(*at);
            if (here < 0.0) != (there < 0.0) {
                let share = here / (here - there);
                let to = part.corners[next];
                let end = [0, 1].map(|i| at[i] + share * (to[i] - at[i]));
                ends.push(end);
                stays.push(end);
                moves.push(end);
            }
        }
        if let [a, b] = ends[..] {
            if length(a, b) < 3.0 {
                return None;
            }
            let [x, y, _] = part.map;
            let face_up = x[0] * y[1] - x[1] * y[0] > 0.0;
            creases.push((if face_up { 'V' } else { 'M' }, a, b));
        }
        if !stays.is_empty() {
            folded.push(Part {
                corners: stays,
                map: part.map,
            });
        }
        if !moves.is_empty() {
            folded.push(Part {
                corners: moves,
                map: line.mirrored(&part.map),
            });
        }
    }
    Some((folded, creases))
}

fn point<F>([x, y]: Spot) -> Point<F> {
    let units = |part: f64| Length::from_units((part * 72_000.0).round() as i64);
    Point::new(units(x), units(y))
}

fn placement(map: &[Spot; 3]) -> Placement<PieceFrame, CardFrame> {
    let [x, y, origin] = map;
    let mirrored = x[0] * y[1] - x[1] * y[0] < 0.0;
    let turn = if mirrored {
        Bearing::towards(y[1], -y[0])
    } else {
        Bearing::towards(x[0], x[1])
    };
    let turn = turn.expect("a map that keeps distances");
    Placement::at_bearing(mirrored, turn, point(*origin))
}

/// The facet that is a part: every corner of one is a corner of the other.
fn facet_of(part: &Part, facets: &[Facet]) -> Option<usize> {
    let near = |a: Point<PieceFrame>, b: Point<PieceFrame>| {
        Segment::new(a, b).length() <= Length::microns(2)
    };
    facets.iter().position(|facet| {
        let corners = || part.corners.iter().map(|at| point(*at));
        corners().all(|at| facet.outline.corners.iter().any(|other| near(at, *other)))
    })
}

/// A sheet of 100 × 80 mm folded over lines, each through a point and square
/// to a direction in degrees; a fold too near to others is left out.
fn folded(folds: &[(f64, f64, f64)]) -> (Pattern, Vec<Part>) {
    let mut pattern = drawn(100, 80, &[]);
    let mut parts = vec![Part {
        corners: vec![[0.0, 0.0], [100.0, 0.0], [100.0, 80.0], [0.0, 80.0]],
        map: [[1.0, 0.0], [0.0, 1.0], [0.0, 0.0]],
    }];
    for (x, y, degrees) in folds {
        let (sin, cos) = degrees.to_radians().sin_cos();
        let line = Line {
            through: [*x, *y],
            normal: [cos, sin],
        };
        if let Some((now, creases)) = fold_over(&parts, &line) {
            parts = now;
            for (label, from, to) in creases {
                draw(&mut pattern, label, point(from), point(to));
            }
        }
    }
    (pattern, parts)
}

fn any_folds() -> impl Strategy<Value = Vec<(f64, f64, f64)>> {
    proptest::collection::vec((20.0..80.0, 20.0..60.0, 0.0..360.0), 1..7)
}

proptest! {
    #[test]
    fn what_was_folded_by_hand_folds_flat_again(folds in any_folds()) {
        let (pattern, parts) = folded(&folds);
        let divided = divide(&pattern);
        prop_assert_eq!(&divided.faults, &[]);
        prop_assert_eq!(divided.facets.len(), parts.len());
        let root = facet_of(&parts[0], &divided.facets).expect("the first part");
        let flat = fold_flat(&divided, root, placement(&parts[0].map));
        prop_assert_eq!(&flat.misfits, &[]);
        for part in &parts {
            let facet = facet_of(part, &divided.facets).expect("every part is a facet");
            let place = flat.places[facet].expect("the sheet hangs together");
            let lay = placement(&part.map);
            prop_assert_eq!(place.mirrored, lay.mirrored);
            let corners = divided.facets[facet].corners();
            prop_assert!(place.apart(&lay, corners) <= Length::microns(20));
        }
    }

    /// Maekawa's theorem: one crease flipped upsets the count at those of its
    /// ends that lie within the sheet, and nowhere else.
    #[test]
    fn a_flipped_crease_is_found_at_its_ends(folds in any_folds(), which in any::<Index>()) {
        let (mut pattern, _) = folded(&folds);
        prop_assume!(!pattern.lines.is_empty());
        let place = which.index(pattern.lines.len());
        let line = &mut pattern.lines[place];
        let ends = [line.from, line.to];
        if let LineKind::Crease(fold) = line.kind {
            line.kind = LineKind::Crease(fold.flipped());
        }
        let divided = divide(&pattern);
        let inner = divided.vertices.iter().map(|vertex| vertex.at);
        let near = |at: &Point<PieceFrame>| {
            ends.iter().any(|end| Segment::new(*end, *at).length() <= Length::microns(2))
        };
        let wanted: BTreeSet<_> = inner.filter(near).collect();
        let found = misfits(&divided);
        let counts = |misfit: &Misfit| matches!(misfit, Misfit::Folds { .. });
        prop_assert!(found.iter().all(counts));
        let found: BTreeSet<_> = found.iter().map(Misfit::at).collect();
        prop_assert_eq!(found, wanted);
    }
}
