//! Lengths: reading, writing, rounding, against published facts and laws.

use foldwright_engine::length::{
    DecimalMark, Length, Notation, ReadProblem, Step, Unit, ceil, floor, nearest, read, round_parts,
};
use proptest::prelude::*;

const STEPS: [Step; 7] = [
    Step::Eighth,
    Step::Sixteenth,
    Step::ThirtySecond,
    Step::SixtyFourth,
    Step::Millimetre,
    Step::HalfMillimetre,
    Step::TenthMillimetre,
];

const fn notation(step: Step) -> Notation {
    Notation {
        step,
        decimal: DecimalMark::Point,
    }
}

const fn sixteenths(count: i64) -> Length {
    Length::sixty_fourths(4 * count)
}

#[test]
fn units_are_the_exact_ones() {
    // International yard and pound, 1 July 1959: 1 yd = 0.9144 m exactly.
    assert_eq!(Length::inches(36), Length::hundredths_mm(91_440));
    assert_eq!(Length::inches(10), Length::mm(254));
    // Typographic point of page description and CSS: 1/72 in.
    assert_eq!(Length::from_units(25_400) * 72, Length::inches(1));
    // Common fractions in millimetres, worked out from 25.4.
    for (fraction, mm) in [
        ("1/32", "0.79375 mm"),
        ("1/16", "1.5875 mm"),
        ("3/32", "2.38125 mm"),
        ("1/8", "3.175 mm"),
        ("3/16", "4.7625 mm"),
        ("1/4", "6.35 mm"),
        ("3/8", "9.525 mm"),
        ("1/2", "12.7 mm"),
        // Letter, legal and tabloid sides.
        ("8.5", "215.9 mm"),
        ("11", "279.4 mm"),
        ("14", "355.6 mm"),
        ("17", "431.8 mm"),
    ] {
        assert_eq!(
            read(fraction, Unit::Inch),
            read(mm, Unit::Inch),
            "{fraction} in is {mm}"
        );
        assert!(read(fraction, Unit::Inch).is_ok(), "{fraction} is read");
    }
}

#[test]
fn reads_what_people_type() {
    // Common practice: the ways the same length is typed.
    let three_and_three_quarters = Length::sixty_fourths(3 * 64 + 48);
    for text in [
        "3 3/4",
        "3-3/4",
        "3\u{2013}3/4",
        "3¾",
        "3 ¾",
        "3-¾",
        "3³⁄₄",
        "3 3\u{2044}4",
        "3.75",
        "3,75",
        "3.75\"",
        "3,75 in",
        "3.75 IN",
        "3.75 in.",
        "3¾″",
        "3 3/4”",
        "3 3/4''",
        "3 3/4’’",
        "3 3/4 inches",
        "3.75 Zoll",
        " \u{a0}3\u{202f}3/4\u{2009}in ",
        "+3 3/4",
        "15/4",
        "3 + 3/4",
        "4 - 1/4",
        "4 \u{2212} 1/4",
        "4\u{2212}1/4 in",
        "95.25 mm",
        "9.525cm",
        "0.09525 m",
        "3 in + 19.05 mm",
    ] {
        assert_eq!(
            read(text, Unit::Inch),
            Ok(three_and_three_quarters),
            "{text}"
        );
    }
    for (text, length) in [
        ("95", Length::mm(95)),
        ("95 mm", Length::mm(95)),
        ("9.5cm", Length::mm(95)),
        ("9,5 CM", Length::mm(95)),
        ("95 1/2", Length::hundredths_mm(9550)),
        (".5", Length::hundredths_mm(50)),
        ("5.", Length::mm(5)),
        ("-1/8 in", Length::sixty_fourths(-8)),
        ("\u{2212}1/8\"", Length::sixty_fourths(-8)),
        ("–⅛ in", Length::sixty_fourths(-8)),
        ("⅟8 in", Length::sixty_fourths(8)),
        ("1' 6\"", Length::inches(18)),
        ("1'6 1/2", Length::sixty_fourths(18 * 64 + 32)),
        ("2 ft", Length::inches(24)),
        ("1′ 6″", Length::inches(18)),
        // A comma is a decimal mark, never a mark of thousands.
        ("1,234 mm", Length::microns(1234)),
        // Space on either side of a dash makes it a minus.
        ("5 -1/8 in", Length::mm(5) - Length::sixty_fourths(8)),
        ("5- 1/8 in", Length::mm(5) - Length::sixty_fourths(8)),
        ("5 1/2 in + 1/8 in", Length::sixty_fourths(5 * 64 + 40)),
        // A unit belongs to its own term only.
        ("100 + 1 in", Length::hundredths_mm(12_540)),
    ] {
        assert_eq!(read(text, Unit::Millimetre), Ok(length), "{text}");
    }
}

