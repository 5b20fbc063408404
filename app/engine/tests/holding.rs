//! Pinning, tying and limiting numbers, and how much each relation matters.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::recipe::{
    Clash, EditError, Holds, MeasureId, Recipe, Relation, read, starters, write,
};

const METRIC: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Point,
};

fn book() -> Recipe {
    let starter = starters().iter().find(|starter| starter.id == "book");
    starter.expect("the book card").recipe_in(METRIC)
}

fn named(recipe: &Recipe, name: &str) -> MeasureId {
    let mut measures = recipe.measures.iter();
    let measure = measures.find(|measure| measure.name == name);
    measure.expect("a measure of that name").id
}

/// Height and width are tied at what they are apart, and stay so.
#[test]
fn a_tie_keeps_numbers_apart() {
    let mut card = book();
    let (width, height) = (named(&card, "card width"), named(&card, "card height"));
    assert_eq!(card.tie_apart(height, width).expect("a tie"), []);
    card.set(width, Length::mm(90)).expect("a narrower card");
    assert_eq!(card.value(height), Length::mm(90 + 148 - 105));
    let tie = card.relations.last().expect("the tie");
    let expected = Relation {
        plus: Length::mm(43),
        ..Relation::same(height, width)
    };
    assert_eq!(*tie, expected);
    assert_eq!(tie.holds, Holds::Must);
    let count = card.relations.len();
    card.tie_apart(height, width).expect("once more");
    assert_eq!(card.relations.len(), count);
}

/// Equal numbers stay equal, whichever of them is changed.
#[test]
fn a_tie_makes_numbers_equal() {
    let mut card = book();
    let (width, height) = (named(&card, "card width"), named(&card, "card height"));
    let moved = card.tie_equal(height, width).expect("a tie");
    assert!(moved.iter().any(|change| change.measure == height));
    assert_eq!(card.value(height), Length::mm(105));
    card.set(height, Length::mm(120)).expect("a larger square");
    assert_eq!(card.value(width), Length::mm(120));
    let place = card.relations.len() - 1;
    card.untie(place).expect("the tie");
    card.set(height, Length::mm(150)).expect("no longer square");
    assert_eq!(card.value(width), Length::mm(120));
}

/// What can't be is refused, and leaves the recipe as it was.
#[test]
fn what_cannot_be_tied_changes_nothing() {
    let mut card = book();
    let (width, height) = (named(&card, "card width"), named(&card, "card height"));
    card.pin(width, true).expect("a pin");
    card.pin(height, true).expect("a pin");
    let before = card.clone();
    let clash = card.tie_equal(height, width);
    assert!(matches!(
        clash,
        Err(EditError::Clash(Clash::Relations { .. }))
    ));
    assert_eq!(card, before);
    assert_eq!(card.tie_equal(width, width), Err(EditError::NoMeasure));
    assert_eq!(
        card.tie_apart(MeasureId(4000), width),
        Err(EditError::NoMeasure)
    );
    assert_eq!(card.untie(400), Err(EditError::NoRelation));
    assert_eq!(card.let_hold(400, Holds::Must), Err(EditError::NoRelation));
    assert_eq!(card.prefer(0), Err(EditError::NoRelation));
    assert_eq!(card.prefer(400), Err(EditError::NoRelation));
    let (most, least) = (Some(Length::mm(1)), Some(Length::mm(2)));
    assert_eq!(card.limit(width, least, most), Err(EditError::Limits));
    assert_eq!(card, before);
    card.pin(height, false).expect("freed");
    card.tie_equal(height, width).expect("now it can follow");
    assert_eq!(card.value(height), card.value(width));
}

/// Limits, order and weight are kept with the recipe.
#[test]
fn what_holds_is_kept() {
    let mut card = book();
    let width = named(&card, "card width");
    let (least, most) = (Some(Length::mm(80)), Some(Length::mm(110)));
    card.limit(width, least, most).expect("limits");
    let measure = card.measure(width).expect("it is there");
    assert_eq!((measure.least, measure.most), (least, most));
    let end = card.relations.len() - 1;
    let moved = card.relations[end].clone();
    card.prefer(end).expect("it moves up");
    assert_eq!(card.relations[end - 1], moved);
    let height = named(&card, "card height");
    card.tie_apart(height, width).expect("a tie");
    card.let_hold(end + 1, Holds::Should).expect("it gives way");
    assert_eq!(card.relations[end + 1].holds, Holds::Should);
    card.let_hold(end + 1, Holds::Must).expect("it holds");
    assert_eq!(card.broken(), []);
    let kept = read(&write(std::slice::from_ref(&card))).expect("a file");
    assert_eq!(kept, [card]);
}
