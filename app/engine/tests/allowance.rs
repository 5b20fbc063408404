//! The room that folds ask for, against what printers' guides and the formula of
//! paper folding say, and what folds wrap, counted by hand.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use std::f64::consts::PI;

use foldwright_engine::allowance::Wrap;
use foldwright_engine::card::{Card, Tools, choose_rule, make_room, work_out};
use foldwright_engine::length::{Length, Step};
use foldwright_engine::paper::{Body, FOLD_IN_RULES, FoldInRule};
use foldwright_engine::problem::{Contents, Finding, Place, Weight};
use foldwright_engine::recipe::{
    EditError, Face, LayerKind, MeasureId, PanelId, Recipe, Runs, Seat, Side, starters,
};
use plain::Plain;
use strips::strip;

/// Two-hundredths of a millimetre of paper between the fingers.
const PAPER: Length = Length::hundredths_mm(20);

/// A strip of panels of such widths in millimetres, 120 high, of paper 0.2 mm
/// thick.
fn panels(widths: &[i64], folds: &str, rests: u32) -> Recipe {
    let widths: Vec<_> = widths.iter().map(|width| Length::mm(*width)).collect();
    let mut recipe = strip(&widths, Length::mm(120), folds, rests, Runs::Across);
    recipe.notation.step = Step::HalfMillimetre;
    for stock in &mut recipe.stocks {
        stock.caliper = PAPER;
    }
    recipe
}

fn card(recipe: &Recipe) -> Card {
    work_out(recipe, &Tools::default())
}

/// Of each fold that wraps something: how many sheets, and how thick.
fn wrapped(recipe: &Recipe) -> Vec<(Option<usize>, usize, Length)> {
    let card = card(recipe);
    let wraps = card.wraps.iter();
    wraps
        .map(|wrap| (wrap.line.score(), wrap.sheets, wrap.thickness))
        .collect()
}

fn cramped(wraps: &[Wrap]) -> Vec<Contents> {
    wraps
        .iter()
        .flat_map(Wrap::cramped)
        .map(|it| it.what)
        .collect()
}

fn rule(id: &str) -> &'static FoldInRule {
    FoldInRule::by_id(id).expect("a rule of the table")
}

fn mm(length: Length) -> f64 {
    length.as_mm_f64()
}

/// Printers' creep: a booklet of 16 pages of 0.1 mm is pushed out by (16 / 4) ×
/// 0.1 = 0.4 mm, and counted with the curve by 0.4 × 3.14 / 2 × 1.2 =
/// 0.7536 mm. Its outermost sheet wraps three sheets twice; boards ten times as
/// thick are as far above the least room.
#[test]
fn nested_sheets_creep_as_printers_count() {
    let page = Length::mm(1);
    let radius = (page * 6).half_down() + page;
    let simple = rule("radius").allowance(Body::Cover, radius);
    assert_eq!(simple, Length::mm(4));
    let curved = rule("bend-air").allowance(Body::Cover, radius);
    assert!((mm(curved) - 7.536).abs() < 0.005, "{curved:?}");
}

/// Gallivan, 2002: halved n times in one direction, paper of thickness t takes
/// up π t / 6 × (2ⁿ + 4)(2ⁿ − 1), each fold half on either side of it; for t =
/// 0.3 mm 0.942478, 3.769911 and 13.194689 mm. Boards of ten times that are
/// above the least room.
#[test]
fn folds_take_up_what_the_paper_folding_formula_says() {
    let thick = Length::mm(3);
    let mut taken = 0.0;
    for (halvings, printed) in [(1_u32, 9.424_78), (2, 37.699_11), (3, 131.946_89)] {
        for layer in 1..=2_i64.pow(halvings - 1) {
            // The layers inside it, on both sides of the fold.
            let wrapped = thick * (2 * (layer - 1));
            let radius = wrapped.half_down() + thick;
            taken += 2.0 * mm(rule("bend").allowance(Body::Cover, radius));
        }
        let two = f64::from(2_u32.pow(halvings));
        let formula = PI * 3.0 / 6.0 * (two + 4.0) * (two - 1.0);
        assert!((formula - printed).abs() < 1e-4);
        assert!((taken / printed - 1.0).abs() < 2e-4, "{taken} {printed}");
    }
}

