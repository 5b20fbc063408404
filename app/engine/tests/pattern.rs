//! Patterns at any angle: whether they fold flat, against theorems of flat
//! folding.

#![expect(
    clippy::cast_possible_truncation,
    reason = "a test's points lie well within a metre"
)]

mod patterns;

use foldwright_engine::laid::pattern_problems;
use foldwright_engine::length::Length;
use foldwright_engine::pattern::{
    Angle, LineId, Misfit, Pattern, divide, fold_flat, misfits, places,
};
use foldwright_engine::plane::{
    CardFrame, PieceFrame, Placement, Point, Polygon, SAME_WITHIN, Segment,
};
use foldwright_engine::problem::{Finding, PatternFinding};
use foldwright_engine::recipe::StripId;
use patterns::{at, draw, drawn, polygon, sheet};
use proptest::prelude::{any, prop_assert, prop_assert_eq, proptest};

/// A piece with a corner 60 mm from its middle at the end of every crease: the
/// creases leave the middle with these angles between them.
fn star(angles: &[f64], labels: &str) -> Pattern {
    let mut direction = 0.0_f64;
    let ends: Vec<_> = angles
        .iter()
        .map(|angle| {
            let (sin, cos) = direction.to_radians().sin_cos();
            direction += angle;
            let units = |part: f64| (part * 60.0 * 72_000.0).round() as i64;
            Point::new(
                Length::from_units(units(cos)),
                Length::from_units(units(sin)),
            )
        })
        .collect();
    let mut pattern = Pattern {
        outline: Polygon {
            corners: ends.clone(),
        },
        holes: Vec::new(),
        lines: Vec::new(),
    };
    for (end, label) in ends.into_iter().zip(labels.chars()) {
        draw(&mut pattern, label, at(0, 0), end);
    }
    pattern
}

fn misfits_of(angles: &[f64], labels: &str) -> Vec<Misfit> {
    let divided = divide(&star(angles, labels));
    assert_eq!(divided.faults, [], "{angles:?} {labels}");
    assert_eq!(divided.facets.len(), angles.len());
    assert_eq!(divided.vertices.len(), 1);
    assert_eq!(divided.vertices[0].hinges.len(), angles.len());
    misfits(&divided)
}

fn every_labelling(creases: usize) -> impl Iterator<Item = String> {
    (0..1_usize << creases).map(move |bits| {
        (0..creases)
            .map(|crease| if bits >> crease & 1 == 0 { 'M' } else { 'V' })
            .collect()
    })
}

/// Kawasaki's theorem: creases round one point fold flat exactly if the angles
/// between them, every second one added and the others taken away, make none.
/// The angles with eight creases are the worked example of the encyclopedia
/// article on the theorem; five mountains and three valleys that of the
/// article on Maekawa's theorem.
#[test]
fn kawasakis_example_with_eight_creases_folds() {
    let angles = [90.0, 45.0, 22.5, 22.5, 45.0, 90.0, 22.5, 22.5];
    assert_eq!(misfits_of(&angles, "MMVMVMVM"), []);
    assert_eq!(misfits_of(&angles, "VVMVMVMV"), []);
    let even = Misfit::Folds {
        at: at(0, 0),
        mountains: 4,
        valleys: 4,
    };
    assert_eq!(misfits_of(&angles, "MVMVMVMV"), [even]);
}

/// Sums of 190° and 170°: worked out from Kawasaki's theorem by hand.
#[test]
fn a_vertex_that_misses_says_by_how_much() {
    assert_eq!(misfits_of(&[100.0, 90.0, 80.0, 90.0], "MMMV"), []);
    let found = misfits_of(&[100.0, 80.0, 90.0, 90.0], "MMMV");
    let [
        Misfit::Angles {
            at: place,
            sums,
            gap,
        },
    ] = &found[..]
    else {
        panic!("{found:?}");
    };
    assert_eq!(*place, at(0, 0));
    let degrees = |count: i32| Angle::thousandths(count * 1000);
    assert_eq!(*sums, [degrees(190), degrees(170)]);
    // Ten degrees too much turn the panels by twenty; the chord at 60 mm.
    let chord = 2.0 * 60.0 * 10.0_f64.to_radians().sin();
    assert!((gap.as_mm_f64() - chord).abs() < 0.001, "{gap:?}");
}

