//! Paper, envelopes, weight, thickness and rules against published tables.

use std::collections::BTreeSet;

use foldwright_engine::length::{DecimalMark, Length, Step, Unit, ceil, read};
use foldwright_engine::paper::{
    Body, CALIPERS, CLEARANCE_RULES, CaliperIs, ClearanceRule, Colour, ENVELOPES, Envelope,
    FOLD_IN_RULES, FoldInRule, GATE_GAP_RULES, Grade, Lies, Mass, Print, ROLL_RULE, ReadyPaper,
    SCORE_THRESHOLDS, SHEETS, SheetSize, Source, Stock, StockSide, Weight, caliper_is,
    envelopes_taking, suggest_caliper, why_not,
};

/// Sizes n = 0 to 10 of the three series, short × long in millimetres.
/// Source: ISO 216 (A, B) and ISO 269 (C), as restated in encyclopedias.
const ISO: [(&str, [(i64, i64); 11]); 3] = [
    (
        "a",
        [
            (841, 1189),
            (594, 841),
            (420, 594),
            (297, 420),
            (210, 297),
            (148, 210),
            (105, 148),
            (74, 105),
            (52, 74),
            (37, 52),
            (26, 37),
        ],
    ),
    (
        "b",
        [
            (1000, 1414),
            (707, 1000),
            (500, 707),
            (353, 500),
            (250, 353),
            (176, 250),
            (125, 176),
            (88, 125),
            (62, 88),
            (44, 62),
            (31, 44),
        ],
    ),
    (
        "c",
        [
            (917, 1297),
            (648, 917),
            (458, 648),
            (324, 458),
            (229, 324),
            (162, 229),
            (114, 162),
            (81, 114),
            (57, 81),
            (40, 57),
            (28, 40),
        ],
    ),
];

/// Media names that carry the size, and ours for the same thing.
/// Source: PWG 5101.1 (2002, 2013).
const PWG: [(&str, &str); 21] = [
    ("na_letter_8.5x11in", "na-letter"),
    ("na_legal_8.5x14in", "na-legal"),
    ("na_invoice_5.5x8.5in", "na-half-letter"),
    ("na_ledger_11x17in", "na-tabloid"),
    ("na_index-3x5_3x5in", "na-3x5"),
    ("na_index-4x6_4x6in", "na-4x6"),
    ("na_5x7_5x7in", "na-5x7"),
    ("na_index-5x8_5x8in", "na-5x8"),
    ("na_a2_4.375x5.75in", "na-a2"),
    ("na_personal_3.625x6.5in", "na-no-6-3-4"),
    ("na_monarch_3.875x7.5in", "na-no-7-3-4"),
    ("na_number-9_3.875x8.875in", "na-no-9"),
    ("na_number-10_4.125x9.5in", "na-no-10"),
    ("na_number-11_4.5x10.375in", "na-no-11"),
    ("na_number-12_4.75x11in", "na-no-12"),
    ("na_number-14_5x11.5in", "na-no-14"),
    ("na_6x9_6x9in", "na-6x9"),
    ("na_7x9_7x9in", "na-7x9"),
    ("iso_dl_110x220mm", "iso-dl"),
    ("iso_c5_162x229mm", "iso-c5"),
    ("iso_c6_114x162mm", "iso-c6"),
];

/// A length from its text; nonsense becomes a length no table holds.
fn inches(text: &str) -> Length {
    read(text, Unit::Inch).unwrap_or(Length::from_units(i64::MIN))
}

fn sheet(id: &str) -> Option<(Length, Length)> {
    SheetSize::by_id(id).map(|sheet| (sheet.width, sheet.height))
}

fn envelope(id: &str) -> Option<(Length, Length)> {
    Envelope::by_id(id).map(|envelope| (envelope.height, envelope.length))
}

fn mm(short: i64, long: i64) -> (Length, Length) {
    (Length::mm(short), Length::mm(long))
}

