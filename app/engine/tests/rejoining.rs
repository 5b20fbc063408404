//! Numbers that were changed in two places at once, solved again.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod strips;

use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::recipe::{
    Holds, Is, MeasureId, Recipe, Rejoined, Relation, Runs, Term, starters,
};
use strips::{HEIGHT, LENGTH, panel, strip};

const METRIC: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Point,
};

/// A card of 105 × 148 mm with a mat that leaves 3 mm all round.
fn book() -> Recipe {
    let starter = starters().iter().find(|starter| starter.id == "book");
    starter.expect("the book card").recipe_in(METRIC)
}

fn named(recipe: &Recipe, name: &str) -> MeasureId {
    let mut measures = recipe.measures.iter();
    let measure = measures.find(|measure| measure.name == name);
    measure.expect("a measure of that name").id
}

fn put(recipe: &mut Recipe, name: &str, value: Length) {
    let id = named(recipe, name);
    let mut measures = recipe.measures.iter_mut();
    measures.find(|it| it.id == id).expect("it is there").value = value;
}

/// By hand: 200 mm of strip make panels of 100 mm, less two borders of 5 mm.
#[test]
fn what_was_decided_stays_and_the_rest_follows() {
    let mut card = book();
    put(&mut card, "mat border", Length::mm(5));
    put(&mut card, "strip length", Length::mm(200));
    assert!(!card.holds_together());
    let [border, length] = ["mat border", "strip length"].map(|name| named(&card, name));
    let decided = [
        vec![(length, Length::mm(200))],
        vec![(border, Length::mm(5))],
    ];
    let rejoined = card.rejoin(&decided);
    assert_eq!(card.broken(), []);
    assert!(card.holds_together());
    for (name, millimetres) in [("mat width", 90), ("mat height", 138), ("card width", 100)] {
        assert_eq!(
            card.value(named(&card, name)),
            Length::mm(millimetres),
            "{name}"
        );
    }
    assert_eq!(rejoined.kept, [length, border]);
    assert_eq!((rejoined.left_out, rejoined.unsolved), (vec![], false));
    let moved: Vec<_> = rejoined.moved.iter().map(|it| it.measure).collect();
    assert!(moved.contains(&named(&card, "mat width")));
    // It is solved; once more changes nothing.
    let before = card.clone();
    card.rejoin(&decided);
    assert_eq!(card, before);
}

/// What was decided later comes first where two do not go together.
#[test]
fn the_last_decision_comes_first() {
    for (first, other) in [
        ("card width", "strip length"),
        ("strip length", "card width"),
    ] {
        let mut card = book();
        put(&mut card, "card width", Length::mm(100));
        put(&mut card, "strip length", Length::mm(220));
        let value = card.clone();
        let decided = [first, other].map(|name| {
            let id = named(&value, name);
            vec![(id, value.value(id))]
        });
        let rejoined = card.rejoin(&decided);
        assert_eq!(card.broken(), []);
        assert_eq!(rejoined.kept, [named(&card, first)]);
        assert_eq!(rejoined.gave_way, decided[1]);
    }
}

/// Numbers that come to the same are told as one change.
#[test]
fn tied_numbers_were_all_decided() {
    let before = book();
    let mut card = before.clone();
    let length = named(&card, "strip length");
    card.set(length, Length::mm(200)).expect("a shorter strip");
    let decided = card.decided_since(&before);
    assert!(decided.contains(&length));
    assert!(decided.contains(&named(&card, "card width")));
    assert!(!decided.contains(&named(&card, "card height")));
    assert_eq!(before.decided_since(&before), []);
}