/// Maekawa's theorem: mountains and valleys differ by two.
#[test]
fn labels_round_a_vertex_differ_by_two() {
    let count = |angles: &[f64]| {
        every_labelling(angles.len())
            .filter(|labels| misfits_of(angles, labels).is_empty())
            .count()
    };
    // Three of one kind and one of the other.
    assert_eq!(count(&[90.0; 4]), 8);
    // Four and two: 2 · binom(6, 2); five and three: 2 · binom(8, 3). With
    // equal angles these are all that fold (Hull, "Counting mountain-valley
    // assignments for flat folds", Ars Combinatoria 67, 2003).
    assert_eq!(count(&[60.0; 6]), 30);
    assert_eq!(count(&[45.0; 8]), 112);
}

/// Valid labels of worked vertices of degree 4, from an exhaustive search over
/// layer orders; there are 4, 6 or 8 (On-Line Encyclopedia of Integer
/// Sequences, A156209). Every one of them must pass the conditions on one
/// vertex.
#[test]
fn labellings_known_to_fold_pass() {
    let known: [(&[f64], &str); 5] = [
        (&[60.0, 90.0, 120.0, 90.0], "MMMV MVVV VMMM VVVM"),
        (&[30.0, 60.0, 150.0, 120.0], "MMMV MVVV VMMM VVVM"),
        (&[60.0, 60.0, 120.0, 120.0], "MMMV MVMM MVVV VMMM VMVV VVVM"),
        (&[100.0, 80.0, 80.0, 100.0], "MMVM MVMM MVVV VMMM VMVV VVMV"),
        (&[45.0, 135.0, 135.0, 45.0], "MMMV MMVM MVVV VMMM VVMV VVVM"),
    ];
    for (angles, labels) in known {
        for labels in labels.split(' ') {
            assert_eq!(misfits_of(angles, labels), [], "{angles:?} {labels}");
        }
    }
}

#[test]
fn an_odd_number_of_creases_is_said() {
    let found = misfits_of(&[120.0; 3], "MMM");
    let odd = Misfit::OddCreases {
        at: at(0, 0),
        count: 3,
    };
    assert_eq!(found, [odd]);
}

/// Three creases straight through one point, as in the waterbomb base of the
/// tradition: two valleys across, one mountain.
#[test]
fn three_creases_through_one_point_are_no_fault() {
    let lines = [
        ('V', (0, 0), (80, 80)),
        ('V', (0, 80), (80, 0)),
        ('M', (0, 40), (80, 40)),
    ];
    let divided = divide(&drawn(80, 80, &lines));
    assert_eq!(divided.faults, []);
    assert_eq!(misfits(&divided), []);
    assert_eq!(divided.facets.len(), 6);
    let flat = fold_flat(&divided, 0, Placement::<PieceFrame, CardFrame>::unmoved());
    let facets = divided.facets.iter().zip(&flat.places);
    let corners: Vec<_> = facets
        .flat_map(|(facet, place)| {
            let place = place.expect("every panel hangs on the rest");
            place.polygon(&facet.outline).corners
        })
        .collect();
    let all = Polygon { corners }.bounds().expect("some panels");
    // A quarter of the sheet: a triangle 80 mm long and 40 mm high.
    let (width, height) = (all.size().width, all.size().height);
    assert_eq!(
        (width.min(height), width.max(height)),
        (Length::mm(40), Length::mm(80))
    );
    assert_eq!(flat.misfits, []);
}

