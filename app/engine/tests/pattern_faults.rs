//! Every fault of a pattern is found, and where it is; no input is too odd.

mod patterns;

use foldwright_engine::laid::pattern_problems;
use foldwright_engine::length::Length;
use foldwright_engine::pattern::{
    Fault, LineId, MOST_CORNERS, MOST_LINES, Misfit, Pattern, divide, fold_flat, misfits,
};
use foldwright_engine::plane::{PieceFrame, Placement, Point, Polygon, SAME_WITHIN, Segment};
use foldwright_engine::problem::{Finding, PatternFinding, Place, Weight};
use foldwright_engine::recipe::StripId;
use patterns::{Spot, at, draw, drawn, polygon, sheet};
use proptest::prelude::{Just, Strategy, any, prop_assert, prop_assert_eq, proptest};

fn part(from: Spot, to: Spot) -> Segment<PieceFrame> {
    Segment::new(at(from.0, from.1), at(to.0, to.1))
}

fn faults(lines: &[(char, Spot, Spot)]) -> Vec<Fault> {
    divide(&drawn(100, 60, lines)).faults
}

const A: LineId = LineId(0);
const B: LineId = LineId(1);

#[test]
fn a_sound_pattern_has_no_fault() {
    assert_eq!(
        faults(&[('V', (50, 0), (50, 60)), ('-', (10, 10), (20, 20))]),
        []
    );
}

#[test]
fn a_line_without_length() {
    let found = faults(&[('V', (20, 30), (20, 30))]);
    assert_eq!(
        found,
        [Fault::NoLength {
            line: A,
            at: at(20, 30)
        }]
    );
}

#[test]
fn a_line_off_the_paper_is_told_with_the_part_outside() {
    let found = faults(&[('V', (50, -10), (50, 75))]);
    let outside = |from, to| Fault::Outside {
        line: A,
        part: part(from, to),
    };
    assert_eq!(
        found,
        [outside((50, -10), (50, 0)), outside((50, 60), (50, 75))]
    );
    // What lies on the paper still folds.
    let divided = divide(&drawn(100, 60, &[('V', (50, -10), (50, 75))]));
    assert_eq!(divided.facets.len(), 2);
    assert_eq!(divided.hinges.len(), 1);
}

#[test]
fn a_line_through_a_hole_leaves_the_paper() {
    let mut pattern = drawn(100, 60, &[('V', (50, 0), (50, 60))]);
    pattern
        .holes
        .push(polygon(&[(40, 20), (60, 20), (60, 40), (40, 40)]));
    let divided = divide(&pattern);
    let over_the_hole = part((50, 20), (50, 40));
    assert_eq!(
        divided.faults,
        [Fault::Outside {
            line: A,
            part: over_the_hole
        }]
    );
    assert_eq!(divided.facets.len(), 2);
}

#[test]
fn a_line_along_the_edge() {
    let found = faults(&[('V', (20, 0), (70, 0)), ('M', (40, 0), (40, 60))]);
    assert_eq!(
        found,
        [Fault::AlongEdge {
            line: A,
            part: part((20, 0), (70, 0))
        }]
    );
}

#[test]
fn lines_on_each_other() {
    let found = faults(&[('V', (50, 0), (50, 60)), ('-', (50, 40), (50, 10))]);
    let shared = Fault::Overlap {
        lines: [A, B],
        part: part((50, 40), (50, 10)),
    };
    assert_eq!(found, [shared]);
}

#[test]
fn creases_that_cross_and_nothing_else_there() {
    let found = faults(&[('V', (50, 0), (50, 60)), ('M', (0, 20), (100, 20))]);
    assert_eq!(
        found,
        [Fault::Crossing {
            lines: [A, B],
            at: at(50, 20)
        }]
    );
    let slit_across = faults(&[('V', (50, 0), (50, 60)), ('-', (30, 20), (70, 20))]);
    assert_eq!(slit_across, []);
    let ends_on_it = faults(&[('V', (50, 0), (50, 60)), ('M', (0, 20), (50, 20))]);
    assert_eq!(ends_on_it, []);
}

#[test]
fn a_crease_that_ends_within_a_panel() {
    let found = faults(&[('V', (30, 60), (50, 20))]);
    assert_eq!(
        found,
        [Fault::Dangles {
            line: A,
            end: at(50, 20)
        }]
    );
    // Beyond the crease it crosses, only the rest hangs.
    let found = faults(&[('V', (0, 20), (70, 20)), ('M', (50, 0), (50, 60))]);
    assert!(
        found.contains(&Fault::Dangles {
            line: A,
            end: at(70, 20)
        }),
        "{found:?}"
    );
    // Into a slit is as good as to an edge.
    let to_a_slit = faults(&[('V', (50, 0), (50, 20)), ('-', (50, 20), (50, 60))]);
    assert_eq!(to_a_slit, []);
    // One of two that hang on each other.
    let found = faults(&[('V', (0, 20), (40, 20)), ('M', (20, 20), (20, 40))]);
    let hangs = |line, end| Fault::Dangles { line, end };
    assert_eq!(found, [hangs(A, at(40, 20)), hangs(B, at(20, 40))]);
}