#[test]
fn reads_every_fraction_character() {
    // Unicode character names (blocks Latin-1 Supplement and Number Forms).
    for (character, over, under) in [
        ("¼", 1, 4),
        ("½", 1, 2),
        ("¾", 3, 4),
        ("⅐", 1, 7),
        ("⅑", 1, 9),
        ("⅒", 1, 10),
        ("⅓", 1, 3),
        ("⅔", 2, 3),
        ("⅕", 1, 5),
        ("⅖", 2, 5),
        ("⅗", 3, 5),
        ("⅘", 4, 5),
        ("⅙", 1, 6),
        ("⅚", 5, 6),
        ("⅛", 1, 8),
        ("⅜", 3, 8),
        ("⅝", 5, 8),
        ("⅞", 7, 8),
        ("↉", 0, 3),
    ] {
        let spelled = read(&format!("2 {over}/{under}"), Unit::Inch);
        assert_eq!(
            read(&format!("2{character}"), Unit::Inch),
            spelled,
            "{character}"
        );
        assert!(spelled.is_ok(), "{character}");
    }
}

#[test]
fn off_grid_numbers_go_to_the_nearest_unit() {
    // 1 828 800 / 7 = 261 257.14…; 1 828 800 / 256 = 7 143.75;
    // 25.4 mm / 128 = 14 287.5 units, a tie, goes to the even 14 288.
    assert_eq!(read("1/7", Unit::Inch), Ok(Length::from_units(261_257)));
    assert_eq!(read("1/256", Unit::Inch), Ok(Length::from_units(7_144)));
    assert_eq!(read("1/128", Unit::Inch), Ok(Length::from_units(14_288)));
    assert_eq!(read("3/128", Unit::Inch), Ok(Length::from_units(42_862)));
    // A third of an inch is whole.
    assert_eq!(
        read("1/3", Unit::Inch).map(|third| third * 3),
        Ok(Length::inches(1))
    );
}

#[test]
fn refusals_say_what_and_where() {
    use ReadProblem as P;
    for (text, problem, at) in [
        ("", P::Empty, 0..0),
        ("  ", P::Empty, 0..2),
        ("in", P::NumberMissing, 0..2),
        ("3 +", P::NumberMissing, 3..3),
        ("3 + - 1", P::NumberMissing, 4..5),
        (".", P::NumberMissing, 0..1),
        ("3 x 4", P::UnknownUnit("x".into()), 2..3),
        ("¾ Ells", P::UnknownUnit("ells".into()), 2..6),
        ("3 × 4", P::Strange('×'), 2..3),
        ("$3", P::Strange('$'), 0..1),
        ("1 234", P::TwoNumbers, 2..5),
        ("3 1/2 1/4", P::TwoNumbers, 6..7),
        ("3 in 2", P::TwoNumbers, 5..6),
        ("1.234,5", P::TwoDecimalMarks, 0..7),
        ("1,234,567 mm", P::TwoDecimalMarks, 0..9),
        ("3/", P::DenominatorMissing, 2..2),
        ("3²", P::DenominatorMissing, 2..2),
        ("3/0", P::ZeroDenominator, 2..3),
        ("3.5/4", P::DecimalInFraction, 0..3),
        ("1/2/3", P::Misplaced, 3..4),
        ("3\"\"", P::Misplaced, 2..3),
        ("1234567890123", P::TooManyDigits, 0..13),
        ("1' 12\"", P::TooManyInches, 3..5),
        ("1'234", P::TooManyInches, 2..5),
        ("10.001 m", P::TooLong, 0..8),
        ("394 in", P::TooLong, 0..6),
    ] {
        let error = read(text, Unit::Inch).expect_err(text);
        assert_eq!(
            (error.problem.clone(), error.at.clone()),
            (problem, at),
            "{text:?}"
        );
    }
    assert_eq!(read("10 m", Unit::Inch), Ok(Length::LIMIT));
    assert_eq!(read("-10 m", Unit::Inch), Ok(-Length::LIMIT));
}

