//! Sizes and clearances that are published.

use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::{ClearanceRule, Envelope};
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::Recipe;
use foldwright_engine::refit::{Cause, Keep, Sheet, Wish, change_words, refit};

use crate::held::starter;
use crate::starting::size;

const INCHES: Notation = Notation {
    step: Step::Sixteenth,
    decimal: DecimalMark::Point,
};
const METRIC: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Point,
};

fn widths(recipe: &Recipe) -> Vec<Length> {
    let panels = recipe.base.panels.iter();
    panels.map(|panel| recipe.value(panel.width)).collect()
}

fn on_sheet(recipe: &Recipe, sheet: &str, notation: Notation) -> Wish {
    Wish {
        sheet: Some(Sheet {
            stock: recipe.base.stock,
            size: size(sheet),
            keep: Keep::Share,
        }),
        notation: Some(notation),
        ..Wish::default()
    }
}

fn into_envelope(envelope: &str, rule: &str) -> Wish {
    let envelope = Envelope::by_id(envelope).expect("a known envelope");
    let rule = ClearanceRule::by_id(rule).expect("a known rule");
    Wish {
        envelope: Some((envelope, rule)),
        ..Wish::default()
    }
}

/// Printers' folding guides: A4 in three is 100, 100 and 97 mm.
#[test]
fn letter_in_three_becomes_a4_in_three() {
    let letter = starter("letter", INCHES);
    let wish = on_sheet(&letter, "iso-a4", METRIC);
    let found = refit(&letter, &wish).expect("A4 folds in three");
    assert_eq!(widths(&found.recipe), [100, 100, 97].map(Length::mm));
    assert_eq!(found.given_up, []);
}

/// Printers' folding guides: 11 in three is 3 11/16, 3 11/16 and 3 5/8 in.
#[test]
fn a4_in_three_becomes_letter_in_three() {
    let mut a4 = starter("letter", METRIC);
    let allowance = a4.folding_in.allowance;
    a4.set(allowance, Length::mm(3)).expect("3 mm");
    a4.set(a4.base.length, Length::mm(297)).expect("A4");
    assert_eq!(widths(&a4), [100, 100, 97].map(Length::mm));
    let wish = on_sheet(&a4, "na-letter", INCHES);
    let found = refit(&a4, &wish).expect("Letter folds in three");
    let sixteenths = [59, 59, 58].map(|count| Length::sixty_fourths(4 * count));
    assert_eq!(widths(&found.recipe), sixteenths);
}

/// ISO 216 and ISO 269: a quarter of A4 is A6, and goes into C6.
#[test]
fn a_quarter_of_letter_becomes_a6_in_c6() {
    let card = starter("book", INCHES);
    let wish = Wish {
        envelope: into_envelope("iso-c6", "iso-pairs").envelope,
        ..on_sheet(&card, "iso-a4", METRIC)
    };
    let found = refit(&card, &wish).expect("A6 goes into C6");
    let a6 = Size {
        width: Length::mm(105),
        height: Length::mm(148),
    };
    assert_eq!(found.finished, a6);
    assert_eq!(found.given_up, []);
    for moved in &found.changes {
        println!("{}", change_words(&card, &wish, &found, moved));
    }
}

/// ISO 216 and ISO 269: A5 in C5.
#[test]
fn half_of_a4_in_c5() {
    let mut card = starter("book", METRIC);
    let [length, height] = [card.base.length, card.base.height];
    card.set(length, Length::mm(300)).expect("wide");
    card.set(height, Length::mm(212)).expect("high");
    let mut wish = into_envelope("iso-c5", "iso-pairs");
    wish.sheet = on_sheet(&card, "iso-a4", METRIC).sheet;
    let found = refit(&card, &wish).expect("A5 goes into C5");
    let a5 = Size {
        width: Length::mm(148),
        height: Length::mm(210),
    };
    assert_eq!(found.finished, a5);
}

/// A printer's tips for envelopes: a 4 1/4 × 5 1/2 in card goes into A2 with
/// 1/8 in on top and at each side; a published chart allows 1/4 in each way,
/// which it does not leave.
#[test]
fn the_usual_card_in_a2() {
    let card = starter("book", INCHES);
    let close = into_envelope("na-a2", "eighth-round");
    let found = refit(&card, &close).expect("it fits as it is");
    assert_eq!(found.changes, []);
    let roomy = into_envelope("na-a2", "quarter-in-all");
    let found = refit(&card, &roomy).expect("a little smaller");
    let eighth = Length::sixty_fourths(8);
    let chart = Size {
        width: eighth * 33,
        height: eighth * 44,
    };
    assert_eq!(found.finished, chart);
    let words: Vec<_> = found
        .changes
        .iter()
        .map(|moved| change_words(&card, &roomy, &found, moved))
        .collect();
    assert_eq!(
        words,
        [
            "card width 4 1/4 → 4 1/8 in: to go into A2 announcement",
            "front width 4 1/4 → 4 1/8 in: to go into A2 announcement",
            "back width 4 1/4 → 4 1/8 in: to go into A2 announcement",
            "mat width 4 → 3 7/8 in: to go into A2 announcement",
            "strip length 8 1/2 → 8 1/4 in: to go into A2 announcement",
        ]
    );
}

/// From inches to millimetres and nothing else: each measure to its nearest
/// mark, or as near as the relations let it.
#[test]
fn inches_become_whole_millimetres() {
    let card = starter("book", INCHES);
    let mut wish = on_sheet(&card, "trade-300-mm", METRIC);
    wish.sheet = wish.sheet.map(|sheet| Sheet {
        keep: Keep::Card,
        ..sheet
    });
    let found = refit(&card, &wish).expect("a metric card");
    let size = Size {
        width: Length::mm(108),
        height: Length::mm(140),
    };
    assert_eq!(found.finished, size);
    let named = |name: &str| {
        let measures = &mut found.recipe.measures.iter();
        measures.find(|it| it.name == name).expect("known").value
    };
    assert_eq!(named("mat width"), Length::mm(102));
    assert_eq!(named("mat height"), Length::mm(134));
    assert_eq!(named("mat border"), Length::mm(3));
    let first = found.changes.first().expect("it moved");
    assert_eq!(
        change_words(&card, &wish, &found, first),
        "card width 4 1/4 in → 108 mm"
    );
    let mat = found.changes.iter().find(|moved| moved.why.is_some());
    let mat = mat.expect("one follows the rest");
    assert_eq!(mat.why, Some(Cause::Layer(card.layers[0].id)));
}
