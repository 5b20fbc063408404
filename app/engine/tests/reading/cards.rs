//! Whole lists made into recipes that hold together, fold and refit.

use crate::plain::Plain;
use foldwright_engine::card::closed_size;
use foldwright_engine::length::{DecimalMark, Length, Notation, Step, Unit, Written};
use foldwright_engine::paper::{Clearance, ClearanceRule, Envelope};
use foldwright_engine::plane::Size;
use foldwright_engine::problem::{Finding, Trouble};
use foldwright_engine::reading::{Assumed, Evidence, Read, Suggestion, UnitFor};
use foldwright_engine::refit::{Wish, refit};

use super::{inches, known, layer, made, metric, sound};

/// A quarter of Letter with two mats, as it is usually given (common practice).
const BOOK: &str = "Harbour lights\nbase 5 1/2 x 8 1/2, score at 4 1/4\nmat 4 x 5 1/4\n\
                    mat 3 3/4 x 5\nmakes 24 cards, page 3";

/// A6 from a strip of A5 (ISO 216), in millimetres.
const A6: &str = "Grundkarte 210 x 148 mm, rillen bei 105\nAufleger 99 x 142\nUmschlag C6";

/// A4 in three (a printers' folding guide: 100, 100, 97).
const THREE: &str = "Streifen 297 x 210 mm, falzen bei 100 und 200";

/// A gate from half a 12 × 12 sheet (common practice).
const GATE: &str = "Cut one piece of kraft card at 6 x 12 inches and score at 3 and 9.\n\
                    2 mats 2 3/4 x 5 3/4";

fn accepted(read: &Read) -> Vec<(Suggestion, bool)> {
    let each = read.proposals.iter();
    each.map(|it| (it.is.clone(), it.accepted)).collect()
}

#[test]
fn a_book_with_two_mats() {
    let read = inches(BOOK);
    let recipe = made(&read);
    assert_eq!(recipe.name, "Harbour lights");
    assert_eq!(recipe.notation.unit(), Unit::Inch);
    assert_eq!(
        closed_size(&recipe),
        Size {
            width: Length::sixty_fourths(4 * 64 + 16),
            height: Length::sixty_fourths(5 * 64 + 32),
        }
    );
    let mats = ["mat", "mat 2"]
        .map(|name| layer(&recipe, name).id)
        .to_vec();
    assert_eq!(recipe.layers.len(), 2);
    let panels: Vec<_> = recipe.base.panels.iter().map(|panel| panel.id).collect();
    let eighths = |count: i64| Length::sixty_fourths(8 * count);
    let border = eighths(1);
    let a2 = Envelope::by_id("na-a2").expect("A2");
    let rule = ClearanceRule::by_id("eighth-round").expect("a rule");
    assert_eq!(
        accepted(&read),
        [
            (Suggestion::SamePanels(panels), true),
            (
                Suggestion::Border {
                    layer: mats[0],
                    border
                },
                true
            ),
            (
                Suggestion::Border {
                    layer: mats[1],
                    border
                },
                true
            ),
            (Suggestion::SameBorders(mats.clone()), true),
            (Suggestion::Envelope(a2, rule), true),
        ]
    );
    let size = |width, height| Size {
        width: eighths(width),
        height: eighths(height),
    };
    let first = read.proposals.get(1).expect("the first border");
    // 4 1/4 − 2 × 1/8 = 4, and 5 1/2 − 2 × 1/8 = 5 1/4.
    assert_eq!(
        first.evidence,
        Evidence::Border {
            seat: size(34, 44),
            layer: size(32, 42),
            border,
        }
    );
    // The published clearance of A2 round this card: 1/8 in up, 1/4 in along.
    // 4 3/8 − 1/8 = 4 1/4, and 5 3/4 − 1/4 = 5 1/2.
    let envelope = read.proposals.get(4).expect("the envelope");
    assert_eq!(
        envelope.evidence,
        Evidence::Envelope {
            envelope: a2,
            spare: size(2, 1),
            card: size(44, 34),
            on_marks: true,
            rule: Clearance::EighthRound,
        }
    );
}

#[test]
fn an_a6_card_goes_into_c6() {
    let read = metric(A6);
    let recipe = made(&read);
    assert_eq!(recipe.posting.envelope.as_deref(), Some("iso-c6"));
    assert_eq!(recipe.posting.rule, "iso-pairs");
    assert_eq!(
        closed_size(&recipe),
        Size {
            width: Length::mm(105),
            height: Length::mm(148)
        }
    );
}

#[test]
fn the_folded_in_panel_of_a4_in_three_is_shorter() {
    let read = metric(THREE);
    let recipe = made(&read);
    let widths: Vec<Length> = recipe
        .base
        .panels
        .iter()
        .map(|it| recipe.value(it.width))
        .collect();
    assert_eq!(widths, [100, 100, 97].map(Length::mm));
    assert_eq!(recipe.value(recipe.folding_in.allowance), Length::mm(3));
}

#[test]
fn the_leaves_of_a_gate_meet() {
    let read = inches(GATE);
    let middle = made(&read).base.panels[1].id;
    let taken = accepted(&read);
    let meet = Suggestion::Leaves { gap: Length::ZERO };
    assert!(taken.contains(&(meet, true)));
    assert!(taken.contains(&(Suggestion::Square(middle), false)));
}