#[test]
fn iso_sheets_are_the_standard_ones() {
    for (series, sizes) in ISO {
        for (n, (short, long)) in sizes.into_iter().enumerate() {
            assert_eq!(
                sheet(&format!("iso-{series}{n}")),
                Some(mm(short, long)),
                "{series}{n}"
            );
        }
    }
}

#[test]
fn iso_sizes_halve() {
    // ISO 216: each size is the one before cut across the middle.
    for series in ["a", "b", "c"] {
        for n in 0..10 {
            let (short, long) = sheet(&format!("iso-{series}{n}")).expect("a size");
            let (next_short, next_long) = sheet(&format!("iso-{series}{}", n + 1)).expect("a size");
            let (half, _) = long.div_rem(2 * Length::PER_MM).expect("not by zero");
            assert_eq!(next_short, Length::mm(half.units()), "{series}{n} halved");
            assert_eq!(next_long, short, "{series}{n} halved");
        }
    }
}

#[test]
fn iso_sizes_follow_the_closed_form() {
    // From memory: long side in mm = ⌊1000 · 2^(−k/8) + 0.2⌋ with k the
    // exponent below in eighths. C lies between A and B (geometric mean).
    for (series, first) in [("a", -2), ("b", -4), ("c", -3)] {
        for n in 0..=10 {
            let eighths = f64::from(4 * n + first) / 8.0;
            let (_, long) = sheet(&format!("iso-{series}{n}")).expect("a size");
            let expected = (1000.0 * (-eighths).exp2() + 0.2).floor();
            assert!(
                (long.as_mm_f64() - expected).abs() < 1e-9,
                "{series}{n}: {expected} mm"
            );
        }
    }
    for n in 0..=10 {
        let side = |series| {
            let (short, _) = sheet(&format!("iso-{series}{n}")).expect("a size");
            short.as_mm_f64()
        };
        // ISO 216 and 269: within rounding of whole millimetres.
        let mean = (side("a") * side("b")).sqrt();
        assert!(
            (side("c") - mean).abs() <= 1.0,
            "C{n} lies between A{n} and B{n}"
        );
    }
}

#[test]
fn north_american_sheets() {
    // ANSI/ASME Y14.1: A and B; printers' tables: legal. Millimetres are exact
    // from 25.4.
    for (id, width, height) in [
        ("na-letter", 21_590, 27_940),
        ("na-legal", 21_590, 35_560),
        ("na-tabloid", 27_940, 43_180),
    ] {
        assert_eq!(
            sheet(id),
            Some((Length::hundredths_mm(width), Length::hundredths_mm(height))),
            "{id}"
        );
    }
    // Common practice: pads and album sheets by their name.
    assert_eq!(
        sheet("trade-12x12-in"),
        Some((Length::inches(12), Length::inches(12)))
    );
    assert_eq!(
        sheet("trade-8x8-in"),
        Some((Length::inches(8), Length::inches(8)))
    );
    assert_eq!(
        sheet("trade-6x6-in"),
        Some((Length::inches(6), Length::inches(6)))
    );
    assert_eq!(sheet("trade-300-mm"), Some(mm(300, 300)));
}

#[test]
fn media_names_carry_the_same_sizes() {
    for (name, id) in PWG {
        let sides = name.rsplit('_').next().expect("a size part");
        let unit = if sides.ends_with("mm") { "mm" } else { "in" };
        let printed: Vec<Length> = sides
            .trim_end_matches(unit)
            .split('x')
            .map(|text| read(&format!("{text} {unit}"), Unit::Inch).expect(name))
            .collect();
        let (first, second) = sheet(id).or_else(|| envelope(id)).expect(id);
        assert_eq!(printed, [first, second], "{name}");
    }
}

#[test]
fn metric_envelopes() {
    // ISO 269, as restated in encyclopedias.
    for (id, height, length) in [
        ("dl", 110, 220),
        ("c7-c6", 81, 162),
        ("c6", 114, 162),
        ("c6-c5", 114, 229),
        ("c5", 162, 229),
        ("c4", 229, 324),
        ("c3", 324, 458),
        ("b6", 125, 176),
        ("b5", 176, 250),
        ("b4", 250, 353),
        ("e4", 280, 400),
    ] {
        assert_eq!(
            envelope(&format!("iso-{id}")),
            Some(mm(height, length)),
            "{id}"
        );
    }
}