#[test]
fn writes_as_makers_read() {
    let sixteenth = notation(Step::Sixteenth);
    let off = sixteenths(51) + Length::hundredths_mm(40);
    for (length, plain, exact, exactly) in [
        (sixteenths(51), "3³⁄₁₆", "3 3/16 in", "3³⁄₁₆ in"),
        (sixteenths(60), "3¾", "3 3/4 in", "3¾ in"),
        (sixteenths(64), "4", "4 in", "4 in"),
        (sixteenths(-2), "−⅛", "−1/8 in", "−⅛ in"),
        (sixteenths(-50), "−3⅛", "−3 1/8 in", "−3⅛ in"),
        (sixteenths(15), "¹⁵⁄₁₆", "15/16 in", "¹⁵⁄₁₆ in"),
        (Length::ZERO, "0", "0 in", "0 in"),
        // 3 3/16 in is 80.9625 mm.
        (off, "3³⁄₁₆⁺", "81.3625 mm", "81.3625 mm"),
        // 3 11/16 in is 93.6625 mm.
        (
            sixteenths(59) - Length::hundredths_mm(50),
            "3¹¹⁄₁₆⁻",
            "93.1625 mm",
            "93.1625 mm",
        ),
        (
            sixteenths(16) + Length::hundredths_mm(3),
            "1⁺",
            "25.43 mm",
            "25.43 mm",
        ),
        // What is over or under is the number behind the sign.
        (-off, "−3³⁄₁₆⁺", "−81.3625 mm", "−81.3625 mm"),
        (
            sixteenths(-16) + Length::hundredths_mm(3),
            "−1⁻",
            "−25.37 mm",
            "−25.37 mm",
        ),
        // Half of 1/16 in is 0.79375 mm.
        (Length::hundredths_mm(79), "<¹⁄₁₆", "0.79 mm", "0.79 mm"),
        (Length::hundredths_mm(-30), "−<¹⁄₁₆", "−0.3 mm", "−0.3 mm"),
        (Length::hundredths_mm(80), "¹⁄₁₆⁻", "0.8 mm", "0.8 mm"),
        (
            Length::sixty_fourths(205),
            "3³⁄₁₆⁺",
            "3 13/64 in",
            "3¹³⁄₆₄ in",
        ),
    ] {
        assert_eq!(sixteenth.plain(length), plain);
        assert_eq!(sixteenth.with_unit(length), format!("{plain}\u{a0}in"));
        assert_eq!(sixteenth.exact(length), exact);
        assert_eq!(sixteenth.exactly(length), exactly.replace(' ', "\u{a0}"));
    }
    let half = Notation {
        step: Step::HalfMillimetre,
        decimal: DecimalMark::Comma,
    };
    assert_eq!(half.plain(Length::hundredths_mm(9550)), "95,5");
    assert_eq!(half.with_unit(Length::mm(-95)), "−95\u{a0}mm");
    assert_eq!(half.with_unit(Length::hundredths_mm(9570)), "95,5⁺\u{a0}mm");
    assert_eq!(half.with_unit(Length::hundredths_mm(20)), "<0,5\u{a0}mm");
    assert_eq!(half.exact(Length::hundredths_mm(9570)), "95,7 mm");
    assert_eq!(
        sixteenth.size(sixteenths(68), sixteenths(88)),
        "4¼\u{a0}× 5½\u{a0}in"
    );
    assert_eq!(
        sixteenth.size(off, sixteenths(88)),
        "3³⁄₁₆⁺\u{a0}× 5½\u{a0}in"
    );
    assert_eq!(
        sixteenth.exact_size(Length::sixty_fourths(205), sixteenths(88)),
        "3¹³⁄₆₄\u{a0}× 5½\u{a0}in"
    );
    // Names are kept as they were given before there was any other form.
    assert_eq!(
        sixteenth.size_in_names(sixteenths(68), sixteenths(88)),
        "4 1/4 × 5 1/2 in"
    );
    assert_eq!(
        half.size_in_names(Length::mm(210), Length::hundredths_mm(29_750)),
        "210 × 297,5 mm"
    );
    assert_eq!(
        sixteenth.size_in_names(off, sixteenths(88)),
        "81.3625 mm × 5 1/2 in"
    );
    assert_eq!(
        sixteenth.exact_size(off, sixteenths(88)),
        "81.3625\u{a0}× 139.7\u{a0}mm"
    );
    assert_eq!(Step::ThirtySecond.words(DecimalMark::Point), "¹⁄₃₂\u{a0}in");
    assert_eq!(
        Step::HalfMillimetre.words(DecimalMark::Comma),
        "0,5\u{a0}mm"
    );
}

