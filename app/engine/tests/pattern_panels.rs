//! The panels a pattern is divided into, against Euler's formula and against
//! strips.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod patterns;
mod strips;

use std::collections::{BTreeMap, BTreeSet};

use foldwright_engine::fold::fold;
use foldwright_engine::laid::lay_out;
use foldwright_engine::length::Length;
use foldwright_engine::pattern::{
    Divided, Line, LineId, LineKind, Pattern, divide, misfits, places,
};
use foldwright_engine::plane::{PieceFrame, Point, Polygon};
use foldwright_engine::recipe::Runs;
use patterns::{at, draw, drawn, polygon};
use proptest::prelude::{Just, Strategy, any, prop_assert, prop_assert_eq, proptest};
use strips::strip;

/// The strip of a recipe as a pattern, its creases named by their places.
fn pattern_of(recipe: &foldwright_engine::recipe::Recipe) -> Pattern {
    let laid = lay_out(recipe);
    let lines = (0..).zip(&laid.base.creases).map(|(number, crease)| Line {
        id: LineId(number),
        from: crease.from,
        to: crease.to,
        kind: LineKind::Crease(crease.fold),
    });
    Pattern {
        outline: laid.base.outline.clone(),
        holes: Vec::new(),
        lines: lines.collect(),
    }
}

/// Points of a divided pattern and the edges between them.
fn graph(
    divided: &Divided,
) -> (
    BTreeSet<Point<PieceFrame>>,
    BTreeSet<[Point<PieceFrame>; 2]>,
) {
    let mut edges = BTreeSet::new();
    let mut add = |a: Point<PieceFrame>, b: Point<PieceFrame>| {
        edges.insert([a.min(b), a.max(b)]);
    };
    for facet in &divided.facets {
        for polygon in std::iter::once(&facet.outline).chain(&facet.holes) {
            let next = polygon.corners.iter().cycle().skip(1);
            polygon
                .corners
                .iter()
                .zip(next)
                .for_each(|(a, b)| add(*a, *b));
        }
        facet
            .slits
            .iter()
            .for_each(|slit| add(slit.course.from, slit.course.to));
    }
    (edges.iter().flatten().copied().collect(), edges)
}

fn components(
    points: &BTreeSet<Point<PieceFrame>>,
    edges: &BTreeSet<[Point<PieceFrame>; 2]>,
) -> usize {
    let mut name: BTreeMap<_, _> = points.iter().copied().zip(0_usize..).collect();
    for [a, b] in edges {
        let (kept, gone) = (name[a], name[b]);
        name.values_mut()
            .filter(|name| **name == gone)
            .for_each(|name| *name = kept);
    }
    name.values().collect::<BTreeSet<_>>().len()
}

/// Lines on a sheet of 100 × 80 mm in steps of a millimetre, some of them with
/// ends on its edge, and perhaps a hole.
fn any_pattern() -> impl Strategy<Value = Pattern> {
    let inside = (0_i64..=100, 0_i64..=80).prop_map(|(x, y)| at(x, y));
    let edge = (0_i64..=100, any::<bool>()).prop_map(|(x, top)| at(x, if top { 80 } else { 0 }));
    let line = proptest::prop_oneof![
        (edge.clone(), edge.clone()),
        (edge, inside.clone()),
        (inside.clone(), inside),
    ];
    let label = proptest::prop_oneof![Just('M'), Just('V'), Just('-')];
    let lines = proptest::collection::vec((label, line), 0..14);
    (lines, any::<bool>()).prop_map(|(lines, hole)| {
        let mut pattern = drawn(100, 80, &[]);
        if hole {
            pattern.holes.push(polygon(&[(30, 30), (55, 35), (40, 60)]));
        }
        for (label, (from, to)) in lines {
            draw(&mut pattern, label, from, to);
        }
        pattern
    })
}

fn twice_area(polygon: &Polygon<PieceFrame>) -> i128 {
    let next = polygon.corners.iter().cycle().skip(1);
    let number = |length: Length| i128::from(length.units());
    polygon
        .corners
        .iter()
        .zip(next)
        .map(|(a, b)| number(a.x) * number(b.y) - number(b.x) * number(a.y))
        .sum()
}

