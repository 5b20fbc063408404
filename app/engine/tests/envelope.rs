//! Envelopes made for cards: that they fold flat to the size that is asked for, hold
//! together at their seams, and are cut and scored like any card.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

#[path = "common/naming.rs"]
mod plain;
mod strips;

use foldwright_engine::card::{Card, Tools, work_out};
use foldwright_engine::envelope::{EnvelopeName, envelope_for};
use foldwright_engine::length::{Length, Notation, Step, Unit};
use foldwright_engine::paper::{CLEARANCE_RULES, ClearanceRule, Envelope, StockId, THICK, Weight};
use foldwright_engine::pattern::LineId;
use foldwright_engine::plane::{PieceFrame, Point, Polygon, Rect, Region, Size};
use foldwright_engine::recipe::{DrawnLineId, Measure, PanelId, Recipe, Runs, read, write};
use foldwright_engine::refit::{Wish, between_marks, refit};
use foldwright_engine::steps::{Along, Kind, StepKey, Tool, steps};
use plain::Plain;
use proptest::prelude::*;
use strips::strip;

const BOARD: Tools = Tools {
    board: Length::inches(40),
};

fn named(of: EnvelopeName<'_>) -> String {
    format!("{of:?}")
}

/// A card of two panels that is so large when it is closed, with paper enough.
fn card_of(width: Length, height: Length, step: Step, rule: &str) -> Recipe {
    let mut recipe = strip(&[width, width], height, "V", 1, Runs::Across);
    recipe.notation.step = step;
    rule.clone_into(&mut recipe.posting.rule);
    for stock in &mut recipe.stocks {
        (stock.width, stock.height) = (Length::mm(1200), Length::mm(1200));
    }
    recipe
}

fn made_for(recipe: &Recipe) -> (Recipe, Card) {
    let card = work_out(recipe, &BOARD);
    let made = envelope_for(recipe, &card, &Plain, &named).expect("it is large enough");
    let worked_out = work_out(&made, &BOARD);
    (made, worked_out)
}

fn called<'a>(recipe: &'a Recipe, name: EnvelopeName<'_>) -> &'a Measure {
    let name = named(name);
    let mut measures = recipe.measures.iter();
    measures
        .find(|measure| measure.name == name)
        .expect("it is one of its measures")
}

fn value(recipe: &Recipe, name: EnvelopeName<'_>) -> Length {
    called(recipe, name).value
}

/// The panels, and what each covers of the flat piece.
fn panel(card: &Card, id: PanelId) -> &Polygon<PieceFrame> {
    let mut panels = card.laid.panels.iter();
    let panel = panels.find(|panel| panel.id == id);
    &panel.expect("it is one of the panels").facet.outline
}

const LEFT: PanelId = PanelId(1);
const ADDRESS_SIDE: PanelId = PanelId(2);
const RIGHT: PanelId = PanelId(3);

fn lower() -> PanelId {
    ADDRESS_SIDE.part(1)
}

fn upper() -> PanelId {
    ADDRESS_SIDE.part(2)
}

/// A polygon folded over, by hand.
fn mirrored(
    of: &Polygon<PieceFrame>,
    mirror: impl Fn(Point<PieceFrame>) -> Point<PieceFrame>,
) -> Region<PieceFrame> {
    let corners = of.corners.iter().rev().map(|at| mirror(*at)).collect();
    Region::from(&Polygon { corners })
}

/// The room that the card has in it, the longer side first.
fn room(made: &Card, card: &Card) -> [Length; 2] {
    let sides = |size: Size| [size.width.max(size.height), size.width.min(size.height)];
    let (inside, card) = (sides(made.finished), sides(card.finished));
    [inside[0] - card[0], inside[1] - card[1]]
}

fn any_step() -> impl Strategy<Value = Step> {
    let steps = Step::all_for(Unit::Inch).iter();
    let steps: Vec<_> = steps
        .chain(Step::all_for(Unit::Millimetre))
        .copied()
        .collect();
    prop::sample::select(steps)
}

fn any_rule() -> impl Strategy<Value = &'static ClearanceRule> {
    prop::sample::select(CLEARANCE_RULES.iter().collect::<Vec<_>>())
}

