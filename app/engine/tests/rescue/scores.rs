//! Scores in the wrong place, worked out by hand.

use foldwright_engine::length::Length;
use foldwright_engine::recipe::Recipe;
use foldwright_engine::rescue::{Offer, Way, offer_notes};

use crate::shared::{INCHES, MILLIMETRES, Table, parts, sizes, starter};

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
    let table = Table::at(recipe, "score-0");
    let miscut = table.miscut("score-0", &[Some(inches(70))], 1);
    let rescue = table.rescue(&miscut);
    assert!(way(&rescue.offers, Way::Keep).is_none());
    let why = rescue.not_kept.as_deref().expect("it is said why");
    assert!(why.contains("front width = back width"), "{why}");
    let trim = way(&rescue.offers, Way::Trim).expect("it can be cut down");
    assert_eq!(widths(&trim.recipe), [inches(66), inches(66)]);
    let again = way(&rescue.offers, Way::ScoreAgain).expect("it can be scored again");
    assert_eq!(again.recipe, table.recipe);
    let notes = offer_notes(&table.plan(), &miscut, again);
    assert!(
        notes.iter().any(|note| note.contains("stays visible")),
        "{notes:?}"
    );
    let last = rescue.offers.last().expect("a last one");
    assert_eq!((last.way, last.step.as_str()), (Way::Recut, "cut-strip"));
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
    let table = Table::at(recipe, "score-0");
    let marks = table.card.chart.passes[0].marks.len();
    assert_eq!(marks, 2);
    let wrong = before[0] + Length::mm(2);
    let miscut = table.miscut("score-0", &[Some(wrong), None], 1);
    let rescue = table.rescue(&miscut);
    let keep = way(&rescue.offers, Way::Keep).expect("it goes together");
    let expected = [
        before[0] + Length::mm(2),
        before[1] - Length::mm(4),
        before[2] + Length::mm(2),
    ];
    assert_eq!(widths(&keep.recipe), expected);
    // The other score is still to be made.
    assert_eq!(keep.step, "score-0");
    assert!(!keep.second_line);
    // With both made, the leaves differ and can't both stay.
    let second = table.card.chart.passes[0].marks[1].exact;
    let miscut = table.miscut("score-0", &[Some(wrong), Some(second)], 1);
    let rescue = table.rescue(&miscut);
    assert!(way(&rescue.offers, Way::Keep).is_none());
    assert!(way(&rescue.offers, Way::Recut).is_some());
}

/// A strip found too long once it is scored: the scores stay where they are from
/// the stop, and what is too long is cut off. By hand: as planned.
#[test]
fn a_scored_strip_too_long_is_cut_down() {
    let recipe = starter("z", MILLIMETRES);
    let table = Table::at(recipe, "fold-1");
    let [length, height] = sizes(&table.recipe, parts(&table.recipe)[0]);
    let miscut = table.miscut(
        "cut-strip",
        &[Some(length + Length::mm(4)), Some(height)],
        1,
    );
    let rescue = table.rescue(&miscut);
    assert_eq!(rescue.offers[0].way, Way::Trim);
    assert_eq!(rescue.offers[0].recipe, table.recipe);
    assert_eq!(rescue.offers[0].step, "trim-strip");
    assert_eq!(rescue.offers[0].done["score-0"], 1);
}

/// The scores of a letter fold may move together: panels that are folded in stay
/// shorter by their allowance.
#[test]
fn scores_off_the_strip_are_refused() {
    let table = Table::at(starter("letter", INCHES), "score-0");
    let planned: Vec<_> = table.card.chart.passes[0]
        .marks
        .iter()
        .map(|mark| Some(mark.exact))
        .collect();
    let mut swapped = planned.clone();
    swapped.reverse();
    let miscut = table.miscut("score-0", &swapped, 1);
    assert!(foldwright_engine::rescue::rescue(&table.plan(), &miscut).is_err());
    let mut off = planned;
    off[1] = Some(Length::inches(30));
    let miscut = table.miscut("score-0", &off, 1);
    assert!(foldwright_engine::rescue::rescue(&table.plan(), &miscut).is_err());
}