#[test]
fn sets_fractions_in_the_characters_that_are_there() {
    // Unicode character names: "vulgar fraction" of one quarter, one half, three
    // quarters and the eighths; no binary fraction finer than an eighth has one.
    let set: Vec<String> = (1..8)
        .map(|count| notation(Step::Eighth).plain(Length::sixty_fourths(8 * count)))
        .collect();
    assert_eq!(set, ["⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"]);
    let finer = notation(Step::SixtyFourth);
    for count in (1..64).filter(|count| count % 8 != 0) {
        let set = finer.plain(Length::sixty_fourths(count));
        assert!(set.contains('\u{2044}'), "{set}: with the fraction slash");
        assert!(
            !set.contains(|it: char| it.is_ascii()),
            "{set}: no plain figures"
        );
    }
}

#[test]
fn a_rounded_number_is_no_length_to_type() {
    use ReadProblem as P;
    for (text, at) in [
        ("3³⁄₁₆⁺ in", 5..6),
        ("95⁻ mm", 2..3),
        ("<¹⁄₁₆ in", 0..1),
        ("−<1", 1..2),
    ] {
        let error = read(text, Unit::Inch).expect_err(text);
        assert_eq!((error.problem, error.at), (P::Rounded, at), "{text:?}");
    }
}

#[test]
fn parse_after_print_is_identity_to_fifty_inches() {
    let inches = notation(Step::SixtyFourth);
    for count in 0..=50 * 64 {
        let length = Length::sixty_fourths(count);
        assert_eq!(read(&inches.plain(length), Unit::Inch), Ok(length));
        assert_eq!(
            read(&inches.with_unit(length), Unit::Millimetre),
            Ok(length)
        );
        assert_eq!(
            read(&notation(Step::Eighth).exact(length), Unit::Millimetre),
            Ok(length)
        );
    }
    for count in 0..=127_000 {
        let length = Length::hundredths_mm(count);
        for step in [Step::TenthMillimetre, Step::Sixteenth] {
            assert_eq!(read(&notation(step).exact(length), Unit::Inch), Ok(length));
        }
        if count % 10 == 0 {
            let plain = notation(Step::TenthMillimetre).plain(length);
            assert_eq!(read(&plain, Unit::Millimetre), Ok(length));
        }
    }
}