proptest! {
    #[test]
    fn strips_lie_as_the_strip_folder_lays_them(
        widths in proptest::collection::vec(1_i64..40, 1..9),
        labels in "[MV]{8}",
        rests in 0_u32..9,
        down in any::<bool>(),
    ) {
        let rests = rests.min(u32::try_from(widths.len() - 1).expect("few"));
        let lengths: Vec<_> = widths.iter().map(|eighths| Length::sixty_fourths(eighths * 8)).collect();
        let runs = if down { Runs::Down } else { Runs::Across };
        let labels = &labels[..widths.len() - 1];
        let recipe = strip(&lengths, Length::mm(100), labels, rests, runs);
        let divided = divide(&pattern_of(&recipe));
        prop_assert_eq!(&divided.faults, &[]);
        prop_assert_eq!(misfits(&divided), []);
        let laid = lay_out(&recipe);
        let panels: Vec<_> = laid.panels.iter().map(|panel| &panel.facet.outline).collect();
        let facets: Vec<_> = divided.facets.iter().map(|facet| &facet.outline).collect();
        prop_assert_eq!(facets, panels);
        if let Ok(folded) = fold(&recipe, &lay_out(&recipe)) {
            let mut open = BTreeSet::new();
            for state in &folded.states {
                if state.opened.as_ref().is_some_and(|opened| opened.together) {
                    open = (0..recipe.base.folds.len()).collect();
                }
                open.extend(state.score());
                let root = rests as usize;
                let is_folded = |line: LineId| !open.contains(&(line.0 as usize));
                let found = places(&divided, root, state.poses[root].place, &is_folded);
                let wanted: Vec<_> = state.poses.iter().map(|pose| Some(pose.place)).collect();
                prop_assert_eq!(found, wanted);
            }
        }
    }

    /// Euler's formula for a plane graph: V − E + F = 1 + C.
    #[test]
    fn panels_are_the_faces_of_a_plane_graph_and_cover_the_piece(pattern in any_pattern()) {
        let divided = divide(&pattern);
        let (points, edges) = graph(&divided);
        let faces = divided.facets.len() + pattern.holes.len() + 1;
        prop_assert_eq!(
            points.len() + faces,
            edges.len() + 1 + components(&points, &edges)
        );
        let areas = divided.facets.iter().map(|facet| {
            let holes: i128 = facet.holes.iter().map(twice_area).sum();
            twice_area(&facet.outline) - holes
        });
        let holes: i128 = pattern.holes.iter().map(twice_area).sum();
        let whole = twice_area(&pattern.outline) - holes;
        let gap = areas.sum::<i128>() - whole;
        // The slanting edge of the hole may bend by a thousandth of a
        // millimetre where a line ends on it; the rest is exact.
        let slack = if pattern.holes.is_empty() { 0 } else {
            2 * i128::from(Length::mm(100).units() * Length::microns(1).units())
        };
        prop_assert!(gap.abs() <= slack, "{gap}");
    }

    #[test]
    fn a_crease_lies_between_the_panels_it_names(pattern in any_pattern()) {
        let divided = divide(&pattern);
        let walks = |facet: usize, from, to| {
            let facet = &divided.facets[facet];
            let along = |polygon: &Polygon<PieceFrame>, from, to| {
                let next = polygon.corners.iter().cycle().skip(1);
                polygon.corners.iter().zip(next).any(|(a, b)| (*a, *b) == (from, to))
            };
            along(&facet.outline, from, to) || facet.holes.iter().any(|hole| along(hole, to, from))
        };
        for hinge in &divided.hinges {
            let course = hinge.course;
            prop_assert!(walks(hinge.left, course.from, course.to), "{hinge:?}");
            prop_assert!(walks(hinge.right, course.to, course.from), "{hinge:?}");
            let line = pattern.line(hinge.line).expect("a line of the pattern");
            prop_assert_eq!(hinge.axis, line.course());
            prop_assert_eq!(Some(hinge.fold), line.fold());
        }
        for vertex in &divided.vertices {
            for hinge in &vertex.hinges {
                let course = divided.hinges[*hinge].course;
                prop_assert!(course.from == vertex.at || course.to == vertex.at);
            }
        }
    }

    #[test]
    fn names_do_not_hang_on_the_order_or_direction_of_lines(pattern in any_pattern()) {
        let mut other = pattern.clone();
        other.lines.reverse();
        for line in &mut other.lines {
            std::mem::swap(&mut line.from, &mut line.to);
        }
        let outlines = |pattern: &Pattern| -> Vec<_> {
            divide(pattern).facets.into_iter().map(|facet| (facet.outline, facet.holes)).collect()
        };
        prop_assert_eq!(outlines(&pattern), outlines(&other));
    }
}
