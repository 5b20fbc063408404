//! Sizes and clearances that are published.

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::{ClearanceRule, Envelope, Print};
use foldwright_engine::plane::{Size, Turn};
use foldwright_engine::recipe::{Holds, Is, Measure, MeasureId, Placing, Recipe, Relation, Term};
use foldwright_engine::refit::{
    Cause, Condition, Keep, Limits, Outcome, Reason, Refit, Sheet, Wish, follows, in_unit_of,
    onto_marks, refit,
};

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
    let envelope = Envelope::by_id("na-a2").expect("known");
    let sixteenths = |of: i64| Length::sixty_fourths(4 * of);
    let told: Vec<_> = found
        .changes
        .iter()
        .map(|moved| {
            let measure = card.measure(moved.change.measure).expect("it is there");
            let why = moved.reason(&card, &roomy);
            assert_eq!(why, Some(Reason::Holds(Condition::Goes(envelope))));
            (&*measure.name, moved.change.from, moved.change.to)
        })
        .collect();
    assert_eq!(
        told,
        [
            ("card width", sixteenths(68), sixteenths(66)),
            ("front width", sixteenths(68), sixteenths(66)),
            ("back width", sixteenths(68), sixteenths(66)),
            ("mat width", sixteenths(64), sixteenths(62)),
            ("strip length", sixteenths(136), sixteenths(132)),
        ]
    );
}

/// From inches to millimetres and nothing else: each measure to its nearest
/// mark, or as near as the relations let it. That the border is at least 1/8 in is
/// a rule of the program's own, and at least 3 mm from then on (common practice);
/// so is how far glue stays from edges. Both are told.
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
    let named = |name: &str| called(&found.recipe, name).value;
    assert_eq!(named("mat width"), Length::mm(102));
    assert_eq!(named("mat height"), Length::mm(134));
    assert_eq!(named("mat border"), Length::mm(3));
    let first = found.changes.first().expect("it moved");
    let (from, to) = (Length::sixty_fourths(272), Length::mm(108));
    assert_eq!((first.change.from, first.change.to), (from, to));
    assert_eq!(first.reason(&card, &wish), None);
    let rule = border_rule(&card);
    assert_eq!(rule.plus, Length::sixty_fourths(8));
    let metric = border_rule(&found.recipe).clone();
    assert_eq!(metric.plus, Length::mm(3));
    assert_eq!(found.recipe.glue_margin, Length::mm(3));
    let limited = |names: &[&str], limits| Outcome::Limits {
        of: names.iter().map(|name| called(&card, name).id).collect(),
        limits,
    };
    let tenths = |tenths: i64| Length::hundredths_mm(10 * tenths);
    assert_eq!(
        given(&card, &found),
        [
            Outcome::Rule(metric),
            Outcome::GlueMargin(Length::mm(3)),
            limited(
                &["card width", "card height"],
                Limits::AtLeast(Length::mm(40))
            ),
            limited(
                &["fold-in allowance"],
                Limits::Between(Length::mm(1), Length::mm(3))
            ),
            limited(
                &["front width", "back width"],
                Limits::AtLeast(Length::mm(12))
            ),
            limited(&["mat border"], Limits::Between(tenths(15), Length::mm(12))),
        ]
    );
    // A rule that is let go of is told elsewhere, and moves no other.
    let mut more = card.clone();
    more.relations.insert(
        0,
        Relation {
            left: vec![Term {
                times: 1,
                of: border(&card),
            }],
            is: Is::AtLeast,
            right: Vec::new(),
            plus: Length::mm(1),
            holds: Holds::Must,
        },
    );
    assert_eq!(given(&more, &found), given(&card, &found));
    // And back.
    let back = Wish {
        notation: Some(card.notation),
        ..Wish::default()
    };
    let again = refit(&found.recipe, &back).expect("a card in inches");
    assert_eq!(border_rule(&again.recipe), rule);
    assert_eq!(again.recipe.glue_margin, card.glue_margin);
    assert_eq!(limits(&found.recipe), limits(&starter("book", METRIC)));
    assert_eq!(limits(&again.recipe), limits(&card));
    // The same for one that was only written in millimetres, and comes onto the ruler.
    let mut written = card.clone();
    written.notation = METRIC;
    let on_marks = onto_marks(&written).expect("a metric card").recipe;
    assert_eq!(limits(&on_marks), limits(&found.recipe));
    assert_eq!(on_marks.relations, found.recipe.relations);
    assert_eq!(on_marks.glue_margin, found.recipe.glue_margin);
}