#[test]
fn ties_go_to_the_even_mark() {
    // "Rules for rounding off", a college sheet of rule A of ISO 80000-1:
    // 21.350 → 21.4, 21.45 → 21.4, 21.4501 → 21.5, 56.748 → 56.7.
    for (text, mark) in [
        ("21.350 mm", "21.4"),
        ("21.45 mm", "21.4"),
        ("21.4501 mm", "21.5"),
        ("56.748 mm", "56.7"),
    ] {
        let length = read(text, Unit::Millimetre).expect(text);
        let nearest = nearest(length, Step::TenthMillimetre);
        assert_eq!(
            notation(Step::TenthMillimetre).plain(nearest.at),
            mark,
            "{text}"
        );
    }
    // IS 2: for other steps divide, round, multiply back. 1/16 in is half of
    // 1/8: between 0 and 1 the even one is 0, between 1 and 2 it is 2.
    assert_eq!(nearest(sixteenths(1), Step::Eighth).at, Length::ZERO);
    assert_eq!(nearest(sixteenths(3), Step::Eighth).at, sixteenths(4));
    assert_eq!(nearest(sixteenths(-3), Step::Eighth).at, sixteenths(-4));
    assert_eq!(nearest(sixteenths(-1), Step::Eighth).rest, sixteenths(-1));
}

#[test]
fn parts_keep_their_sum() {
    // 11 in in three: 3 2/3 in each; the sum stays 11 (printers' folding guides
    // divide the sheet the same way).
    let third = read("3 2/3", Unit::Inch).expect("a length");
    assert_eq!(
        round_parts(&[third; 3], Step::Sixteenth),
        [sixteenths(59), sixteenths(59), sixteenths(58)]
    );
    // A part on a mark stays where it is.
    let parts = [
        Length::mm(100),
        Length::hundredths_mm(9860),
        Length::hundredths_mm(9840),
    ];
    assert_eq!(
        round_parts(&parts, Step::Millimetre),
        [Length::mm(100), Length::mm(99), Length::mm(98)]
    );
    assert_eq!(round_parts(&[], Step::Eighth), []);
}

#[test]
fn arithmetic_saturates_and_divides_with_a_rest() {
    let most = Length::from_units(i64::MAX);
    assert_eq!(most + most, most);
    assert_eq!(-Length::from_units(i64::MIN), most);
    assert_eq!(most * 3, most);
    assert_eq!(Length::from_units(i64::MIN).abs(), most);
    assert_eq!(
        Length::from_units(-7).div_rem(2),
        Some((Length::from_units(-4), Length::from_units(1)))
    );
    assert_eq!(most.div_rem(0), None);
    assert_eq!(Length::from_units(-7).half_down(), Length::from_units(-4));
    assert_eq!(
        [Length::mm(1), Length::mm(2)].into_iter().sum::<Length>(),
        Length::mm(3)
    );
}

