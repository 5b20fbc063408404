//! What posts publish of letters, what cards weigh in their envelopes, and what
//! paper costs.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

use std::num::NonZeroU32;

#[path = "common/naming.rs"]
mod plain;
mod strips;

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::{DecimalMark, Length, Step};
use foldwright_engine::paper::{
    CLASSES, Country, Envelope, Grade, LetterClass, Mail, Mass, Money, Pack, Past, PostalClass,
    StockId, Weight,
};
use foldwright_engine::plane::Size;
use foldwright_engine::post::{Posted, PostedIn, posted};
use foldwright_engine::recipe::{Face, LayerKind, Runs, Seat, Side, starters};
use plain::Plain;
use strips::strip;

/// As thin and as light as anything, so that its size alone decides.
fn of_size(length: Length, height: Length) -> Mail {
    Mail {
        length,
        height,
        thickness: Length::mm(1),
        uneven: Length::ZERO,
        mass: Mass::from_micrograms(5_000_000),
    }
}

fn empty(envelope: &str) -> Mail {
    let envelope = Envelope::by_id(envelope).expect("an envelope");
    of_size(envelope.length, envelope.height)
}

fn class(is: LetterClass) -> &'static PostalClass {
    PostalClass::of(is).expect("a class")
}

/// Which envelopes are letters by their size, worked out from the limits that the
/// posts publish (United States: Domestic Mail Manual 101, 9 July 2023; Germany: a
/// newspaper's table of 12 February 2025; United Kingdom: the regulator's page;
/// Canada: the lettermail guide of 11 January 2021; Australia: the post's page of
/// domestic letters), apart from this program.
#[test]
fn envelopes_are_letters_as_the_posts_publish() {
    let classes = [
        LetterClass::UsByHand,
        LetterClass::UsLetter,
        LetterClass::DeStandard,
        LetterClass::UkLetter,
        LetterClass::CaStandard,
        LetterClass::AuSmall,
    ]
    .map(class);
    let (yes, no) = (true, false);
    for (envelope, goes) in [
        ("na-a1", [yes, yes, no, yes, no, yes]),
        ("na-a2", [yes, yes, no, yes, yes, yes]),
        ("na-a6", [yes, yes, no, yes, yes, yes]),
        ("na-a7", [yes, yes, no, yes, yes, no]),
        ("na-a8", [yes, yes, no, yes, yes, no]),
        ("na-a9", [yes, yes, no, yes, yes, no]),
        ("na-a10", [yes, yes, no, no, yes, no]),
        ("na-a-long", [yes, yes, yes, yes, yes, yes]),
        ("na-no-9", [yes, yes, yes, yes, yes, yes]),
        ("na-no-10", [yes, yes, no, no, yes, no]),
        ("na-square-5", [yes, no, no, yes, no, yes]),
        ("na-square-6", [yes, no, no, yes, yes, no]),
        ("na-square-6-1-2", [no, no, no, no, no, no]),
        ("iso-dl", [yes, yes, yes, yes, yes, yes]),
        ("iso-c6", [yes, yes, yes, yes, yes, yes]),
        ("iso-c6-c5", [yes, yes, yes, yes, yes, yes]),
        ("iso-b6", [yes, yes, yes, yes, yes, yes]),
        ("iso-c5", [no, no, no, yes, no, no]),
        ("iso-b5", [no, no, no, no, no, no]),
        ("iso-c4", [no, no, no, no, no, no]),
    ] {
        let told = classes.map(|class| class.refuses(empty(envelope)).is_empty());
        assert_eq!(told, goes, "{envelope}");
    }
}

/// The manual's own bounds of 1.3 and 2.5 go; a hundredth of an inch less does not.
#[test]
fn the_ratio_of_a_letter_goes_up_to_its_bounds() {
    let letter = class(LetterClass::UsLetter);
    let hundredths = |hundredths: i64| Length::from_units(Length::PER_INCH * hundredths / 100);
    for (length, height, refused) in [
        (650, 500, vec![]),
        (1000, 400, vec![]),
        (649, 500, vec![Past::Square(13)]),
        (1001, 400, vec![Past::Slim(25)]),
    ] {
        let mail = of_size(hundredths(length), hundredths(height));
        assert_eq!(letter.refuses(mail), refused, "{length} × {height}");
    }
}

/// A card of 120 × 120 mm and 7 g was charged as a Großbrief (a newspaper column
/// of 2019), and one with a badge over 5 mm is a large letter in the United Kingdom
/// (a published guide to sizes).
#[test]
fn cards_are_charged_as_they_were_in_print() {
    let square = Mail {
        length: Length::mm(120),
        height: Length::mm(120),
        thickness: Length::mm(2),
        uneven: Length::ZERO,
        mass: Mass::from_micrograms(7_000_000),
    };
    let taken = Country::Germany.takes(square);
    assert_eq!(taken.class, Some(class(LetterClass::DeLarge)));
    assert_eq!(
        taken.because,
        [Past::Short(Length::mm(140)), Past::Square(14)]
    );
    for (microns, is) in [(5000, LetterClass::UkLetter), (5001, LetterClass::UkLarge)] {
        let badge = Mail {
            thickness: Length::microns(microns),
            ..empty("iso-c6")
        };
        let taken = Country::UnitedKingdom.takes(badge);
        assert_eq!(taken.class, Some(class(is)), "{microns} µm");
    }
}