#[test]
fn announcement_envelopes_are_their_enclosures_and_a_quarter() {
    // "Common envelope sizes and enclosure dimensions", a published chart;
    // A9's envelope from a printer's guide, its enclosure from memory. A1's
    // printed enclosure breaks the chart's own rule in length and stands apart.
    let quarter = ClearanceRule::by_id("quarter-in-all").expect("a rule");
    for (id, height, length, enclosed_height, enclosed_length) in [
        ("na-a2", "4.375", "5.75", "4.125", "5.5"),
        ("na-a6", "4.75", "6.5", "4.5", "6.25"),
        ("na-a7", "5.25", "7.25", "5", "7"),
        ("na-a8", "5.5", "8.125", "5.25", "7.875"),
        ("na-a9", "5.75", "8.75", "5.5", "8.5"),
        ("na-a10", "6", "9.5", "5.75", "9.25"),
        ("na-a-long", "3.875", "8.875", "3.625", "8.625"),
    ] {
        let (height, length) = (inches(height), inches(length));
        assert_eq!(envelope(id), Some((height, length)), "{id}");
        assert_eq!(height - quarter.height, inches(enclosed_height), "{id}");
        assert_eq!(length - quarter.length, inches(enclosed_length), "{id}");
    }
    assert_eq!(envelope("na-a1"), Some((inches("3.625"), inches("5.125"))));
    // The same A1 by a printer's rule, 1/8 in on top and at each side, takes
    // 3.5 × 4.875.
    let eighth = ClearanceRule::by_id("eighth-round").expect("a rule");
    assert_eq!(inches("3.625") - eighth.height, inches("3.5"));
    assert_eq!(inches("5.125") - eighth.length, inches("4.875"));
}

#[test]
fn commercial_envelopes_take_their_printed_enclosures() {
    // A published envelope size chart. Its 8.675 for No. 9 is printed so and
    // leaves less than any rule asks; 8.625 was meant.
    let eighth = ClearanceRule::by_id("eighth-round").expect("a rule");
    for (id, height, length, enclosed_height, enclosed_length) in [
        ("na-no-6-1-4", "3.5", "6", "3.25", "5.75"),
        ("na-no-6-3-4", "3.625", "6.5", "3.5", "6.25"),
        ("na-no-7", "3.75", "6.75", "3.5", "6.5"),
        ("na-no-7-3-4", "3.875", "7.5", "3.75", "7.25"),
        ("na-no-8-5-8", "3.625", "8.625", "3.5", "8.375"),
        ("na-no-9", "3.875", "8.875", "3.75", "8.625"),
        ("na-no-10", "4.125", "9.5", "4", "9.25"),
        ("na-no-11", "4.5", "10.375", "4.25", "10.125"),
        ("na-no-12", "4.75", "11", "4.5", "10.75"),
        ("na-no-14", "5", "11.5", "4.75", "11.25"),
    ] {
        assert_eq!(envelope(id), Some((inches(height), inches(length))), "{id}");
        let fits = envelopes_taking((inches(enclosed_length), inches(enclosed_height)), eighth);
        assert!(
            fits.iter()
                .any(|fit| fit.envelope.id == id && fit.lies == Lies::Upright),
            "{id} takes its enclosure"
        );
    }
}

#[test]
fn metric_pairs_fit_by_the_rule_drawn_from_them() {
    // ISO 269: what each envelope is for.
    let rule = ClearanceRule::by_id("iso-pairs").expect("a rule");
    for (long, short, id, spare_length, spare_height) in [
        (148, 105, "iso-c6", 14, 9),
        (210, 148, "iso-c5", 19, 14),
        (297, 210, "iso-c4", 27, 19),
        (210, 99, "iso-dl", 10, 11),
    ] {
        let fit = envelopes_taking((Length::mm(long), Length::mm(short)), rule)
            .into_iter()
            .find(|fit| fit.envelope.id == id)
            .expect(id);
        assert_eq!(fit.spare_length, Length::mm(spare_length), "{id}");
        assert_eq!(fit.spare_height, Length::mm(spare_height), "{id}");
    }
}