/// From a gift tag to a large card, on no marks.
fn any_side() -> impl Strategy<Value = Length> {
    (1_500..26_000_i64).prop_map(Length::hundredths_mm)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn any_card_gets_an_envelope_that_folds_flat_and_holds(
        width in any_side(),
        height in any_side(),
        step in any_step(),
        rule in any_rule(),
    ) {
        let recipe = card_of(width, height, step, rule.id);
        let card = work_out(&recipe, &BOARD);
        let (made, worked_out) = made_for(&recipe);
        prop_assert_eq!(made.check(), []);
        prop_assert!(made.broken().is_empty());
        prop_assert_eq!(&worked_out.problems, &[]);

        // As large as the rule asks for, and by less than a mark more.
        let room = room(&worked_out, &card);
        for (room, asked) in room.into_iter().zip([rule.length, rule.height]) {
            prop_assert!(asked <= room && room < asked + step.length());
        }
        // Every number can be set.
        prop_assert!(between_marks(&made).is_empty());

        // Worked by hand: the inside, two side flaps and two others, all of them
        // trapezoids; the two others are together as high as the inside and a seam.
        let (wide, high) = (worked_out.finished.width, worked_out.finished.height);
        let seam = value(&made, EnvelopeName::Seam);
        let slant = value(&made, EnvelopeName::Slant);
        let area = |width: Length, height: Length| {
            i128::from(width.units()) * i128::from(height.units())
        };
        let by_hand = area(wide, high)
            + 2 * area(seam + slant, high - slant)
            + area(wide - slant, high + seam);
        let panels = worked_out.laid.panels.iter();
        let twice: i128 = panels.map(|panel| panel.facet.twice_area()).sum();
        prop_assert_eq!(twice, 2 * by_hand);

        // The address side lies under the side flaps, the lower flap on these, and
        // the upper one on that.
        let folded = worked_out.folded.as_ref().expect("it folds flat");
        let order = &folded.states[0].order;
        let order: Vec<_> = order.iter().map(|panel| worked_out.laid.panels[*panel].id).collect();
        prop_assert_eq!(order[0], ADDRESS_SIDE);
        prop_assert!(order[1..3].contains(&LEFT) && order[1..3].contains(&RIGHT));
        prop_assert_eq!(&order[3..], &[lower(), upper()]);

        // Folded by hand, the lower flap covers a seam of each side flap along its
        // inner edge, and the upper flap a seam of the lower one.
        let fold = value(&made, EnvelopeName::LowerFlap);
        let (left, right) = (seam + slant, value(&made, EnvelopeName::RightFold));
        let up = value(&made, EnvelopeName::UpperFoldAt);
        let lower = mirrored(panel(&worked_out, lower()), |at| Point::new(at.x, fold + fold - at.y));
        let upper = mirrored(panel(&worked_out, upper()), |at| Point::new(at.x, up + up - at.y));
        let left_flap =
            mirrored(panel(&worked_out, LEFT), |at| Point::new(left + left - at.x, at.y));
        let right_flap =
            mirrored(panel(&worked_out, RIGHT), |at| Point::new(right + right - at.x, at.y));
        let top = (fold + fold).min(up - slant);
        let band = |from: Length, to: Length| {
            Region::from(Rect::spanning(Point::new(from, fold + slant), Point::new(to, top)))
        };
        for (band, flap) in [
            (band(left + slant, left + left), &left_flap),
            (band(right - left, right - slant), &right_flap),
        ] {
            prop_assert!(!band.is_empty());
            prop_assert!(band.minus(&lower).is_empty() && band.minus(flap).is_empty());
        }
        let inner = [left + slant, right - slant];
        let across = Region::from(Rect::spanning(
            Point::new(inner[0], fold + fold - seam),
            Point::new(inner[1], fold + fold),
        ));
        prop_assert!(across.minus(&lower).is_empty() && across.minus(&upper).is_empty());
        // And nothing of a flap shows past the address side.
        let inside = Region::from(panel(&worked_out, ADDRESS_SIDE));
        for flap in [&lower, &upper, &left_flap, &right_flap] {
            prop_assert!(flap.minus(&inside).is_empty());
        }
    }
}

