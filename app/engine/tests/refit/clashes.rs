//! What cannot be, and what leads out of it.

use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::{ClearanceRule, Envelope};
use foldwright_engine::recipe::{Holds, Is, LayerKind, Relation, Seat, Term};
use foldwright_engine::refit::{
    Cause, Clash, Condition, Free, Outcome, Release, Wish, off_marks, refit,
};

use crate::held::starter;
use crate::plain::Plain;

const INCHES: Notation = Notation {
    step: Step::Sixteenth,
    decimal: DecimalMark::Point,
};
const METRIC: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Point,
};

#[test]
fn a_pinned_panel_and_an_envelope() {
    let mut card = starter("book", INCHES);
    let front = card.base.panels[0].width;
    card.pin(front, true).expect("it is there");
    card.pin(card.base.height, true).expect("it is there");
    let envelope = Envelope::by_id("na-a1").expect("known");
    let rule = ClearanceRule::by_id("eighth-round").expect("known");
    let wish = Wish {
        envelope: Some((envelope, rule)),
        ..Wish::default()
    };
    let clash = refit(&card, &wish).expect_err("4 1/4 in does not go into A1 with room");
    let ways = clash.ways_out(&card, &wish);
    let frees: Vec<_> = ways.iter().map(|way| way.frees.clone()).collect();
    let frees_alone = [Free::Wish(Cause::Envelope), Free::Unpin(card.base.height)];
    assert_eq!(frees, frees_alone.map(|free| vec![free]));
    let releases = frees_alone.map(|free| free.release(&card, &wish).expect("it is there"));
    assert_eq!(
        releases,
        [Release::Envelope, Release::Unpin(card.base.height)]
    );
    let Clash::Between { causes, marks, .. } = &clash else {
        panic!("{clash:?}");
    };
    assert!(!marks);
    let conditions: Vec<_> = causes
        .iter()
        .filter_map(|cause| cause.condition(&card, &wish))
        .collect();
    let height = Length::sixty_fourths(352);
    assert_eq!(
        conditions,
        [
            Condition::Goes(envelope),
            Condition::Pinned(card.base.height, height)
        ]
    );
    card.pin(card.base.height, false).expect("it is there");
    assert!(refit(&card, &wish).is_ok());
}

/// Two equal panels cannot make an odd number of marks.
#[test]
fn marks_can_be_too_coarse() {
    let card = starter("book", METRIC);
    let mut wish = Wish {
        pinned: vec![(card.base.length, Length::mm(211))],
        ..Wish::default()
    };
    let clash = refit(&card, &wish).expect_err("211 mm is odd");
    let Clash::Between { causes, marks, .. } = &clash else {
        panic!("{clash:?}");
    };
    assert!(marks);
    assert!(causes.contains(&Cause::Asked(card.base.length)));
    wish.notation = Some(Notation {
        step: Step::HalfMillimetre,
        ..METRIC
    });
    let found = refit(&card, &wish).expect("105.5 mm each");
    assert_eq!(found.recipe.value(card.base.length), Length::mm(211));
}

/// What came out between two marks stays, and one panel takes it up.
#[test]
fn a_miscut_between_marks_is_kept_exactly() {
    let mut card = starter("book", METRIC);
    card.relations.clear();
    let length = card.base.length;
    let cut = Length::hundredths_mm(20_840);
    let wish = Wish {
        pinned: vec![(length, cut)],
        ..Wish::default()
    };
    let found = refit(&card, &wish).expect("one panel is shorter");
    let panels = card.base.panels.iter().map(|panel| panel.width);
    let sum: Length = panels.clone().map(|id| found.recipe.value(id)).sum();
    assert_eq!(sum, cut);
    let off = panels.filter(|id| found.off_marks.contains(id));
    assert_eq!(off.count(), 1);
    assert!(found.off_marks.contains(&length));
    let Some(Outcome::OffMarks(told)) = off_marks(&found) else {
        panic!("there are some");
    };
    assert!(
        told.contains(&(length, Length::hundredths_mm(20_840))),
        "{told:?}"
    );
}

/// A centred piece may have to lie halfway between marks, and nothing else.
#[test]
fn a_centred_piece_lies_between_marks_where_it_must() {
    let mut card = starter("tent", METRIC);
    let face = card.upright[0];
    let seat = Seat::Face(face);
    let piece = card
        .add_layer(seat, LayerKind::Focal, &Plain)
        .expect("a piece")
        .id;
    let layer = card.layer(piece).expect("just added").clone();
    let wish = Wish {
        pinned: vec![
            (layer.width, Length::mm(75)),
            (layer.height, Length::mm(52)),
            (card.base.height, Length::mm(148)),
            (card.base.panels[0].width, Length::mm(104)),
        ],
        ..Wish::default()
    };
    let found = refit(&card, &wish).expect("a card");
    assert_eq!(found.off_marks, [layer.left]);
    assert_eq!(found.recipe.value(layer.left), Length::hundredths_mm(3650));
}

/// What should hold is given up from the least important on.
#[test]
fn less_important_wishes_go_first() {
    let mut card = starter("book", METRIC);
    let border = card.measures.iter().find(|it| it.name == "mat border");
    let border = border.expect("a border").id;
    let at_least = |plus, is| Relation {
        left: vec![Term {
            times: 1,
            of: border,
        }],
        is,
        right: Vec::new(),
        plus,
        holds: Holds::Should,
    };
    let own = card.relations.len();
    card.relations.push(at_least(Length::mm(6), Is::AtLeast));
    card.relations.push(at_least(Length::mm(4), Is::AtMost));
    let found = refit(&card, &Wish::default()).expect("a card");
    assert_eq!(found.recipe.value(border), Length::mm(6));
    assert_eq!(found.given_up, [Cause::Relation(own + 1)]);
    card.relations.swap(own, own + 1);
    let found = refit(&card, &Wish::default()).expect("a card");
    assert_eq!(found.recipe.value(border), Length::mm(3));
    assert_eq!(found.given_up, [Cause::Relation(own + 1)]);
}