#[test]
fn the_clearance_rules_disagree_on_a_quarter_of_letter_in_a2() {
    // The 4 1/4 × 5 1/2 card for A2 is common practice; it leaves 1/8 in of
    // height, half of what the quarter-inch rule asks.
    let card = (inches("4 1/4"), inches("5 1/2"));
    let a2 = Envelope::by_id("na-a2").expect("an envelope");
    let accepts: Vec<(&str, bool)> = CLEARANCE_RULES
        .iter()
        .map(|rule| (rule.id, why_not(a2, card, rule).is_none()))
        .collect();
    assert_eq!(
        accepts,
        [
            ("eighth-round", true),
            ("quarter-in-all", false),
            ("iso-pairs", false),
            ("half-and-quarter", false),
            ("booklet", false),
        ]
    );
    let quarter = ClearanceRule::by_id("quarter-in-all").expect("a rule");
    let misfit = why_not(a2, card, quarter).expect("too tight");
    assert_eq!(misfit.lacking_height, inches("1/8"));
    assert_eq!(misfit.lacking_length, Length::ZERO);
    assert_eq!(misfit.lies, Lies::Turned);
    let eighth = ClearanceRule::by_id("eighth-round").expect("a rule");
    let fits = envelopes_taking(card, eighth);
    let tightest = fits.first().expect("an envelope");
    assert_eq!(
        (tightest.envelope.id, tightest.lies),
        ("na-a2", Lies::Turned)
    );
    assert_eq!(tightest.spare_length, inches("1/4"));
    assert_eq!(tightest.spare_height, inches("1/8"));
}

#[test]
fn cards_lie_upright_in_their_envelope_if_they_can() {
    let rule = ClearanceRule::by_id("eighth-round").expect("a rule");
    let fits = envelopes_taking((inches("5 1/4"), inches("5")), rule);
    let square = fits
        .iter()
        .find(|fit| fit.envelope.id == "na-square-6")
        .expect("the 6 in square");
    assert_eq!(square.lies, Lies::Upright);
    assert_eq!(square.spare_length, inches("3/4"));
    assert_eq!(square.spare_height, inches("1"));
}

#[test]
fn envelopes_come_tightest_first_and_every_other_says_why_not() {
    for rule in CLEARANCE_RULES {
        for card in [(inches("4"), inches("4")), (inches("5"), inches("7"))] {
            let fits = envelopes_taking(card, rule);
            let areas: Vec<f64> = fits
                .iter()
                .map(|fit| fit.envelope.length.as_mm_f64() * fit.envelope.height.as_mm_f64())
                .collect();
            assert!(!areas.is_empty());
            assert!(areas.is_sorted(), "{} orders by area", rule.id);
            for envelope in ENVELOPES {
                let fits = fits.iter().any(|fit| fit.envelope == envelope);
                let misfit = why_not(envelope, card, rule);
                assert_ne!(fits, misfit.is_some(), "{} by {}", envelope.id, rule.id);
            }
        }
    }
}

