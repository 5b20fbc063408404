//! Scores in the wrong place, worked out by hand.

use foldwright_engine::length::Length;
use foldwright_engine::recipe::{Recipe, StripId};
use foldwright_engine::refit::Condition;
use foldwright_engine::rescue::{Against, Hurdle, Note, Offer, Part, Remark, Way};
use foldwright_engine::steps::{Along, StepKey};

use crate::shared::{CUT_BASE, INCHES, MILLIMETRES, SCORE_BASE, Table, parts, sizes, starter};

fn inches(sixteenths: i64) -> Length {
    Length::sixty_fourths(4 * sixteenths)
}

fn way(offers: &[Offer], way: Way) -> Option<&Offer> {
    offers.iter().find(|offer| offer.way == way)
}

fn widths(recipe: &Recipe) -> Vec<Length> {
    let panels = recipe.base.panels.iter();
    panels.map(|panel| recipe.value(panel.width)).collect()
}

/// The middle score of a book card at 4 3/8 in instead of 4 1/4 in: the halves
/// are no longer equal, unless the wider one is cut down; by hand, 4 1/8 in
/// each.
#[test]
fn a_book_scored_off_the_middle_is_cut_down() {
    let recipe = starter("book", INCHES);
    let table = Table::at(recipe, SCORE_BASE);
    let miscut = table.miscut(SCORE_BASE, &[Some(inches(70))], 1);
    let rescue = table.rescue(&miscut);
    assert!(way(&rescue.offers, Way::Keep).is_none());
    let Some(Against::Hurdles(hurdles)) = &rescue.not_kept else {
        panic!("{:?}", rescue.not_kept);
    };
    let [front, back] = [0, 1].map(|panel| table.recipe.base.panels[panel].width);
    let mut rules = table.recipe.relations.iter();
    let equal = rules.find(|it| it.mentions(front) && it.mentions(back));
    let equal = Hurdle::Holds(Condition::Rule(equal.expect("it is a rule").clone()));
    assert!(hurdles.contains(&equal), "{hurdles:?}");
    let trim = way(&rescue.offers, Way::Trim).expect("it can be cut down");
    assert_eq!(widths(&trim.recipe), [inches(66), inches(66)]);
    let again = way(&rescue.offers, Way::ScoreAgain).expect("it can be scored again");
    assert_eq!(again.recipe, table.recipe);
    let remarks = again.remarks(&table.plan(), &miscut);
    assert!(
        remarks.contains(&Remark::Note(Note::SecondLine)),
        "{remarks:?}"
    );
    let last = rescue.offers.last().expect("a last one");
    assert_eq!((last.way, last.step), (Way::Recut, Some(CUT_BASE)));
}

/// The first score of a gate card 2 mm too far, the second not made yet: the
/// leaves stay equal and grow into the gap. By hand: both leaves 2 mm wider, the
/// middle 4 mm narrower.
#[test]
fn a_gate_follows_its_first_leaf_while_the_gap_is_wide() {
    let mut recipe = starter("gate", MILLIMETRES);
    let gap = recipe
        .measures
        .iter()
        .find(|it| it.name == "gap between the leaves")
        .expect("a gap")
        .id;
    recipe.set(gap, Length::mm(10)).expect("it gives way");
    let before = widths(&recipe);
    let table = Table::at(recipe, SCORE_BASE);
    let marks = table.card.chart.passes[0].marks.len();
    assert_eq!(marks, 2);
    let wrong = before[0] + Length::mm(2);
    let miscut = table.miscut(SCORE_BASE, &[Some(wrong), None], 1);
    let rescue = table.rescue(&miscut);
    let keep = way(&rescue.offers, Way::Keep).expect("it goes together");
    let expected = [
        before[0] + Length::mm(2),
        before[1] - Length::mm(4),
        before[2] + Length::mm(2),
    ];
    assert_eq!(widths(&keep.recipe), expected);
    // The other score is still to be made.
    assert_eq!(keep.step, Some(SCORE_BASE));
    assert!(!keep.second_line);
    // With both made, the leaves differ and can't both stay.
    let second = table.card.chart.passes[0].marks[1].exact;
    let miscut = table.miscut(SCORE_BASE, &[Some(wrong), Some(second)], 1);
    let rescue = table.rescue(&miscut);
    assert!(way(&rescue.offers, Way::Keep).is_none());
    assert!(way(&rescue.offers, Way::Recut).is_some());
}

/// A strip found too long once it is scored: the scores stay where they are from
/// the stop, and what is too long is cut off. By hand: as planned.
#[test]
fn a_scored_strip_too_long_is_cut_down() {
    let recipe = starter("z", MILLIMETRES);
    let table = Table::at(recipe, StepKey::Fold(Along::Score(1), 1));
    let [length, height] = sizes(&table.recipe, parts(&table.recipe)[0]);
    let miscut = table.miscut(CUT_BASE, &[Some(length + Length::mm(4)), Some(height)], 1);
    let rescue = table.rescue(&miscut);
    assert_eq!(rescue.offers[0].way, Way::Trim);
    assert_eq!(rescue.offers[0].recipe, table.recipe);
    assert_eq!(
        rescue.offers[0].step,
        Some(StepKey::Trim(Part::Strip(StripId::Base)))
    );
    assert_eq!(rescue.offers[0].done[&SCORE_BASE], 1);
}

/// The scores of a letter fold may move together: panels that are folded in stay
/// shorter by their allowance.
#[test]
fn scores_off_the_strip_are_refused() {
    let table = Table::at(starter("letter", INCHES), SCORE_BASE);
    let planned: Vec<_> = table.card.chart.passes[0]
        .marks
        .iter()
        .map(|mark| Some(mark.exact))
        .collect();
    let mut swapped = planned.clone();
    swapped.reverse();
    let miscut = table.miscut(SCORE_BASE, &swapped, 1);
    assert!(foldwright_engine::rescue::rescue(&table.plan(), &miscut).is_err());
    let mut off = planned;
    off[1] = Some(Length::inches(30));
    let miscut = table.miscut(SCORE_BASE, &off, 1);
    assert!(foldwright_engine::rescue::rescue(&table.plan(), &miscut).is_err());
}
