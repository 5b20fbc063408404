//! What a dragged end of a line catches on.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use foldwright_engine::length::{Length, Step};
use foldwright_engine::pattern::{LineKind, TOUCHES_WITHIN};
use foldwright_engine::plane::{PieceFrame, Point, Segment};
use foldwright_engine::recipe::{Catch, Fold, Recipe, Runs, StripId, snap};
use plain::Plain;
use proptest::prelude::*;
use strips::strip;

const VALLEY: LineKind = LineKind::Crease(Fold::Valley);

type At = Point<PieceFrame>;

fn at(x: i64, y: i64) -> At {
    Point::new(Length::mm(x), Length::mm(y))
}

/// 150 × 100 mm with scores at 40 and 90 mm.
fn three() -> Recipe {
    strip(
        &[40, 50, 60].map(Length::mm),
        Length::mm(100),
        "VM",
        2,
        Runs::Across,
    )
}

#[test]
fn a_dragged_end_catches_on_what_is_near() {
    let mut recipe = three();
    recipe.notation.step = Step::Millimetre;
    let mut draw = |from, to| {
        let added = recipe.add_line(StripId::Base, VALLEY, from, to, &Plain);
        added.expect("it is on paper").id
    };
    draw(at(100, 20), at(140, 60));
    draw(at(100, 60), at(140, 20));
    let held = draw(at(10, 10), at(20, 10));
    let near = |x: i64, y: i64| {
        let place = Point::new(Length::hundredths_mm(x), Length::hundredths_mm(y));
        recipe.snapped(held, place, Length::mm(2))
    };
    // An end, the crossing, the line at a mark, the score at 40 mm, no line.
    assert_eq!(near(10_070, 2_090), at(100, 20));
    assert_eq!(near(12_100, 4_040), at(120, 40));
    assert_eq!(near(11_140, 3_020), at(111, 31));
    assert_eq!(near(4_150, 3_340), at(40, 33));
    assert_eq!(near(6_030, 3_360), at(60, 34));
    // Beyond the paper, its edge and its corner.
    assert_eq!(near(6_030, -900), at(60, 0));
    assert_eq!(near(99_000, 99_000), at(150, 100));
    // A line does not catch on itself.
    assert_eq!(near(1_060, 1_060), at(11, 11));
}

#[test]
fn a_line_dragged_whole_keeps_its_shape() {
    let mut recipe = three();
    recipe.notation.step = Step::Millimetre;
    let added = recipe.add_line(StripId::Base, VALLEY, at(100, 20), at(120, 40), &Plain);
    let id = added.expect("it is on paper").id;
    let dragged = |x: i64, y: i64| {
        let moved = |at: At| {
            let by = [x, y].map(Length::hundredths_mm);
            Point::new(at.x + by[0], at.y + by[1])
        };
        let line = Segment::new(moved(at(100, 20)), moved(at(120, 40)));
        recipe.line_snapped(id, line, Length::mm(2))
    };
    assert_eq!(dragged(540, 330), Segment::new(at(105, 23), at(125, 43)));
    // Its start on the score at 90 mm, its end on the far corner.
    assert_eq!(dragged(-910, 30), Segment::new(at(90, 20), at(110, 40)));
    assert_eq!(
        dragged(2_900, 5_900),
        Segment::new(at(130, 80), at(150, 100))
    );
    // Pushed off the paper it stays on it.
    assert_eq!(
        dragged(9_000, -3_000),
        Segment::new(at(130, 0), at(150, 20))
    );
}

fn anywhere() -> impl Strategy<Value = At> {
    let length = prop_oneof![
        any::<i64>(),
        -20_000_000_i64..20_000_000,
        prop::sample::select(vec![i64::MIN, -1, 0, 1, i64::MAX]),
    ]
    .prop_map(Length::from_units);
    (length.clone(), length).prop_map(|(x, y)| Point::new(x, y))
}

fn on_paper() -> impl Strategy<Value = At> {
    // Coarse, so that ends often meet scores, edges and each other.
    (0_i64..=15, 0_i64..=10).prop_map(|(x, y)| at(x * 10, y * 10))
}

fn steps() -> impl Strategy<Value = Step> {
    prop::sample::select(vec![
        Step::Eighth,
        Step::SixtyFourth,
        Step::Millimetre,
        Step::TenthMillimetre,
    ])
}

proptest! {
    #[test]
    fn snapping_takes_any_input(
        place in anywhere(),
        step in steps(),
        reach in any::<i64>(),
        guides in prop::collection::vec((anywhere(), anywhere()), 0..6),
    ) {
        let guides: Vec<_> = guides.into_iter().map(|(from, to)| Segment::new(from, to)).collect();
        let (to, catch) = snap(place, step, Length::from_units(reach), &guides);
        if catch == Catch::End {
            prop_assert!(guides.iter().any(|guide| [guide.from, guide.to].contains(&to)));
        }
        let mut recipe = three();
        let _ = recipe.add_line(StripId::Base, VALLEY, place, to, &Plain);
        prop_assert_eq!(recipe.check(), []);
    }

    #[test]
    fn snapping_keeps_its_word(
        place in (0_i64..150_000, 0_i64..100_000),
        step in steps(),
        reach in 0_i64..5000,
        guides in prop::collection::vec((on_paper(), on_paper()), 0..6),
    ) {
        let place = Point::new(Length::microns(place.0), Length::microns(place.1));
        let reach = Length::microns(reach);
        let guides: Vec<Segment<PieceFrame>> =
            guides.into_iter().map(|(from, to)| Segment::new(from, to)).collect();
        let (to, catch) = snap(place, step, reach, &guides);
        let moved = Segment::new(place, to).length();
        let unit = Length::from_units(1);
        let near_end = guides
            .iter()
            .flat_map(|guide| [guide.from, guide.to])
            .map(|end| Segment::new(place, end).length())
            .min()
            .filter(|far| *far <= reach);
        let is_mark = |at: Length| at.units() % step.length().units() == 0;
        let guides_there = guides.iter().filter(|guide| {
            guide.touches(to)
                || guide.is_near(to, unit)
                || [guide.from, guide.to]
                    .iter()
                    .any(|end| Segment::new(*end, to).length() <= TOUCHES_WITHIN)
        });
        let guides_there = guides_there.count();
        match catch {
            Catch::End => prop_assert_eq!(Some(moved), near_end),
            Catch::Crossing => {
                prop_assert_eq!(near_end, None);
                prop_assert!(moved <= reach);
                prop_assert!(guides_there >= 2);
            }
            Catch::Line => {
                prop_assert_eq!(near_end, None);
                prop_assert!(guides_there >= 1);
                prop_assert!(moved <= reach + step.length());
            }
            Catch::Mark => {
                prop_assert!(is_mark(to.x) && is_mark(to.y));
                prop_assert!(moved <= step.length());
            }
        }
    }
}