#[test]
fn basis_weights_convert_as_printed() {
    // Printed grammages: weight-equivalence tables of two printer media guides,
    // printers' paper weight pages, and a production printer's paper guide. The
    // tables round to whole grams; 0.8 % covers every row.
    let rows = [
        (20, Grade::Bond, 75.0),
        (24, Grade::Bond, 90.0),
        (28, Grade::Bond, 105.0),
        (32, Grade::Bond, 120.0),
        (50, Grade::Cover, 135.0),
        (60, Grade::Cover, 163.0),
        (65, Grade::Cover, 176.0),
        (80, Grade::Cover, 216.0),
        (90, Grade::Cover, 244.0),
        (100, Grade::Cover, 271.0),
        (130, Grade::Cover, 352.0),
        (50, Grade::Text, 74.0),
        (70, Grade::Text, 103.6),
        (80, Grade::Text, 118.4),
        (90, Grade::Text, 133.2),
        (100, Grade::Text, 148.0),
        (90, Grade::Index, 163.0),
        (110, Grade::Index, 199.0),
        (140, Grade::Index, 253.0),
        (67, Grade::Bristol, 148.0),
        (80, Grade::Bristol, 176.0),
        (100, Grade::Tag, 163.0),
        (125, Grade::Tag, 203.0),
    ];
    assert_eq!(rows.len(), 23);
    for (pounds, grade, printed) in rows {
        let grams = grams(Weight::pounds(pounds, grade));
        assert!(
            (grams / printed - 1.0).abs() <= 0.008,
            "{pounds} lb {grade:?}: {grams} g/m², printed {printed}"
        );
    }
}

#[test]
fn basis_factors_are_exact() {
    // lb × 453.59237 g ÷ (500 × area): grams per pound worked out to six
    // places from the exact pound and inch, times a thousand pounds.
    for (grade, micrograms_per_pound) in [
        (Grade::Bond, 3_759_730),
        (Grade::Cover, 2_704_114),
        (Grade::Text, 1_480_146),
        (Grade::Index, 1_807_958),
        (Grade::Bristol, 2_192_810),
        (Grade::Tag, 1_627_476),
    ] {
        let thousand = Weight::pounds(1000, grade).milligrams_per_square_metre();
        assert_eq!(thousand, micrograms_per_pound, "{grade:?}");
    }
    // One row of the printed equivalence table, to the nearest pound: 216 g/m².
    for (grade, pounds) in [
        (Grade::Bond, 58),
        (Grade::Text, 146),
        (Grade::Cover, 80),
        (Grade::Bristol, 98),
        (Grade::Index, 120),
        (Grade::Tag, 133),
    ] {
        let pound = grams(Weight::pounds(1, grade));
        assert!(
            (216.0 / pound - f64::from(pounds)).abs() <= 1.0,
            "{grade:?}"
        );
    }
}

#[test]
fn masses_of_pieces() {
    // Worked out from the exact factors; 80 g/m² A4 is the textbook case.
    let cover = |pounds| Weight::pounds(pounds, Grade::Cover);
    let half_letter = (inches("5.5"), inches("8.5"));
    for (weight, (width, height), tenths_of_milligrams) in [
        (
            Weight::grams(80),
            (Length::mm(210), Length::mm(297)),
            49_896,
        ),
        (
            Weight::grams(300),
            (Length::mm(148), Length::mm(210)),
            93_240,
        ),
        (cover(80), half_letter, 65_248),
        (cover(65), half_letter, 53_014),
        (cover(80), (inches("8.5"), inches("11")), 130_495),
    ] {
        let mass = weight.mass_of(width, height);
        assert!(
            (mass.micrograms() - tenths_of_milligrams * 100).abs() <= 50,
            "{weight:?}: {mass:?}"
        );
    }
    let pair = [Mass::from_micrograms(5_250_000); 2]
        .into_iter()
        .sum::<Mass>();
    assert_eq!(pair.tenths_of_a_gram(), 105);
}

#[test]
fn printed_calipers_are_plausible_and_suggested() {
    for row in CALIPERS {
        // Published density bands: 0.72–0.90 g/cm³ uncoated, 0.90–1.10 coated.
        let density = grams(row.weight) / (row.caliper.as_mm_f64() * 1000.0);
        assert!(
            (0.72..=1.10).contains(&density),
            "{:?}: {density}",
            row.weight
        );
        let hint = suggest_caliper(row.weight).expect("a hint");
        assert!(
            (hint.caliper - row.caliper).abs() <= Length::microns(5),
            "{:?} is its own suggestion",
            row.weight
        );
    }
    // Printers' charts: 65 lb cover 8 pt, 80 lb 9.5 pt, 100 lb 11 pt; a point
    // is 0.001 in.
    for (pounds, hundredths) in [(65, 20), (80, 24), (100, 28)] {
        let hint = suggest_caliper(Weight::pounds(pounds, Grade::Cover)).expect("a hint");
        assert_eq!(
            hint.caliper,
            Length::hundredths_mm(hundredths),
            "{pounds} lb"
        );
    }
    assert!(suggest_caliper(Weight::grams(0)).is_none());
}