/// A limit that the maker set stays to the last fraction in any unit, and is not
/// told: no less than 1 in, 25.4 mm, which is 26 mm on a ruler of millimetres. So
/// does one of the program's that a length held still would break, 1 1/2 in where a
/// round 40 mm would be more, and so do both where one of the program's would cross
/// the maker's other one, 3.1 mm and 1/8 in, which would be 3 mm.
#[test]
fn limits_of_the_maker_keep_their_length_in_another_unit() {
    let mut card = starter("book", INCHES);
    let eighths = |eighths: i64| Length::sixty_fourths(8 * eighths);
    let set = |card: &mut Recipe, name: &str, least, most| {
        let id = called(card, name).id;
        card.limit(id, least, most).expect("they do not cross");
        id
    };
    let height = set(&mut card, "card height", Some(eighths(8)), None);
    let width = called(&card, "card width").id;
    card.settle(&[(width, eighths(12))], &[], &[])
        .expect("a narrow card");
    let mut measures = card.measures.iter_mut();
    let held = measures.find(|it| it.id == width);
    held.expect("it is there").pinned = true;
    let wish = |height| Wish {
        notation: Some(METRIC),
        pinned: vec![(height, Length::mm(25))],
        ..Wish::default()
    };
    let metric = Wish {
        pinned: Vec::new(),
        ..wish(height)
    };
    let found = refit(&card, &metric).expect("a metric card");
    for name in ["card width", "card height"] {
        let [was, is] = [&card, &found.recipe].map(|of| called(of, name));
        assert_eq!((was.least, was.most), (is.least, is.most), "{name}");
    }
    let told = given(&card, &found);
    let told_of = told.iter().filter_map(|it| match it {
        Outcome::Limits { of, .. } => Some(of.as_slice()),
        _ => None,
    });
    let names: Vec<_> = told_of
        .flatten()
        .map(|id| &*card.measure(*id).expect("it is there").name)
        .collect();
    assert_eq!(
        names,
        [
            "fold-in allowance",
            "front width",
            "back width",
            "mat border"
        ]
    );
    // On the ruler the maker's limit is the last mark that keeps it.
    let least = Cause::Least(height).condition(&card, &metric);
    assert_eq!(least, Some(Condition::AtLeast(height, Length::mm(26))));
    assert!(refit(&card, &wish(height)).is_err());
    let least = Some(Length::hundredths_mm(310));
    let most = Some(eighths(1));
    set(&mut card, "fold-in allowance", least, most);
    let metric = in_unit_of(&card, METRIC);
    let allowance = called(&metric, "fold-in allowance");
    assert_eq!((allowance.least, allowance.most), (least, most));
}

/// The measure of that name.
fn called<'a>(recipe: &'a Recipe, name: &str) -> &'a Measure {
    let mut measures = recipe.measures.iter();
    measures.find(|it| it.name == name).expect("it is there")
}

/// The least and the most of each measure.
fn limits(recipe: &Recipe) -> Vec<[Option<Length>; 2]> {
    let measures = recipe.measures.iter();
    measures.map(|it| [it.least, it.most]).collect()
}

/// What the maker decided stays to the last fraction in any unit: a border of at
/// least 3/16 in, 4.7625 mm, is 5 mm and no less, and a glue margin of 1/4 in is
/// still that. Of this nothing is told, since nothing of it changes.
#[test]
fn rules_of_the_maker_keep_their_length_in_another_unit() {
    let mut card = starter("book", INCHES);
    let own = Length::sixty_fourths(12);
    let rule = card.relations.iter_mut().find(|it| it.is == Is::AtLeast);
    rule.expect("a border has its least").plus = own;
    card.glue_margin = Length::sixty_fourths(16);
    let border = border(&card);
    card.settle(&[(border, own)], &[], &[]).expect("it fits");
    let wish = Wish {
        notation: Some(METRIC),
        ..Wish::default()
    };
    let found = refit(&card, &wish).expect("a metric card");
    assert_eq!(found.recipe.value(border), Length::mm(5));
    assert_eq!(border_rule(&found.recipe).plus, own);
    assert_eq!(found.recipe.glue_margin, card.glue_margin);
    let told = given(&card, &found);
    assert!(
        told.iter().all(|it| matches!(it, Outcome::Limits { .. })),
        "{told:?}"
    );
}

/// The border of the mat of a book.
fn border(recipe: &Recipe) -> MeasureId {
    match recipe.layers[0].place {
        Placing::Border(border) => border,
        other => panic!("{other:?} is no border"),
    }
}

/// The rule about the least border of the mat of a book.
fn border_rule(recipe: &Recipe) -> &Relation {
    let border = border(recipe);
    let mut rules = recipe.relations.iter();
    let rule = rules.find(|rule| rule.is == Is::AtLeast && rule.left[0].of == border);
    rule.expect("a border has its least")
}

/// What is told of lengths that the program gave.
fn given(before: &Recipe, found: &Refit) -> Vec<Outcome> {
    let work = |recipe| work_out(recipe, &Tools::default());
    let (was, is) = (work(before), work(&found.recipe));
    let mut told = follows(before, &was, found, &is);
    told.retain(|it| {
        matches!(
            it,
            Outcome::Rule(_) | Outcome::GlueMargin(_) | Outcome::Limits { .. }
        )
    });
    told
}

/// A mat of 4 × 5 1/4 in goes into a scrap of 5 1/2 × 4 1/2 in on its side. One
/// of speckle may lie so, and nothing changes; one whose print is to be upright
/// may not, and gets as high as the scrap, unless the maker lays it on its side.
#[test]
fn a_mat_lies_on_its_scrap_as_its_print_lets_it() {
    let book = starter("book", INCHES);
    let mat = book.layers[0].clone();
    let scrap = Size {
        width: Length::sixty_fourths(352),
        height: Length::sixty_fourths(288),
    };
    let wish = Wish {
        sheet: Some(Sheet {
            stock: mat.stock,
            size: scrap,
            keep: Keep::Card,
        }),
        ..Wish::default()
    };
    let height = |book: &Recipe| {
        let found = refit(book, &wish).expect("there is a card");
        let stays = found.changes.is_empty();
        (found.recipe.value(mat.height), stays)
    };
    let as_it_is = (Length::sixty_fourths(336), true);
    assert_eq!(height(&book), (scrap.height, false));
    let mut speckle = book.clone();
    for stock in &mut speckle.stocks {
        stock.face.print = Print::AllOver;
    }
    assert_eq!(height(&speckle), as_it_is);
    let mut on_its_side = book.clone();
    on_its_side.layers[0].turn = Some(Turn::Left);
    assert_eq!(height(&on_its_side), as_it_is);
}