/// A quarter of an inch each way: the enclosures that a chart of North American
/// announcement envelopes gives, and the envelopes it gives them for ("Common
/// Envelope Sizes and Enclosure Dimensions"); 1/8 in on top and at each side, and
/// A1 ("Tips for Printing Envelopes"); and a booklet in its envelope (a postal
/// course's table). In eighths of an inch.
#[test]
fn published_cards_get_the_envelopes_published_for_them() {
    for (rule, card, envelope) in [
        ("quarter-in-all", (33, 44), "na-a2"),
        ("quarter-in-all", (36, 50), "na-a6"),
        ("quarter-in-all", (40, 56), "na-a7"),
        ("quarter-in-all", (42, 63), "na-a8"),
        ("quarter-in-all", (46, 74), "na-a10"),
        ("eighth-round", (28, 39), "na-a1"),
        // A square one asks for a quarter of an inch each way (a retailer's page).
        ("quarter-in-all", (46, 46), "na-square-6"),
    ] {
        let eighths = |count: i64| Length::sixty_fourths(8 * count);
        for (width, height) in [card, (card.1, card.0)] {
            let recipe = card_of(eighths(width), eighths(height), Step::Sixteenth, rule);
            let (_, made) = made_for(&recipe);
            let envelope = Envelope::by_id(envelope).expect("it is in the table");
            assert_eq!(made.finished, envelope.size(), "{}", envelope.name);
        }
    }
    // 5 1/4 × 7 in go into 5 1/2 × 7 1/2 in.
    let quarters = |count: i64| Length::sixty_fourths(16 * count);
    let recipe = card_of(quarters(28), quarters(21), Step::Eighth, "booklet");
    let (_, made) = made_for(&recipe);
    let size = Size {
        width: quarters(30),
        height: quarters(22),
    };
    assert_eq!(made.finished, size);
}

/// What takes a card by the table of ISO 269 is no smaller than what is made for it:
/// A6 goes into C6, A5 into C5 (ISO 269).
#[test]
fn what_is_made_is_no_larger_than_the_metric_envelopes() {
    for ((width, height), envelope) in [((105, 148), "iso-c6"), ((148, 210), "iso-c5")] {
        let recipe = card_of(
            Length::mm(width),
            Length::mm(height),
            Step::Millimetre,
            "iso-pairs",
        );
        let (_, made) = made_for(&recipe);
        let envelope = Envelope::by_id(envelope).expect("it is in the table");
        assert!(made.finished.width <= envelope.length);
        assert!(made.finished.height <= envelope.height);
    }
}

/// A flat sleeve round a box is as wide as the box and its thickness together, since
/// it goes round both sides (geometry).
#[test]
fn a_thick_card_gets_its_thickness_besides() {
    let mut recipe = card_of(
        Length::mm(100),
        Length::mm(150),
        Step::Millimetre,
        "iso-pairs",
    );
    for stock in &mut recipe.stocks {
        stock.caliper = Length::mm(2);
    }
    let (made, worked_out) = made_for(&recipe);
    let rule = ClearanceRule::by_id("iso-pairs").expect("a rule");
    let thick = Length::mm(4);
    assert!(thick >= THICK);
    assert_eq!(
        worked_out.finished.width,
        Length::mm(150) + rule.length + thick
    );
    assert_eq!(
        worked_out.finished.height,
        Length::mm(100) + rule.height + thick
    );
    assert_eq!(value(&made, EnvelopeName::RoomLong), rule.length + thick);
}

#[test]
fn nothing_is_made_for_what_has_no_size() {
    let recipe = card_of(
        Length::mm(2),
        Length::mm(2),
        Step::Millimetre,
        "eighth-round",
    );
    let card = work_out(&recipe, &BOARD);
    assert_eq!(envelope_for(&recipe, &card, &Plain, &named), None);
}