/// Printers' charts give 80 lb cover as 9.5 pt, 0.2413 mm. Worked by hand, paper
/// of 250 g/m² as dense as 90 lb cover (243.37 g/m², 0.254 mm) is 0.2609 mm.
#[test]
fn a_thickness_says_what_it_is() {
    let printed = caliper_is(Weight::pounds(80, Grade::Cover), Length::microns(241));
    let CaliperIs::Printed(row) = printed else {
        panic!("it is printed: {printed:?}");
    };
    assert_eq!(row.weight, Weight::pounds(80, Grade::Cover));
    let estimated = caliper_is(Weight::grams(250), Length::hundredths_mm(26));
    let CaliperIs::Estimated(row) = estimated else {
        panic!("it is scaled: {estimated:?}");
    };
    assert_eq!(row.weight, Weight::pounds(90, Grade::Cover));
    let own = caliper_is(Weight::grams(250), Length::hundredths_mm(31));
    assert_eq!(own, CaliperIs::Own);
    assert_eq!(caliper_is(Weight::grams(0), Length::mm(1)), CaliperIs::Own);
    for paper in ReadyPaper::ALL {
        let stock = paper.stock(format!("{paper:?}"));
        let is = caliper_is(stock.weight, stock.caliper);
        assert_ne!(is, CaliperIs::Own, "{}", stock.name);
    }
}

#[test]
fn folding_guides_sum_exactly() {
    let rule = FoldInRule::by_id("sixteenth").expect("a rule");
    let allowance = rule.allowance(Body::Text, Length::ZERO);
    // Printers' folding guides, letter fold of 11 in: a third rounded up to
    // 1/32 in twice, and 1/16 in less.
    let wide = ceil(inches("3 2/3"), Step::ThirtySecond).at;
    assert_eq!(wide, inches("3.6875"));
    assert_eq!(wide - allowance, inches("3.625"));
    assert_eq!(wide * 2 + (wide - allowance), inches("11"));
    // The same guides, double parallel fold of 17 in: 4.28125 and 4.21875.
    let wide = inches("17/4") + inches("1/32");
    assert_eq!(wide - allowance, inches("4.21875"));
    assert_eq!(wide * 2 + (wide - allowance) * 2, inches("17"));
    // The same guides, roll fold of 17 in on text stock.
    let outer = inches("17/4") + inches("1/16");
    let third = outer - ROLL_RULE.text;
    let last = third - ROLL_RULE.last;
    assert_eq!(
        [outer, third, last],
        ["4.3125", "4.21875", "4.15625"].map(inches)
    );
    assert_eq!(outer * 2 + third + last, inches("17"));
    // Design guides: A4 in three is 100, 100 and 97 mm.
    let metric = FoldInRule::by_id("three-mm").expect("a rule");
    let wide = Length::mm(100);
    assert_eq!(
        wide * 2 + (wide - metric.allowance(Body::Cover, Length::ZERO)),
        Length::mm(297)
    );
}

