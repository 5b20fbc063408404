//! Lines and placements at any angle.

#![expect(
    clippy::cast_possible_truncation,
    reason = "a test's points lie well within a metre"
)]

use std::cmp::Ordering;

use foldwright_engine::length::Length;
use foldwright_engine::plane::{Bearing, PieceFrame, Placement, Point, Segment, Turn};
use proptest::prelude::{Strategy, any, prop_assert, prop_assert_eq, prop_assume, proptest};

type Spot = Point<PieceFrame>;
type Course = Segment<PieceFrame>;
type Place = Placement<PieceFrame, PieceFrame>;

fn spot(x: i64, y: i64) -> Spot {
    Point::new(Length::from_units(x), Length::from_units(y))
}

fn course(from: (i64, i64), to: (i64, i64)) -> Course {
    Segment::new(spot(from.0, from.1), spot(to.0, to.1))
}

fn anywhere() -> impl Strategy<Value = Spot> {
    (any::<i64>(), any::<i64>()).prop_map(|(x, y)| spot(x, y))
}

fn near() -> impl Strategy<Value = Spot> {
    (-6_i64..=6, -6_i64..=6).prop_map(|(x, y)| spot(x, y))
}

fn on_paper() -> impl Strategy<Value = Spot> {
    let far = Length::mm(1000).units();
    (-far..=far, -far..=far).prop_map(|(x, y)| spot(x, y))
}

#[test]
fn a_line_that_is_almost_a_diagonal_mirrors_as_one() {
    let line = course((-22_859_996, -49_621_781), (68_099_468, 41_337_229));
    let over = Place::over(&line).expect("a line");
    assert!(over.turn.quarter().is_some(), "{:?}", over.turn);
    assert_eq!(over.point(line.from), line.from);
    // 336 units wider than high: each corner of the diagonal's square misses
    // by as much in both directions.
    let off = over.point(line.to);
    let missed = (off.x - line.to.x, off.y - line.to.y);
    assert_eq!(missed, (Length::from_units(-454), Length::from_units(454)));
}

#[test]
fn sides_are_told_exactly_at_the_ends_of_the_range() {
    let (low, high) = (i64::MIN, i64::MAX);
    let diagonal = course((low, low), (high, high));
    assert_eq!(diagonal.side_of(spot(0, 0)), Ordering::Equal);
    assert_eq!(diagonal.side_of(spot(high - 1, high)), Ordering::Greater);
    assert_eq!(diagonal.side_of(spot(high, high - 1)), Ordering::Less);
    assert!(diagonal.touches(spot(-7, -7)), "a point of the diagonal");
    assert!(
        diagonal.crosses(&course((low, high), (high, low))),
        "the diagonals of the whole range cross"
    );
}

#[test]
fn lines_that_share_a_stretch_overlap_and_those_that_share_an_end_do_not() {
    let line = course((0, 0), (4, 2));
    assert!(line.overlaps(&course((6, 3), (2, 1))), "a shared stretch");
    assert!(!line.overlaps(&course((4, 2), (6, 3))), "a shared end");
    assert!(line.meets(&course((4, 2), (6, 3))), "a shared end");
    assert!(!line.overlaps(&course((0, 1), (4, 3))), "side by side");
    assert!(!line.crosses(&course((2, 1), (2, 9))), "a line ends on it");
    assert_eq!(
        line.crossing(&course((0, 2), (4, 0))),
        Some(spot(2, 1)),
        "crossing in the middle"
    );
}

#[test]
fn mirroring_in_upright_level_and_diagonal_lines_is_exact() {
    let over = |from, to| Place::over(&course(from, to)).expect("the line has a length");
    assert_eq!(
        over((5, -3), (5, 9)),
        Placement::over_upright(Length::from_units(5)),
        "the same as over a score"
    );
    assert_eq!(over((0, 4), (9, 4)).point(spot(3, 1)), spot(3, 7));
    let diagonal = over((1, 0), (8, 7));
    assert_eq!(diagonal.turn.quarter(), Some(Turn::Right));
    assert_eq!(diagonal.point(spot(11, 3)), spot(4, 10));
    assert!(Place::over(&course((2, 2), (2, 2))).is_none(), "no line");
}

#[test]
fn a_turn_looks_straight_up_to_half_a_degree() {
    let looks = |degrees: f64| {
        let (sin, cos) = degrees.to_radians().sin_cos();
        Bearing::towards(cos, sin)
            .expect("a direction")
            .looks_like()
    };
    assert_eq!(looks(0.4), Some(Turn::None));
    assert_eq!(looks(90.4), Some(Turn::Left));
    assert_eq!(looks(-89.6), Some(Turn::Right));
    assert_eq!(looks(180.6), None);
    assert_eq!(looks(45.0), None);
}