#[test]
fn an_envelope_is_made_in_steps_like_any_card_and_goes_into_none() {
    let (made, card) = made_for(&card_of(
        Length::inches(5),
        Length::inches(7),
        Step::Sixteenth,
        "eighth-round",
    ));
    assert_eq!(card.envelopes, []);
    let steps = steps(&made, &card);
    let folds = steps.iter().filter(|step| step.kind == Kind::Fold);
    let folds: Vec<_> = folds.map(|step| step.key.to_string()).collect();
    assert!(folds[..2].contains(&"fold-0".to_owned()) && folds[..2].contains(&"fold-1".to_owned()));
    let [lower, upper] = [1, 2].map(|line| {
        let line = LineId::of_line(DrawnLineId(line));
        StepKey::Fold(Along::Line(line), 1).to_string()
    });
    assert_eq!(&folds[2..], &[lower.clone(), upper]);
    // What to glue is noted where the lower flap is folded.
    assert_eq!(made.notes.keys().collect::<Vec<_>>(), [&lower]);
    // The scores are made with a bone folder, from an edge that is left.
    let scored = steps.iter().filter(|step| step.kind == Kind::Score);
    assert!(scored.clone().count() >= 3);
    assert!(
        scored
            .clone()
            .all(|step| step.tools.contains(&Tool::BoneFolder))
    );
    let envelopes = steps.iter().filter(|step| step.kind == Kind::Envelope);
    assert_eq!(envelopes.count(), 0);
    assert_eq!(card.cut_list.blanks.len(), 1);
    assert_eq!(card.cut_list.blanks[0].size, card.laid.base.size);
}

/// It is cut from the lightest paper that is large enough (common practice: what
/// envelopes are made of is lighter than what cards are).
#[test]
fn it_is_cut_from_the_lightest_paper_that_holds_it() {
    let mut recipe = card_of(
        Length::mm(105),
        Length::mm(148),
        Step::Millimetre,
        "iso-pairs",
    );
    let (made, _) = made_for(&recipe);
    let (light, small) = (StockId(51), StockId(52));
    for (id, size) in [(light, 600), (small, 60)] {
        let mut stock = recipe.stocks[0].clone();
        (stock.id, stock.weight) = (id, Weight::grams(if id == light { 90 } else { 60 }));
        (stock.width, stock.height) = (Length::mm(size), Length::mm(size));
        recipe.stocks.push(stock);
    }
    assert_eq!(made.base.stock, recipe.base.stock);
    let (made, _) = made_for(&recipe);
    assert_eq!(made.base.stock, light);
}

#[test]
fn an_envelope_is_kept_as_one() {
    let recipe = card_of(
        Length::inches(5),
        Length::inches(7),
        Step::Eighth,
        "booklet",
    );
    let (made, _) = made_for(&recipe);
    let text = write(std::slice::from_ref(&made));
    assert_eq!(read(&text), Ok(vec![made]));
    assert!(!write(&[recipe]).contains("is_envelope"));
}

/// An envelope is refitted as any card: to another size, with its seams and its
/// room; and to the other unit.
#[test]
fn an_envelope_is_refitted_like_any_card() {
    let (made, before) = made_for(&card_of(
        Length::inches(5),
        Length::inches(7),
        Step::Sixteenth,
        "quarter-in-all",
    ));
    let holds = |found: &Recipe| {
        assert!(found.broken().is_empty());
        let card = work_out(found, &BOARD);
        assert_eq!(card.problems, []);
        card
    };
    let larger = Size {
        width: before.finished.width + Length::inches(1),
        height: before.finished.height - Length::inches(1),
    };
    let found = refit(
        &made,
        &Wish {
            finished: Some(larger),
            ..Wish::default()
        },
    )
    .expect("it can be of any size");
    assert_eq!(holds(&found.recipe).finished, larger);
    for name in [
        EnvelopeName::RoomLong,
        EnvelopeName::RoomHigh,
        EnvelopeName::Seam,
    ] {
        assert_eq!(value(&found.recipe, name), value(&made, name), "{name:?}");
    }
    // The card is what gave way.
    assert_eq!(
        value(&found.recipe, EnvelopeName::CardLength),
        Length::inches(8)
    );
    assert_eq!(
        value(&found.recipe, EnvelopeName::CardHeight),
        Length::inches(4)
    );

    let metric = Notation {
        step: Step::Millimetre,
        ..made.notation
    };
    let found = refit(
        &made,
        &Wish {
            notation: Some(metric),
            ..Wish::default()
        },
    )
    .expect("it can be measured in millimetres");
    let card = holds(&found.recipe);
    assert!(between_marks(&found.recipe).is_empty());
    assert!((card.finished.width - before.finished.width).abs() <= Length::mm(2));

    // A number changed by hand takes the others along.
    let mut longer = made.clone();
    let card_length = called(&longer, EnvelopeName::CardLength).id;
    longer
        .set(card_length, Length::inches(8))
        .expect("it can be longer");
    assert_eq!(
        holds(&longer).finished.width,
        before.finished.width + Length::inches(1)
    );
}