#[test]
fn printed_finishing_rules() {
    // Prepress guide: 1/16 in for text, 1/8 in for cover.
    let rule = FoldInRule::by_id("sixteenth-eighth").expect("a rule");
    assert_eq!(
        rule.allowance(Body::of(Weight::pounds(70, Grade::Text)), Length::ZERO),
        inches("1/16")
    );
    assert_eq!(
        rule.allowance(Body::of(Weight::pounds(65, Grade::Cover)), Length::ZERO),
        inches("1/8")
    );
    // A bindery and a folding-styles guide disagree on the gate gap.
    let gaps: Vec<Length> = GATE_GAP_RULES.iter().map(|rule| rule.gap).collect();
    assert_eq!(gaps, [inches("1/8"), inches("1/4")]);
    // A mill, a finisher and a glossary: 150, 170 and 200 g/m².
    let thresholds: Vec<i64> = SCORE_THRESHOLDS
        .iter()
        .map(|threshold| threshold.above.milligrams_per_square_metre() / 1000)
        .collect();
    assert_eq!(thresholds, [150, 170, 200]);
}

#[test]
fn names_are_unique_and_everything_has_a_source() {
    let tables: [Vec<(&str, Source)>; 5] = [
        SHEETS.iter().map(|row| (row.id, row.source)).collect(),
        ENVELOPES.iter().map(|row| (row.id, row.source)).collect(),
        CLEARANCE_RULES
            .iter()
            .map(|row| (row.id, row.source))
            .collect(),
        FOLD_IN_RULES
            .iter()
            .map(|row| (row.id, row.source))
            .collect(),
        GATE_GAP_RULES
            .iter()
            .map(|row| (row.id, row.source))
            .collect(),
    ];
    // Sizes that a standard names are held against it above.
    for (id, source) in tables.iter().take(2).flatten() {
        assert_eq!(
            id.starts_with("iso-"),
            matches!(source, Source::Iso216 | Source::Iso269),
            "{id}"
        );
        assert!(!id.starts_with("trade-") || !source.is_standard(), "{id}");
    }
    for rows in tables {
        let names: BTreeSet<&str> = rows.iter().map(|(id, _)| *id).collect();
        assert_eq!(names.len(), rows.len(), "every name once: {names:?}");
    }
    for envelope in ENVELOPES {
        assert!(envelope.height <= envelope.length, "{}", envelope.id);
    }
}

#[test]
fn stocks_are_stored_readably_and_read_back() {
    let stocks = ReadyPaper::ALL.map(|paper| paper.stock(format!("{paper:?}")));
    let stocks = stocks.to_vec();
    let ids: BTreeSet<u32> = stocks.iter().map(|stock| stock.id.0).collect();
    assert_eq!(ids.len(), stocks.len());
    assert!(
        stocks
            .iter()
            .any(|stock| stock.side(StockSide::Back).print == Print::TwoWay)
    );
    let text = serde_json::to_string(&stocks).expect("plain data");
    let read: Vec<Stock> = serde_json::from_str(&text).expect("what was written");
    assert_eq!(read, stocks);
    assert!(text.contains(r#""weight":{"basis":{"pounds":80,"grade":"cover"}}"#));
    assert!(text.contains(r##""face":{"colour":"#9cc3c4","print":"one-way"}"##));
    assert!(text.contains(r#""heads":"to-foot","grain":"unknown""#));
    assert_eq!("#1F6f6b".parse(), Ok(Colour::rgb(0x001f_6f6b)));
    for wrong in ["", "1f6f6b", "#1f6f6", "#1f6f6b0", "#+f6f6b", "#éé"] {
        assert!(wrong.parse::<Colour>().is_err(), "{wrong}");
    }
}

/// Grams per square metre, for comparing with printed tables.
fn grams(weight: Weight) -> f64 {
    let milligrams = u32::try_from(weight.milligrams_per_square_metre()).unwrap_or(u32::MAX);
    f64::from(milligrams) / 1000.0
}

/// Envelopes are named as they are sold (ISO 269; published envelope charts).
#[test]
fn envelopes_keep_their_own_unit() {
    let size = |id| {
        let envelope = Envelope::by_id(id).expect("an envelope");
        envelope.size_words(DecimalMark::Point)
    };
    assert_eq!(size("iso-c6"), "162\u{a0}× 114\u{a0}mm");
    assert_eq!(size("na-a2"), "5¾\u{a0}× 4⅜\u{a0}in");
}