#[test]
fn an_end_that_misses_by_less_than_a_thousandth_of_a_millimetre_touches() {
    let crease = |short: Length| {
        let mut pattern = sheet(100, 60);
        let end = Point::new(Length::mm(50), Length::mm(60) - short);
        draw(&mut pattern, 'V', at(50, 0), end);
        divide(&pattern)
    };
    let touching = crease(Length::from_units(60));
    assert_eq!(touching.faults, []);
    assert_eq!(touching.facets.len(), 2);
    let short = Length::hundredths_mm(2);
    let end = Point::new(Length::mm(50), Length::mm(60) - short);
    assert_eq!(crease(short).faults, [Fault::Dangles { line: A, end }]);
}

#[test]
fn a_crease_with_one_panel_on_both_sides() {
    let mut pattern = drawn(100, 60, &[('V', (0, 30), (40, 30))]);
    pattern
        .holes
        .push(polygon(&[(40, 20), (60, 20), (60, 40), (40, 40)]));
    let whole = part((0, 30), (40, 30));
    assert_eq!(
        divide(&pattern).faults,
        [Fault::SamePanel {
            line: A,
            part: whole
        }]
    );
}

#[test]
fn a_part_cut_loose() {
    let divided = divide(&drawn(
        100,
        60,
        &[
            ('-', (20, 20), (40, 20)),
            ('-', (40, 20), (30, 40)),
            ('-', (30, 40), (20, 20)),
        ],
    ));
    assert_eq!(
        divided.faults,
        [Fault::Loose {
            facet: 1,
            at: at(20, 20)
        }]
    );
    let flat = fold_flat(&divided, 0, Placement::<_, PieceFrame>::unmoved());
    assert_eq!(flat.places, [Some(Placement::unmoved()), None]);
    // Cut in two, the smaller part is the loose one.
    assert_eq!(
        faults(&[('-', (30, 0), (30, 60))]),
        [Fault::Loose {
            facet: 0,
            at: at(0, 0)
        }]
    );
}

#[test]
fn an_edge_that_is_none() {
    let outline = |corners: &[Spot]| {
        let mut pattern = sheet(1, 1);
        pattern.outline = polygon(corners);
        divide(&pattern)
    };
    let crossed = outline(&[(0, 0), (10, 10), (10, 0), (0, 10)]);
    assert_eq!(crossed.faults, [Fault::Outline { at: at(5, 5) }]);
    assert_eq!(crossed.facets, []);
    let spur = outline(&[(0, 0), (10, 0), (20, 0), (10, 0), (10, 10)]);
    assert!(
        matches!(spur.faults[..], [Fault::Outline { .. }]),
        "{spur:?}"
    );
    assert_eq!(outline(&[]).faults, [Fault::Outline { at: at(0, 0) }]);
    assert_eq!(
        outline(&[(3, 4), (9, 9)]).faults,
        [Fault::Outline { at: at(3, 4) }]
    );
    let clockwise = outline(&[(0, 0), (0, 10), (10, 10), (10, 0)]);
    assert_eq!(clockwise.faults, []);
    assert_eq!(
        clockwise.facets[0].outline,
        polygon(&[(0, 0), (10, 0), (10, 10), (0, 10)])
    );
}

#[test]
fn holes_that_do_not_fit() {
    let holes = |holes: &[&[Spot]]| {
        let mut pattern = sheet(100, 60);
        pattern.holes = holes.iter().map(|hole| polygon(hole)).collect();
        divide(&pattern)
    };
    let good: &[Spot] = &[(10, 10), (30, 10), (30, 30), (10, 30)];
    let found = |others: &[&[Spot]]| holes(others).faults;
    assert_eq!(found(&[good]), []);
    let at_edge = found(&[good, &[(50, 20), (70, 20), (60, 60)]]);
    assert_eq!(
        at_edge,
        [Fault::Hole {
            hole: 1,
            at: at(60, 60)
        }]
    );
    let within = found(&[good, &[(15, 15), (20, 15), (20, 20)]]);
    assert_eq!(
        within,
        [Fault::Hole {
            hole: 1,
            at: at(15, 15)
        }]
    );
    let around = found(&[good, &[(5, 5), (35, 5), (35, 35), (5, 35)]]);
    assert!(
        matches!(around[..], [Fault::Hole { hole: 1, .. }]),
        "{around:?}"
    );
    let outside = found(&[&[(110, 10), (120, 10), (120, 20)]]);
    assert_eq!(
        outside,
        [Fault::Hole {
            hole: 0,
            at: at(110, 10)
        }]
    );
    // The good one is still cut out.
    let divided = holes(&[&[(0, 0), (5, 5), (5, 0)], good]);
    assert_eq!(divided.facets[0].holes, [polygon(good)]);
}