proptest! {
    #[test]
    fn sides_agree_with_each_other_anywhere(a in anywhere(), b in anywhere(), c in anywhere()) {
        let side = Segment::new(a, b).side_of(c);
        prop_assert_eq!(Segment::new(b, c).side_of(a), side);
        prop_assert_eq!(Segment::new(b, a).side_of(c), side.reverse());
    }

    #[test]
    fn lines_meet_where_counting_points_says_so(
        a in near(), b in near(), c in near(), d in near(),
    ) {
        // Solved by parameters in fractions: a + s (b - a) = c + t (d - c).
        let number = |length: Length| i128::from(length.units());
        let (ux, uy) = (number(b.x - a.x), number(b.y - a.y));
        let (vx, vy) = (number(d.x - c.x), number(d.y - c.y));
        let (wx, wy) = (number(c.x - a.x), number(c.y - a.y));
        let under = ux * vy - uy * vx;
        prop_assume!(under != 0);
        let (s, t) = ((wx * vy - wy * vx) * under, (wx * uy - wy * ux) * under);
        let whole = under * under;
        let (first, second) = (Segment::new(a, b), Segment::new(c, d));
        prop_assert_eq!(first.meets(&second), (0..=whole).contains(&s) && (0..=whole).contains(&t));
        prop_assert_eq!(
            first.crosses(&second),
            0 < s && s < whole && 0 < t && t < whole
        );
        prop_assert_eq!(first.crossing(&second), second.crossing(&first));
    }

    #[test]
    fn nearness_is_the_distance_to_the_line(
        a in on_paper(), b in on_paper(), along in 0.01_f64..0.99, off in 10.0_f64..1e7,
    ) {
        let line = Segment::new(a, b);
        prop_assume!(line.length() > Length::mm(1));
        let number = |length: Length| length.as_mm_f64() * 72_000.0;
        let (x, y) = (number(b.x - a.x), number(b.y - a.y));
        let long = x.hypot(y);
        let units = |number: f64| Length::from_units(number.round() as i64);
        let c = Point::new(
            a.x + units(along * x - off * y / long),
            a.y + units(along * y + off * x / long),
        );
        prop_assert!(line.is_near(c, units(off + 2.0)));
        prop_assert!(!line.is_near(c, units(off - 2.0)));
        prop_assert!(!Segment::new(c, c).is_near(c, units(off)));
    }

    #[test]
    fn mirroring_twice_brings_every_point_back(
        a in on_paper(), b in on_paper(), c in on_paper(),
    ) {
        prop_assume!(Segment::new(a, b).length() > Length::mm(1));
        let over = Place::over(&Segment::new(a, b)).expect("a line");
        prop_assert!(Segment::new(over.point(over.point(c)), c).length() <= Length::from_units(3));
        prop_assert!(Segment::new(over.point(a), a).length() <= Length::from_units(3));
        // A line within 5e-6 of a quarter or of a diagonal mirrors as one, and
        // its far end misses by as much of its length.
        let line = Segment::new(a, b).length().as_mm_f64();
        let snapped = over.turn.quarter().map_or(0.0, |_| line * 5e-6);
        prop_assert!(
            Segment::new(over.point(b), b).length().as_mm_f64() <= snapped + 3.0 / 72_000.0
        );
    }

    #[test]
    fn placements_follow_each_other_and_are_undone(
        lines in proptest::collection::vec((on_paper(), on_paper()), 1..6), c in on_paper(),
    ) {
        let mut one_by_one = c;
        let mut together = Place::unmoved();
        for (a, b) in lines {
            prop_assume!(Segment::new(a, b).length() > Length::mm(1));
            let over = Place::over(&Segment::new(a, b)).expect("a line");
            one_by_one = over.point(one_by_one);
            together = together.then(&over);
        }
        let moved = together.point(c);
        // Turns within 5e-6 of a quarter count as one.
        let slack = Length::microns(60);
        prop_assert!(Segment::new(moved, one_by_one).length() <= slack);
        let undone = together.back().point(moved);
        prop_assert!(Segment::new(undone, c).length() <= Length::from_units(3));
        let nowhere = together.then(&together.back());
        prop_assert!(!nowhere.mirrored);
        prop_assert_eq!(nowhere.turn.quarter(), Some(Turn::None));
        prop_assert!(nowhere.apart(&Place::unmoved(), [c]) <= Length::from_units(3));
    }

    #[test]
    fn two_mirrors_turn_by_twice_the_angle_between(
        degrees in 1_i32..179, from in on_paper(), c in on_paper(),
    ) {
        let long = 70_000_000.0;
        let end = |degrees: f64| {
            let (sin, cos) = degrees.to_radians().sin_cos();
            let part = |part: f64| Length::from_units((part * long).round() as i64);
            Point::new(from.x + part(cos), from.y + part(sin))
        };
        let level = Place::over(&Segment::new(from, end(0.0))).expect("a line");
        let slant = Place::over(&Segment::new(from, end(f64::from(degrees)))).expect("a line");
        let turned = level.then(&slant);
        prop_assert!(!turned.mirrored);
        let (cos, sin) = turned.turn.cos_sin();
        let (expected_sin, expected_cos) = f64::from(2 * degrees).to_radians().sin_cos();
        prop_assert!((cos - expected_cos).abs() < 1e-7 && (sin - expected_sin).abs() < 1e-7);
        let radius = |at: Spot| Segment::new(from, at).length();
        let change = radius(turned.point(c)) - radius(c);
        prop_assert!(change.abs() <= Length::from_units(4));
    }
}