/// Printers' folding guides give 1/32 in as enough for most paper and 1/8 in for
/// thick; from 20 lb bond (0.1016 mm) to 146 lb cover (0.4572 mm) every rule
/// stays between for one panel folded in.
#[test]
fn a_letter_fold_stays_in_the_printed_range() {
    let range = Length::sixty_fourths(2)..=Length::sixty_fourths(8);
    for rule in FOLD_IN_RULES {
        for caliper in [1016, 2413, 2794, 4572] {
            let caliper = Length::from_units(caliper * 72_000 / 10_000);
            let radius = caliper.half_down() + caliper;
            for body in [Body::Text, Body::Cover] {
                let asked = rule.allowance(body, radius);
                assert!(range.contains(&asked), "{} {asked:?}", rule.id);
            }
        }
    }
    // By thickness a thicker pack asks for more.
    let thin = rule("bend").allowance(Body::Cover, Length::mm(1));
    let thick = rule("bend").allowance(Body::Cover, Length::mm(2));
    assert!(thin < thick);
}

#[test]
fn folds_wrap_what_lies_between_their_panels() {
    // A letter fold: the second score wraps the first panel.
    let letter = panels(&[97, 100, 100], "VV", 1);
    assert_eq!(wrapped(&letter), [(Some(1), 1, PAPER)]);
    // Rolled up, each score wraps all that is rolled further in.
    let roll = panels(&[100, 99, 97, 94], "VVV", 0);
    assert_eq!(
        wrapped(&roll),
        [(Some(0), 2, PAPER * 2), (Some(1), 1, PAPER)]
    );
    // An accordion wraps nothing, and neither does an open gate.
    assert_eq!(wrapped(&panels(&[100, 100, 100], "VM", 0)), []);
    assert_eq!(wrapped(&panels(&[50, 100, 50], "VV", 1)), []);
}

#[test]
fn layers_count_as_sheets_where_they_lie_over_each_other() {
    let mut book = panels(&[100, 100], "V", 1);
    let on = |side, panel| {
        Seat::Face(Face {
            panel: PanelId(panel),
            side,
        })
    };
    let mat = book
        .add_layer(on(Side::A, 1), LayerKind::Mat, &Plain)
        .expect("room")
        .id;
    assert_eq!(wrapped(&book), [(Some(0), 1, PAPER)]);
    book.add_layer(Seat::Layer(mat), LayerKind::Mat, &Plain)
        .expect("room");
    assert_eq!(wrapped(&book), [(Some(0), 2, PAPER * 2)]);
    // What lies on the outside is not wrapped.
    book.add_layer(on(Side::B, 0), LayerKind::Mat, &Plain)
        .expect("room");
    assert_eq!(wrapped(&book), [(Some(0), 2, PAPER * 2)]);
    // Two that lie beside each other are one over any place.
    let mut book = panels(&[100, 100], "V", 1);
    for bottom in [0, 80] {
        let id = book
            .add_layer(on(Side::A, 0), LayerKind::Focal, &Plain)
            .expect("room")
            .id;
        let layer = book.layer(id).expect("it was added").clone();
        book.place_layer(id, foldwright_engine::recipe::Placing::Distances)
            .expect("it is there");
        book.set(layer.height, Length::mm(30)).expect("free");
        book.set(layer.bottom, Length::mm(bottom)).expect("free");
    }
    assert_eq!(wrapped(&book), [(Some(0), 1, PAPER)]);
}