#[test]
fn more_than_can_be_worked_on() {
    let mut pattern = sheet(100, 60);
    for _ in 0..=MOST_LINES {
        draw(&mut pattern, 'V', at(50, 0), at(50, 60));
    }
    assert_eq!(divide(&pattern).faults, [Fault::TooMany]);
    let mut pattern = sheet(100, 60);
    pattern.outline.corners = (0..=1000).map(|x| at(x, x * x)).collect();
    assert!(pattern.outline.corners.len() > MOST_CORNERS);
    assert_eq!(divide(&pattern).faults, [Fault::TooMany]);
    let far = Point::new(Length::mm(10_001), Length::ZERO);
    let mut pattern = sheet(100, 60);
    draw(&mut pattern, 'V', at(0, 0), far);
    assert_eq!(divide(&pattern).faults, [Fault::TooFar { at: far }]);
}

#[test]
fn a_crossing_is_told_once() {
    let pattern = drawn(
        100,
        60,
        &[('V', (50, 0), (50, 60)), ('M', (0, 20), (100, 20))],
    );
    let divided = divide(&pattern);
    let found = pattern_problems(StripId::Base, &pattern, &divided.faults, &misfits(&divided));
    // The crossing also fails Maekawa's theorem.
    assert_eq!(found.len(), 1, "{found:?}");
    let lines = [pattern.lines[0].id, pattern.lines[1].id];
    let is = PatternFinding::Fault(Fault::Crossing {
        lines,
        at: at(50, 20),
    });
    assert_eq!(
        found[0].finding,
        Finding::Pattern {
            of: StripId::Base,
            is
        }
    );
    assert_eq!(found[0].place, Place::of_line(lines[1]));
    assert_eq!(found[0].weight, Weight::Stop);
}

/// Numbers that are likely to make trouble: tiny, touching, huge.
fn trouble() -> impl Strategy<Value = i64> {
    proptest::prop_oneof![
        8 => (-4_i64..=4).prop_map(|number| number * 36),
        8 => (-3_i64..=3).prop_map(|number| number * 1_000_000),
        4 => -80_i64..=80,
        1 => Just(Length::LIMIT.units()),
        1 => Just(i64::MIN),
        1 => Just(i64::MAX),
        1 => any::<i64>(),
    ]
}

fn garbage() -> impl Strategy<Value = Pattern> {
    let point = || {
        (trouble(), trouble())
            .prop_map(|(x, y)| Point::new(Length::from_units(x), Length::from_units(y)))
    };
    let polygon = |most: usize| {
        proptest::collection::vec(point(), 0..most).prop_map(|corners| Polygon { corners })
    };
    let square = Just(Polygon {
        corners: [(-3, -3), (3, -3), (3, 3), (-3, 3)]
            .map(|(x, y)| {
                let units = |number: i64| Length::from_units(number * 1_000_000);
                Point::new(units(x), units(y))
            })
            .to_vec(),
    });
    let label = proptest::prop_oneof![Just('M'), Just('V'), Just('-')];
    let line = (label, point(), point());
    (
        proptest::prop_oneof![1 => polygon(7), 3 => square],
        proptest::collection::vec(polygon(5), 0..3),
        proptest::collection::vec(line, 0..12),
    )
        .prop_map(|(outline, holes, lines)| {
            let mut pattern = Pattern {
                outline,
                holes,
                lines: Vec::new(),
            };
            for (label, from, to) in lines {
                draw(&mut pattern, label, from, to);
            }
            pattern
        })
}

proptest! {
    #[test]
    fn no_pattern_is_too_odd(pattern in garbage(), root in 0_usize..20) {
        let divided = divide(&pattern);
        let flat = fold_flat(&divided, root, Placement::<PieceFrame, PieceFrame>::unmoved());
        prop_assert_eq!(flat.places.len(), divided.facets.len());
        let told = pattern_problems(StripId::Base, &pattern, &divided.faults, &flat.misfits);
        prop_assert!(told.len() <= divided.faults.len() + flat.misfits.len());
        for facet in &divided.facets {
            prop_assert!(facet.twice_area() > 0, "{facet:?}");
        }
        // Where nothing misfits, panels on both sides of a crease agree on it.
        let apart = |misfit: &Misfit| !matches!(misfit, Misfit::Folds { .. });
        if !flat.misfits.iter().any(apart) {
            for hinge in &divided.hinges {
                let places = (flat.places[hinge.left], flat.places[hinge.right]);
                let (Some(left), Some(right)) = places else { continue };
                prop_assert!(left.mirrored != right.mirrored);
                let ends = [hinge.course.from, hinge.course.to];
                prop_assert!(left.apart(&right, ends) <= SAME_WITHIN, "{hinge:?}");
            }
        }
    }
}