#[test]
fn stored_form_is_readable() {
    let stored = serde_json::to_string(&(
        Length::mm(1),
        Notation {
            step: Step::ThirtySecond,
            decimal: DecimalMark::Comma,
        },
    ))
    .expect("plain data");
    assert_eq!(
        stored,
        r#"["1 mm",{"step":"thirty-second","decimal":"comma"}]"#
    );
    for (length, text) in [
        (Length::sixty_fourths(17 * 16), r#""4 1/4 in""#),
        (Length::hundredths_mm(-9550), r#""−95.5 mm""#),
        (Length::from_units(1), "1"),
        (Length::from_units(i64::MIN), "-9223372036854775808"),
    ] {
        assert_eq!(serde_json::to_string(&length).expect("a length"), text);
    }
}

#[test]
fn stored_lengths_name_their_unit() {
    let read = |text: &str| serde_json::from_str::<Length>(text);
    assert_eq!(read(r#""3¾ in""#).ok(), Some(Length::sixty_fourths(240)));
    assert_eq!(read("72000").ok(), Some(Length::mm(1)));
    assert_eq!(read(r#""0""#).ok(), Some(Length::ZERO));
    for refused in [
        r#""95""#,
        r#""wide""#,
        "1.5",
        "null",
        "18446744073709551615",
    ] {
        assert!(read(refused).is_err(), "{refused}");
    }
}

fn any_length() -> impl Strategy<Value = Length> {
    (-Length::LIMIT.units()..=Length::LIMIT.units()).prop_map(Length::from_units)
}

fn any_step() -> impl Strategy<Value = Step> {
    prop::sample::select(STEPS.to_vec())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4096))]

    #[test]
    fn stored_lengths_read_back(length in any_length(), units in any::<i64>()) {
        for length in [length, nearest(length, Step::SixtyFourth).at, Length::from_units(units)] {
            let stored = serde_json::to_string(&length).expect("a length");
            prop_assert_eq!(serde_json::from_str::<Length>(&stored).expect("stored"), length);
        }
    }

    #[test]
    fn any_text_is_read_or_refused_within_itself(text in any::<String>()) {
        if let Err(error) = read(&text, Unit::Inch) {
            prop_assert!(error.at.start <= error.at.end);
            prop_assert!(error.at.end <= text.chars().count());
        }
    }

    #[test]
    fn any_length_like_text_is_read_or_refused(
        text in r#"[0-9 ./,+\-−–'"¾½⅟³⁄₄⁺⁻<inmczofteh]{0,40}"#,
    ) {
        if let Ok(length) = read(&text, Unit::Inch) {
            prop_assert!(length.abs() <= Length::LIMIT);
        }
    }

    #[test]
    fn exact_form_reads_back(length in any_length(), step in any_step(), comma: bool) {
        let decimal = if comma { DecimalMark::Comma } else { DecimalMark::Point };
        let text = Notation { step, decimal }.exact(length);
        prop_assert_eq!(read(&text, Unit::Inch), Ok(length), "{}", text);
        prop_assert_eq!(read(&text, Unit::Millimetre), Ok(length), "{}", text);
    }

    #[test]
    fn what_is_shown_reads_back_or_says_that_it_is_rounded(
        length in any_length(), step in any_step(), comma: bool,
    ) {
        let decimal = if comma { DecimalMark::Comma } else { DecimalMark::Point };
        let notation = Notation { step, decimal };
        let mark = nearest(length, step);
        // The mark next to the longest length there is may be past it.
        prop_assume!(mark.at.abs() <= Length::LIMIT);
        for (text, unit) in [
            (notation.plain(mark.at), step.unit()),
            (notation.with_unit(mark.at), Unit::Millimetre),
            (notation.with_unit(mark.at), Unit::Inch),
        ] {
            prop_assert_eq!(read(&text, unit), Ok(mark.at), "{}", text);
        }
        prop_assert_eq!(read(&notation.exactly(length), Unit::Inch), Ok(length));
        let shown = notation.with_unit(length);
        let in_inches = shown.ends_with("in");
        prop_assert_eq!(in_inches, step.unit() == Unit::Inch, "{}", shown);
        prop_assert_eq!(in_inches, !shown.contains("mm"), "{}", shown);
        prop_assert!(!shown.contains(' '), "{} holds a space that breaks", shown);
        if !mark.is_exact() {
            let refused = read(&shown, Unit::Inch).map_err(|error| error.problem);
            prop_assert_eq!(refused, Err(ReadProblem::Rounded), "{}", shown);
        }
    }

    #[test]
    fn marks_surround_the_length(length in any::<i64>(), step in any_step()) {
        let length = Length::from_units(length / 4);
        let (low, near, high) = (floor(length, step), nearest(length, step), ceil(length, step));
        for mark in [low, near, high] {
            prop_assert_eq!(mark.at + mark.rest, length);
            prop_assert_eq!(mark.at.units() % step.length().units(), 0);
            prop_assert!(mark.rest.abs() < step.length());
        }
        prop_assert!(low.at <= length && length <= high.at);
        prop_assert!(near.rest.abs() * 2 <= step.length());
    }

    #[test]
    fn rounded_parts_sum_to_the_rounded_whole(
        parts in prop::collection::vec(any_length(), 0..12),
        step in any_step(),
    ) {
        let rounded = round_parts(&parts, step);
        let whole: Length = parts.iter().copied().sum();
        prop_assert_eq!(rounded.iter().copied().sum::<Length>(), nearest(whole, step).at);
        for (part, mark) in parts.iter().zip(&rounded) {
            prop_assert!((*part - *mark).abs() < step.length());
            prop_assert_eq!(mark.units() % step.length().units(), 0);
        }
    }
}