/// At each bound of mass and thickness a letter goes, and just past it not; in
/// Australia small letters weigh less than 250 g.
#[test]
fn every_bound_is_the_last_that_goes() {
    for class in CLASSES {
        let (length, height) = class.most;
        let height = match class.tenths {
            // As long as may be, and not too near to a square.
            Some((least, _)) => height.min(Length::from_units(length.units() * 10 / least)),
            None => height,
        };
        let most = Mail {
            length,
            height,
            thickness: class.thickest,
            uneven: class.most_uneven.unwrap_or_default(),
            mass: class.heaviest.unwrap_or_default(),
        };
        assert_eq!(class.refuses(most), [], "{:?}", class.is);
        let more = Length::from_units(1);
        let thicker = Mail {
            thickness: most.thickness + more,
            ..most
        };
        assert_eq!(class.refuses(thicker), [Past::Thick(class.thickest)]);
        if let Some(most_uneven) = class.most_uneven {
            let uneven = Mail {
                uneven: most_uneven + more,
                ..most
            };
            assert_eq!(class.refuses(uneven), [Past::Uneven(most_uneven)]);
        }
        let Some(heaviest) = class.heaviest else {
            continue;
        };
        let heavier = Mail {
            mass: heaviest + Mass::from_micrograms(1),
            ..most
        };
        assert_eq!(class.refuses(heavier), [Past::Heavy(heaviest)]);
    }
    let grams = |is| class(is).heaviest.map(Mass::micrograms);
    assert_eq!(grams(LetterClass::AuSmall), Some(249_999_999));
    assert_eq!(grams(LetterClass::DeStandard), Some(20_000_000));
}

#[test]
fn what_is_too_large_for_every_class_is_no_letter() {
    let poster = of_size(Length::mm(420), Length::mm(300));
    for country in Country::ALL {
        let taken = country.takes(poster);
        assert_eq!(taken.class, None, "{country:?}");
        assert!(!taken.because.is_empty());
    }
}

/// A card of a quarter of Letter, folded of 5½ × 8½ in of 80 lb cover: 6.5248 g
/// (from the exact ream), in an A2 envelope of 24 lb bond (90.23 g/m², printed as
/// 90), of which it has 2½ times its 4⅜ × 5¾ in.
#[test]
fn a_card_weighs_what_its_paper_weighs() {
    let starters = starters();
    let book = starters.iter().find(|it| it.id == "book").expect("a book");
    let mut recipe = book.recipe.clone();
    for layer in recipe.layers.clone() {
        recipe.remove_layer(layer.id).expect("it is there");
    }
    for stock in &mut recipe.stocks {
        stock.weight = Weight::pounds(80, Grade::Cover);
        stock.caliper = Length::microns(241);
    }
    recipe.posting.envelope = Some("na-a2".to_owned());
    let card = work_out(&recipe, &Tools::default());
    let grams = |micrograms: i64| (micrograms + 50) / 100;
    assert_eq!(grams(card.mass.micrograms()), 65_248);
    let posted = posted(&recipe, &card).expect("an envelope");
    let a2 = Envelope::by_id("na-a2").expect("an envelope");
    assert_eq!(posted.envelope, PostedIn::Bought(a2));
    // 4.375 × 5.75 in² × 2.5 × 0.00064516 m²/in² × 90.2335 g/m² = 3.6612 g.
    let envelope = posted.mail.mass.micrograms() - card.mass.micrograms();
    assert_eq!(grams(envelope), 36_612);
    // Two leaves of 0.241 mm, and three layers of 0.0045 in.
    let thick = Length::microns(482) + Length::from_units(Length::PER_INCH * 45 / 10_000) * 3;
    assert_eq!(posted.mail.thickness, thick);
    let taken = Country::Germany.takes(posted.mail);
    assert_eq!(taken.because, [Past::Square(14)]);
    let each = posted.mail.mass.micrograms();
    assert_eq!(posted.mail.mass.times(24).micrograms(), each * 24);
}

#[test]
fn without_a_choice_the_tightest_envelope_is_taken() {
    let starters = starters();
    let book = starters.iter().find(|it| it.id == "book").expect("a book");
    let mut recipe = book.recipe.clone();
    recipe.posting.envelope = None;
    let card = work_out(&recipe, &Tools::default());
    let posted = posted(&recipe, &card).expect("an envelope");
    let tightest = card.envelopes.first().expect("one takes it").envelope;
    assert_eq!(posted.envelope, PostedIn::Bought(tightest));
}