/// The Miura fold (Koryo Miura's map fold, from memory): zigzags all one way
/// in turn, the straight lines between changing at every zigzag.
#[test]
fn a_map_fold_in_zigzags_comes_together() {
    let zig = |row: i64| if row % 2 == 0 { 0 } else { 7 };
    let knot = |column: i64, row: i64| at(column * 30 + zig(row), row * 25);
    let (columns, rows) = (6, 5);
    let up = (0..=rows).map(|row| knot(columns, row));
    let mut corners = vec![knot(0, 0)];
    corners.extend(up);
    corners.extend((1..=rows).rev().map(|row| knot(0, row)));
    let mut pattern = Pattern {
        outline: Polygon { corners },
        holes: Vec::new(),
        lines: Vec::new(),
    };
    for column in 1..columns {
        for row in 0..rows {
            let label = if column % 2 == 0 { 'M' } else { 'V' };
            draw(
                &mut pattern,
                label,
                knot(column, row),
                knot(column, row + 1),
            );
        }
    }
    for row in 1..rows {
        for column in 0..columns {
            let label = if (row + column) % 2 == 0 { 'M' } else { 'V' };
            draw(
                &mut pattern,
                label,
                knot(column, row),
                knot(column + 1, row),
            );
        }
    }
    let divided = divide(&pattern);
    assert_eq!(divided.faults, []);
    assert_eq!(divided.facets.len(), 30);
    assert_eq!(divided.vertices.len(), 20);
    assert_eq!(misfits(&divided), []);
    let flat = places(&divided, 0, Placement::<_, CardFrame>::unmoved(), &|_| true);
    for hinge in &divided.hinges {
        let [left, right] = [hinge.left, hinge.right].map(|facet| flat[facet].expect("joined"));
        assert_ne!(left.mirrored, right.mirrored, "{hinge:?}");
        let ends = [hinge.course.from, hinge.course.to];
        assert!(left.apart(&right, ends) <= SAME_WITHIN, "{hinge:?}");
    }
}

/// A box pop-up from one sheet: with cuts from 20 mm below the fold to 30 mm
/// above, the fold of the box must lie 30 − 20 = 10 mm above that of the card,
/// because opposite sides of a parallelogram are equal.
fn pop_up(fold_of_the_box: i64) -> Pattern {
    let middle = 50;
    let mut pattern = sheet(120, 100);
    for x in [40, 70] {
        draw(&mut pattern, '-', at(x, middle - 20), at(x, middle + 30));
    }
    for (label, y, from, to) in [
        ('V', middle, 0, 40),
        ('V', middle, 70, 120),
        ('V', middle - 20, 40, 70),
        ('M', middle + fold_of_the_box, 40, 70),
        ('V', middle + 30, 40, 70),
    ] {
        draw(&mut pattern, label, at(from, y), at(to, y));
    }
    pattern
}

#[test]
fn a_box_pop_up_folds_flat_where_it_is_a_parallelogram() {
    let divided = divide(&pop_up(10));
    assert_eq!(divided.faults, []);
    assert_eq!(divided.facets.len(), 4);
    assert_eq!(divided.vertices, []);
    assert_eq!(divided.openings.len(), 2);
    assert_eq!(misfits(&divided), []);

    let divided = divide(&pop_up(13));
    assert_eq!(divided.faults, []);
    let found = misfits(&divided);
    assert_eq!(found.len(), 2, "once round each cut: {found:?}");
    for misfit in found {
        // Mirrored in lines 3 mm off, panels land twice as far off.
        let Misfit::Opening {
            at: place,
            is_hole: false,
            turned_over: false,
            gap,
        } = misfit
        else {
            panic!("{misfit:?}");
        };
        assert_eq!(gap, Length::mm(6));
        assert!([40, 70].map(Length::mm).contains(&place.x), "{place:?}");
    }
}

#[test]
fn creases_round_a_hole_must_agree() {
    let with_hole = |last: i64| {
        let lines = [
            ('M', (50, 0), (50, 40)),
            ('M', (60, 50), (100, 50)),
            ('M', (50, 60), (50, 100)),
            ('V', (0, last), (40, last)),
        ];
        let mut pattern = drawn(100, 100, &lines);
        pattern
            .holes
            .push(polygon(&[(40, 40), (60, 40), (60, 60), (40, 60)]));
        let divided = divide(&pattern);
        assert_eq!(divided.faults, []);
        assert_eq!(divided.facets.len(), 4);
        misfits(&divided)
    };
    assert_eq!(with_hole(50), []);
    let found = with_hole(51);
    let [
        Misfit::Opening {
            is_hole: true,
            turned_over: false,
            gap,
            ..
        },
    ] = &found[..]
    else {
        panic!("{found:?}");
    };
    assert_eq!(*gap, Length::mm(2));
}