/// By hand: the line that carries the leg moves by 1/4 in, the leg stays 2 in
/// wide, and a rule that ties the front to the end of the line makes that 1/4 in
/// wider.
#[test]
fn what_takes_an_end_along_was_decided() {
    let mut starters = starters().iter();
    let starter = starters.find(|starter| starter.id == "stand");
    let mut before = starter.expect("the card that stands").recipe.clone();
    let names = ["line from the left", "end of the line", "front width"];
    let [from, end, front] = names.map(|name| named(&before, name));
    let term = |of| vec![Term { times: 1, of }];
    before.relations.push(Relation {
        left: term(front),
        is: Is::Equal,
        right: term(end),
        plus: before.value(front) - before.value(end),
        holds: Holds::Must,
    });
    let mut card = before.clone();
    let by = Length::from_units(Length::mm(254).units() / 40);
    card.set(from, before.value(from) + by)
        .expect("there is room");
    for (name, eighths) in [
        ("line from the left", 11),
        ("end of the line", 27),
        ("leg width", 16),
        ("front width", 36),
    ] {
        let value = card.value(named(&card, name));
        assert_eq!(
            value.units() * 40,
            Length::mm(127).units() * eighths,
            "{name}"
        );
    }
    let decided = card.decided_since(&before);
    assert!(decided.contains(&from), "{decided:?}");
    assert!(!decided.contains(&named(&card, "leg width")));
}

/// A pin gives way before a rule does, and of rules that contradict each other
/// the last goes.
#[test]
fn what_can_not_be_gives_way() {
    let mut card = book();
    let height = named(&card, "card height");
    let fixed = |value| Relation {
        left: vec![Term {
            times: 1,
            of: height,
        }],
        is: Is::Equal,
        right: Vec::new(),
        plus: value,
        holds: Holds::Must,
    };
    card.relations
        .extend([fixed(Length::mm(160)), fixed(Length::mm(170))]);
    card.pin(height, true).expect("a pin");
    let rejoined = card.rejoin(&[]);
    assert_eq!(rejoined.left_out, [fixed(Length::mm(170))]);
    assert_eq!(card.value(height), Length::mm(160));
    assert_eq!(card.broken(), []);
    assert!(
        card.measure(height).is_some_and(|it| it.pinned),
        "it is pinned there"
    );
    assert_ne!(rejoined, Rejoined::default());
}

/// The same numbers have the same short text, and others another.
#[test]
fn numbers_are_told_apart() {
    let card = book();
    let mut other = card.clone();
    other.notes.insert("gather".to_owned(), "blue".to_owned());
    assert_eq!(card.numbers(), other.numbers());
    put(&mut other, "mat border", Length::mm(5));
    assert_ne!(card.numbers(), other.numbers());
}

/// By hand: panels of 100 mm each make 200 mm, and the rule asks for 60 mm of a
/// pinned height of 100 mm. No panel can give way far enough, and no rule of the
/// maker's speaks of one: the pin does, and the height follows.
#[test]
fn what_leaves_no_paper_gives_way_wherever_it_comes_from() {
    let mut card = strip(&[Length::mm(100); 2], Length::mm(100), "V", 1, Runs::Across);
    card.relations.push(Relation {
        plus: Length::ZERO - Length::mm(40),
        ..Relation::same(LENGTH, HEIGHT)
    });
    card.pin(HEIGHT, true).expect("a pin");
    put(&mut card, "length", Length::mm(60));
    let rejoined = card.rejoin(&[]);
    assert!(!rejoined.unsolved);
    assert_eq!(card.broken(), []);
    assert_eq!(rejoined.left_out, []);
    assert_eq!(card.value(panel(0)), Length::mm(100));
    assert_eq!(card.value(panel(1)), Length::mm(100));
    assert_eq!(card.value(HEIGHT), Length::mm(240));
    // With a height that a rule fixes, that rule goes, the last of both.
    let fixed = Relation {
        left: vec![Term {
            times: 1,
            of: HEIGHT,
        }],
        is: Is::Equal,
        right: Vec::new(),
        plus: Length::mm(100),
        holds: Holds::Must,
    };
    card.relations.push(fixed.clone());
    put(&mut card, "height", Length::mm(100));
    let rejoined = card.rejoin(&[]);
    assert_eq!(rejoined.left_out, [fixed]);
    assert_eq!(card.broken(), []);
}