/// An envelope for a card of 105 × 148 mm, worked by hand: the inside 155 × 112 mm, a quarter inch more rounded up to millimetres; side
/// flaps 18 mm wide, the lower one 71 mm and the upper one 56 mm high, each run in by 3 mm
/// at both ends. That is 155 × 112, twice 18 × (112 − 3), and (71 + 56) × (155 − 3):
/// 40,588 mm², which at 120 g/m² weighs 4.871 g.
#[test]
fn a_made_envelope_weighs_what_its_pattern_weighs() {
    let mut recipe = strip(&[Length::mm(105); 2], Length::mm(148), "V", 0, Runs::Across);
    recipe.notation.step = Step::Millimetre;
    recipe.posting.rule = "quarter-in-all".to_owned();
    let mut paper = recipe.stocks[0].clone();
    paper.id = StockId(77);
    paper.weight = Weight::grams(120);
    paper.caliper = Length::microns(150);
    recipe.stocks.push(paper);
    recipe.posting.made_of = Some(StockId(77));
    let card = work_out(&recipe, &Tools::default());
    let Posted { envelope, mail } = posted(&recipe, &card).expect("an envelope");
    let size = Size {
        width: Length::mm(155),
        height: Length::mm(112),
    };
    let of = StockId(77);
    assert_eq!(envelope, PostedIn::Made { of, size });
    assert_eq!((mail.length, mail.height), (size.width, size.height));
    let weighs = mail.mass.micrograms() - card.mass.micrograms();
    assert_eq!(weighs, 40_588 * 120);
    // A paper that is gone says nothing.
    recipe.posting.made_of = Some(StockId(78));
    let bought = posted(&recipe, &card).map(|posted| posted.envelope);
    assert!(matches!(bought, Some(PostedIn::Bought(_))), "{bought:?}");
}

/// A card of two leaves of 0.3 mm, with a tag of 0.5 mm in the middle of one: away from
/// its edges it is 0.6 mm thick beside the tag and 1.1 mm on it.
#[test]
fn a_card_is_as_uneven_as_what_lies_on_it() {
    let mut recipe = strip(&[Length::mm(105); 2], Length::mm(148), "V", 0, Runs::Across);
    recipe.stocks[0].caliper = Length::microns(300);
    let even = work_out(&recipe, &Tools::default());
    assert_eq!(even.uneven(&recipe), Length::ZERO);
    let mut thick = recipe.stocks[0].clone();
    thick.id = StockId(77);
    thick.caliper = Length::microns(500);
    recipe.stocks.push(thick);
    let face = Face {
        panel: recipe.base.panels[1].id,
        side: Side::B,
    };
    let added = recipe.add_layer(Seat::Face(face), LayerKind::Focal, &Plain);
    let id = added.expect("there is room").id;
    let layer = recipe.layers.iter_mut().find(|layer| layer.id == id);
    layer.expect("it is there").stock = StockId(77);
    let card = work_out(&recipe, &Tools::default());
    assert_eq!(card.uneven(&recipe), Length::microns(500));
}

#[test]
fn amounts_are_read_as_they_are_typed() {
    for (text, hundredths) in [
        ("12", Some(1200)),
        (" 12.5 ", Some(1250)),
        ("12,50", Some(1250)),
        ("0.07", Some(7)),
        ("12.505", None),
        ("12.", None),
        (".5", None),
        ("-1", None),
        ("1.2.3", None),
        ("", None),
        ("99999999999", None),
    ] {
        let read = Money::read(text);
        assert_eq!(read, hundredths.map(Money::hundredths), "{text:?}");
    }
    assert_eq!(Money::hundredths(1205).words(DecimalMark::Comma), "12,05");
}

/// 25 sheets for 11.50 are 46 a sheet; 7 of them 3.22. A third of 10.00 is 3.33.
#[test]
fn sheets_cost_their_share_of_a_pack() {
    let some = |number| NonZeroU32::new(number).expect("some");
    let pack = |hundredths, sheets| Pack {
        price: Money::hundredths(hundredths),
        sheets: some(sheets),
    };
    assert_eq!(pack(1150, 25).cost(7), Money::hundredths(322));
    assert_eq!(pack(1000, 3).cost(1), Money::hundredths(333));
    assert_eq!(pack(1000, 3).cost(3), Money::hundredths(1000));
    assert_eq!(pack(1, 2).cost(1), Money::hundredths(0));
    let both: Money = [pack(1150, 25).cost(7), pack(500, 10).cost(3)]
        .into_iter()
        .sum();
    assert_eq!(both, Money::hundredths(472));
    assert_eq!(both.shared(some(24)), Money::hundredths(20));
    assert_eq!(
        pack(u32::MAX, 1).cost(u32::MAX),
        Money::hundredths(u32::MAX)
    );
}