#[test]
fn a_slit_that_divides_nothing_is_kept_in_its_panel() {
    let lines = [
        ('V', (50, 0), (50, 60)),
        ('-', (10, 10), (30, 40)),
        ('-', (40, 30), (60, 30)),
    ];
    let divided = divide(&drawn(100, 60, &lines));
    assert_eq!(divided.faults, []);
    assert_eq!(divided.facets.len(), 2);
    let slits = |facet: usize| -> Vec<_> {
        divided.facets[facet]
            .slits
            .iter()
            .map(|slit| (slit.line, slit.course))
            .collect()
    };
    let slit = |line, from: (i64, i64), to: (i64, i64)| {
        (
            LineId(line),
            Segment::new(at(from.0, from.1), at(to.0, to.1)),
        )
    };
    assert_eq!(
        slits(0),
        [slit(1, (10, 10), (30, 40)), slit(2, (40, 30), (50, 30))]
    );
    assert_eq!(slits(1), [slit(2, (50, 30), (60, 30))]);
    // The crease goes on beyond the slit that crosses it.
    assert_eq!(divided.hinges.len(), 2);
    assert_eq!(misfits(&divided), []);
}

#[test]
fn a_panel_with_an_island_of_creases_has_a_hole() {
    let lines = [
        ('V', (10, 10), (30, 10)),
        ('V', (30, 10), (20, 30)),
        ('V', (20, 30), (10, 10)),
    ];
    let divided = divide(&drawn(50, 50, &lines));
    assert_eq!(divided.facets.len(), 2);
    assert_eq!(
        divided.facets[0].holes,
        [polygon(&[(10, 10), (30, 10), (20, 30)])]
    );
    assert_eq!(divided.facets[1].outline, divided.facets[0].holes[0]);
    // At each corner two creases that are no straight line.
    let missed = misfits(&divided);
    let angles = |misfit: &&Misfit| matches!(misfit, Misfit::Angles { .. });
    assert_eq!(missed.iter().filter(angles).count(), 3, "{missed:?}");
    assert_eq!(missed.len(), 3);
}

#[test]
fn a_misfit_says_where_and_by_how_much() {
    let pattern = star(&[100.0, 80.0, 90.0, 90.0], "MMMV");
    let divided = divide(&pattern);
    let missed = misfits(&divided);
    let [problem] = &pattern_problems(StripId::Base, &pattern, &divided.faults, &missed)[..] else {
        panic!("one problem");
    };
    let [Misfit::Angles { at, sums, .. }] = &missed[..] else {
        panic!("{missed:?}");
    };
    assert_eq!(*at, Point::new(Length::ZERO, Length::ZERO));
    let degrees = |whole: i32| Angle::thousandths(whole * 1000);
    assert_eq!(*sums, [degrees(190), degrees(170)]);
    assert_eq!(missed[0].small_turn(), Some(degrees(10)));
    let is = PatternFinding::Misfit(missed[0].clone());
    assert_eq!(
        problem.finding,
        Finding::Pattern {
            of: StripId::Base,
            is
        }
    );
}

proptest! {
    /// Sectors that satisfy Kawasaki's theorem, drawn with ends rounded to the
    /// unit, come together; turned by a tenth of a degree they do not.
    #[test]
    fn any_vertex_obeys_kawasaki(
        first in proptest::collection::vec(5_u32..100, 2..6), seed in any::<u64>(), off in 0_usize..4,
    ) {
        // Two sets of angles with 180° each, laid in turn.
        let share = |weights: Vec<u32>| -> Vec<f64> {
            let sum: u32 = weights.iter().sum();
            weights.iter().map(|weight| 180.0 * f64::from(*weight) / f64::from(sum)).collect()
        };
        let second: Vec<u32> = first.iter().enumerate()
            .map(|(place, _)| 5 + u32::try_from(seed >> (7 * place) & 63).expect("six bits"))
            .collect();
        let count = first.len();
        let mut angles: Vec<f64> = share(first).into_iter().zip(share(second))
            .flat_map(|(a, b)| [a, b])
            .collect();
        let labels = "M".repeat(count + 1) + &"V".repeat(count - 1);
        prop_assert_eq!(misfits_of(&angles, &labels), []);
        let off = off.min(angles.len() - 2);
        angles[off] += 0.1;
        angles[off + 1] -= 0.1;
        let found = misfits_of(&angles, &labels);
        let angles_missed = matches!(&found[..], [Misfit::Angles { sums, .. }]
            if (sums[0].as_thousandths() - 180_000).abs().abs_diff(100) <= 1);
        prop_assert!(angles_missed, "{found:?}");
    }
}