#[test]
fn too_little_room_is_said_and_made() {
    let mut letter = panels(&[100, 100, 100], "VV", 1);
    let before = card(&letter);
    let said = before
        .problems
        .iter()
        .find(|it| it.weight == Weight::Warning);
    let said = said.expect("the last panel reaches the fold");
    assert_eq!(said.place, Place::Panel(PanelId(0)));
    let Finding::Room(cramped_there) = said.finding else {
        panic!("{said:?}");
    };
    assert_eq!(cramped_there.what, Contents::Panel(PanelId(0)));
    assert_eq!(cramped_there.between, [PanelId(1), PanelId(2)]);
    assert_eq!(before.wraps[0].sheets, 1);
    let asked = before.wraps[0].asked;
    let changes = make_room(&mut letter).expect("it can be shorter");
    assert!(!changes.is_empty());
    let after = card(&letter);
    assert_eq!(cramped(&after.wraps), []);
    let first = letter.value(letter.base.panels[0].width);
    assert!(first <= Length::mm(100) - asked, "{first:?}");
    let over = Length::mm(100) - asked - first;
    assert!(
        over < Length::hundredths_mm(50),
        "no more than a mark: {over:?}"
    );
    // The strip is that much shorter, and the others are as they were.
    assert_eq!(letter.value(letter.base.length), Length::mm(200) + first);
    assert_eq!(make_room(&mut letter), Err(EditError::NoRoom));
}

#[test]
fn a_held_strip_lets_the_score_move() {
    let mut letter = panels(&[100, 100, 100], "VV", 1);
    letter.pin(letter.base.length, true).expect("it is there");
    make_room(&mut letter).expect("the score can move");
    assert_eq!(letter.value(letter.base.length), Length::mm(300));
    assert_eq!(cramped(&card(&letter).wraps), []);
    // With every width held there is no room to make.
    let mut held = panels(&[100, 100, 100], "VV", 1);
    let widths: Vec<MeasureId> = held.base.panels.iter().map(|it| it.width).collect();
    for width in widths {
        held.pin(width, true).expect("it is there");
    }
    let before = held.clone();
    assert_eq!(make_room(&mut held), Err(EditError::NoRoom));
    assert_eq!(held, before);
}

/// By thickness each fold of a roll asks for its own: the outer one wraps more.
#[test]
fn by_thickness_each_fold_asks_for_its_own() {
    let mut roll = panels(&[100, 100, 99, 98], "VVV", 0);
    for stock in &mut roll.stocks {
        stock.caliper = Length::mm(1);
    }
    choose_rule(&mut roll, "bend").expect("it is in the table");
    let wraps = card(&roll).wraps;
    // Half of what it wraps and its own sheet: 2 and 1 1/2 mm, times π / 2.
    for (wrap, radius) in wraps.iter().zip([2.0, 1.5]) {
        assert!((mm(wrap.asked) - PI / 2.0 * radius).abs() < 0.001);
    }
    // The allowance is what the outer fold asks, on a mark.
    let allowance = roll.value(roll.folding_in.allowance);
    assert_eq!(allowance, Length::hundredths_mm(350));
    make_room(&mut roll).expect("they can be shorter");
    assert_eq!(cramped(&card(&roll).wraps), []);
}

#[test]
fn every_starting_fold_gets_its_room_by_every_rule() {
    for starter in starters() {
        for rule in FOLD_IN_RULES {
            let mut recipe = starter.recipe.clone();
            choose_rule(&mut recipe, rule.id).expect("it is in the table");
            let before = cramped(&card(&recipe).wraps);
            let panels = before.iter().filter(|it| matches!(it, Contents::Panel(_)));
            if panels.count() > 0 {
                make_room(&mut recipe).expect("there is room to make");
            }
            let after = cramped(&card(&recipe).wraps);
            let left = after.iter().filter(|it| matches!(it, Contents::Panel(_)));
            assert_eq!(left.count(), 0, "{} by {}", starter.id, rule.id);
            assert_eq!(recipe.check(), []);
        }
    }
}
