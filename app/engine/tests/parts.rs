//! Which part of the paper is the card where cuts part it.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::draw::{Target, flat};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::pattern::LineKind;
use foldwright_engine::plane::{Point, Size};
use foldwright_engine::problem::{Finding, LaidFinding, Place, Weight};
use foldwright_engine::recipe::{
    Fold, Kept, MeasureId, PanelId, Recipe, Runs, Side, StripId, read, starters, write,
};
use foldwright_engine::seen::{Fallen, Third, fallen};
use plain::Plain;
use strips::strip;

const VALLEY: LineKind = LineKind::Crease(Fold::Valley);

/// A sheet of 12 × 12 in whose corners of 4 × 4 in are cut off, the four arms
/// folded over the middle.
fn cross() -> Recipe {
    let mut recipe = strip(
        &[Length::inches(12)],
        Length::inches(12),
        "",
        0,
        Runs::Across,
    );
    for (kind, [x1, y1, x2, y2]) in [
        (LineKind::Cut, [4, 0, 4, 4]),
        (LineKind::Cut, [0, 4, 4, 4]),
        (LineKind::Cut, [8, 0, 8, 4]),
        (LineKind::Cut, [8, 4, 12, 4]),
        (LineKind::Cut, [4, 8, 4, 12]),
        (LineKind::Cut, [0, 8, 4, 8]),
        (LineKind::Cut, [8, 8, 8, 12]),
        (LineKind::Cut, [8, 8, 12, 8]),
        (VALLEY, [4, 4, 4, 8]),
        (VALLEY, [8, 4, 8, 8]),
        (VALLEY, [4, 4, 8, 4]),
        (VALLEY, [4, 8, 8, 8]),
    ] {
        let at = |x, y| Point::new(Length::inches(x), Length::inches(y));
        recipe
            .add_line(StripId::Base, kind, at(x1, y1), at(x2, y2), &Plain)
            .expect("it can be drawn");
    }
    recipe
}

fn card(recipe: &Recipe) -> Card {
    work_out(recipe, &Tools::default())
}

/// What is kept, in square inches.
fn area(card: &Card) -> i128 {
    let square = i128::from(Length::inches(1).units()).pow(2);
    let panels = card.laid.panels_of(&card.laid.base).iter();
    let twice: i128 = panels.map(|panel| panel.facet.twice_area()).sum();
    assert_eq!(twice % (2 * square), 0);
    twice / (2 * square)
}

fn asked(card: &Card) -> Vec<Finding> {
    let problems = card.problems.iter();
    let asked = problems.filter(|it| matches!(it.place, Place::Fallen { .. }));
    asked.map(|problem| problem.finding.clone()).collect()
}

/// Worked by hand: of 144 square inches four corners of 16 fall off, and 80
/// hang together.
#[test]
fn what_hangs_together_is_the_card() {
    let recipe = cross();
    let card = card(&recipe);
    assert_eq!(area(&card), 80);
    assert_eq!(card.laid.panels.len(), 5);
    assert_eq!(card.laid.base.fallen.len(), 4);
    assert!(card.folded.is_some());
    let falls = LaidFinding::Falls {
        of: StripId::Base,
        parts: 4,
    };
    assert_eq!(asked(&card), [Finding::Laid(falls)]);
    // The paper of these tests is Letter.
    let stops = card.problems.iter();
    let mut stops = stops.filter(|it| it.weight == Weight::Stop);
    assert!(stops.all(|it| it.place == Place::Paper));
}

/// What the maker said is kept stays so when the sheet is made half as large,
/// and in a file; the parts that fall off then are said no more.
#[test]
fn the_part_that_is_tapped_is_kept() {
    let mut recipe = cross();
    let drawn = flat(&recipe, &card(&recipe), StripId::Base, Side::A);
    // 2 in from the right and the top, in millimetres.
    let hits = drawn.hits([254.0, 254.0], 5.0);
    let hit = *hits.first().expect("a corner");
    let Target::Fallen {
        of: StripId::Base,
        part,
    } = hit
    else {
        panic!("it falls off: {hit:?}");
    };
    let targets = drawn.targets();
    let chosen = targets
        .iter()
        .filter(|(target, _)| matches!(target, Target::Fallen { .. }));
    assert_eq!(chosen.count(), 4, "each can be chosen without a finger");
    let seen = fallen(&card(&recipe), StripId::Base, part).expect("it falls off");
    let side = Length::inches(4);
    let expected = Fallen {
        size: Size {
            width: side,
            height: side,
        },
        across: Third::Last,
        up: Third::Last,
    };
    assert_eq!(seen, expected);
    let keep = card(&recipe)
        .laid
        .keeping(&recipe, StripId::Base, Some(part));
    let keep = keep.expect("it is wide enough");
    recipe.keep_part(StripId::Base, keep).expect("it is there");
    let kept = card(&recipe);
    assert_eq!(area(&kept), 16);
    assert_eq!(
        kept.laid.base.fallen.len(),
        4,
        "the cross and three corners"
    );
    assert_eq!(asked(&kept), []);
    let corner = kept.laid.panels[0].facet.outline.bounds().expect("a panel");
    assert_eq!(corner.low, Point::new(Length::inches(8), Length::inches(8)));

    let again = read(&write(std::slice::from_ref(&recipe))).expect("it was written");
    assert_eq!(again, [recipe.clone()]);

    let halves: Vec<(MeasureId, Length)> = recipe
        .measures
        .iter()
        .map(|measure| (measure.id, measure.value.half_down()))
        .collect();
    recipe.settle(&halves, &[], &[]).expect("all halves fit");
    let smaller = card(&recipe);
    assert_eq!(area(&smaller), 4);
    let corner = smaller.laid.panels[0]
        .facet
        .outline
        .bounds()
        .expect("a panel");
    assert_eq!(corner.low, Point::new(Length::inches(4), Length::inches(4)));
}

/// Kept as it is, nothing is asked; a spot on a panel that is gone, or on a
/// hole, is as if none had been said.
#[test]
fn what_is_kept_can_be_said_without_a_change() {
    let mut recipe = cross();
    let keep = card(&recipe).laid.keeping(&recipe, StripId::Base, None);
    recipe
        .keep_part(StripId::Base, keep.expect("it is wide enough"))
        .expect("it is there");
    assert_eq!(area(&card(&recipe)), 80);
    assert_eq!(asked(&card(&recipe)), []);
    recipe.base.keep = Some(Kept {
        panel: PanelId(77),
        along: 500,
        across: 60_000,
    });
    assert_eq!(recipe.check(), []);
    assert_eq!(area(&card(&recipe)), 80);
    assert_eq!(asked(&card(&recipe)).len(), 1);
}

/// What is cut off the starting folds is meant to be, so nothing is asked.
#[test]
fn starting_folds_say_what_is_kept() {
    let millimetres = Notation {
        step: Step::Millimetre,
        decimal: DecimalMark::Point,
    };
    let mut fallen = 0;
    for starter in starters() {
        for recipe in [starter.recipe.clone(), starter.recipe_in(millimetres)] {
            let card = card(&recipe);
            let pieces = card.laid.all_pieces();
            fallen += pieces.map(|piece| piece.fallen.len()).sum::<usize>();
            assert_eq!(asked(&card), [], "{}", starter.id);
        }
    }
    assert!(fallen >= 8, "{fallen}");
}