#[test]
fn a_list_refits_like_any_recipe() {
    // A2 to C6: the card follows, its panels stay equal, its mats keep a border.
    let book = made(&inches(BOOK));
    let millimetres = Notation {
        step: Step::Millimetre,
        decimal: DecimalMark::Point,
    };
    let envelope = Envelope::by_id("iso-c6").expect("C6");
    let rule = ClearanceRule::by_id("iso-pairs").expect("a rule");
    let wish = Wish {
        envelope: Some((envelope, rule)),
        notation: Some(millimetres),
        ..Wish::default()
    };
    let found = refit(&book, &wish).expect("a card");
    sound(&found.recipe);
    let widths: Vec<Length> = found
        .recipe
        .base
        .panels
        .iter()
        .map(|it| found.recipe.value(it.width))
        .collect();
    assert_eq!(widths.first(), widths.last());
    let (long, short) = (
        found.finished.width.max(found.finished.height),
        found.finished.width.min(found.finished.height),
    );
    assert!(envelope.length - long >= rule.length && envelope.height - short >= rule.height);
    assert!(widths.iter().all(|it| it.units() % Length::PER_MM == 0));
    let borders: Vec<Length> = found
        .recipe
        .measures
        .iter()
        .filter(|it| it.name.ends_with("border"))
        .map(|it| it.value)
        .collect();
    assert_eq!(borders.len(), 2);
    assert_eq!(borders.first(), borders.last());

    for (text, sheet) in [
        (
            A6,
            Size {
                width: Length::mm(200),
                height: Length::mm(140),
            },
        ),
        (
            THREE,
            Size {
                width: Length::mm(280),
                height: Length::mm(200),
            },
        ),
    ] {
        let recipe = made(&metric(text));
        let wish = Wish {
            sheet: Some(foldwright_engine::refit::Sheet {
                stock: recipe.base.stock,
                size: sheet,
                keep: foldwright_engine::refit::Keep::Card,
            }),
            ..Wish::default()
        };
        let found = refit(&recipe, &wish).expect("a smaller card");
        sound(&found.recipe);
        assert!(found.recipe.value(recipe.base.length) <= sheet.width);
    }
}

#[test]
fn any_choice_of_proposals_holds() {
    for read in [inches(BOOK), metric(A6), metric(THREE), inches(GATE)] {
        let count = read.proposals.len();
        for choice in 0..1_u32 << count {
            let taken: Vec<bool> = (0..count).map(|at| choice >> at & 1 == 1).collect();
            sound(&read.into_recipe(&taken, &Plain).expect("a card"));
        }
    }
}

#[test]
fn contradictions_stand_beside_their_lines() {
    let read = inches(
        "base 5 1/2 x 8 1/2, score at 9\nbase panels 4, 4 1/4\nfinished size 4 x 5\nmat 9 x 9",
    );
    let problems: Vec<Vec<_>> = read
        .lines
        .iter()
        .map(|line| line.problems.iter().map(|it| it.finding.clone()).collect())
        .collect();
    let quarters = |count: i64| Length::sixty_fourths(16 * count);
    let size = |width, height| Size {
        width: quarters(width),
        height: quarters(height),
    };
    let list = |trouble| vec![Finding::List(trouble)];
    assert_eq!(
        problems,
        [
            list(Trouble::Beyond {
                at: quarters(36),
                length: quarters(34),
            }),
            list(Trouble::Sum {
                sum: quarters(33),
                length: quarters(34),
            }),
            list(Trouble::Finished {
                told: size(16, 20),
                is: size(34, 22),
            }),
            list(Trouble::TooLarge(size(36, 36))),
        ]
    );
    assert_eq!(
        inches("score at 3")
            .lines
            .first()
            .map(|line| line.problems.len()),
        Some(1)
    );
}

#[test]
fn bare_numbers_follow_the_list() {
    let words = |read: &Read, at: usize| known(read, at).first().cloned();
    let all = |unit, why| Some(Assumed::All { unit, why });
    let list = metric("Karte 21 x 14,8 cm\nAufleger 9,9 x 14,2");
    assert_eq!(words(&list, 1).as_deref(), Some("piece 99 × 142 mm"));
    assert_eq!(list.assumed, all(Written::Centimetre, UnitFor::Elsewhere));
    let list = inches("card 210 x 148");
    assert_eq!(words(&list, 0).as_deref(), Some("piece 210 × 148 mm"));
    assert_eq!(list.assumed, all(Written::Millimetre, UnitFor::TooLarge));
    let list = inches("card 6 x 12, score at 3");
    assert_eq!(words(&list, 0).as_deref(), Some("piece 6 × 12 in"));
    assert_eq!(list.assumed, all(Written::Inch, UnitFor::Settings));
    assert_eq!(inches("card 6 in x 12 in").assumed, None);
}

#[test]
fn so_many_pieces_are_so_many_layers() {
    let base = "base 6 x 12 in, score at 3 and 9";
    for mats in [
        "2 @ 2 3/4 x 5 3/4",
        "two mats 2 3/4 x 5 3/4",
        "mats (2): 2 3/4 x 5 3/4",
        "2 pcs 2 3/4 x 5 3/4",
        "2 x 2 3/4 x 5 3/4",
    ] {
        let recipe = made(&inches(&format!("{base}\n{mats}")));
        assert_eq!(recipe.layers.len(), 2, "{mats}");
    }
    // As many as there are cards is one for each.
    let recipe = made(&inches(
        "12 x base 5 1/2 x 8 1/2, score 4 1/4\n12 @ 4 x 5 1/4",
    ));
    assert_eq!((recipe.copies, recipe.layers.len()), (12, 1));
}
