//! Numbers read aloud, and what is said in runs.

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::starters;
use foldwright_engine::steps::steps;

use super::{de, en};
use crate::{
    English, German, Language, Run, Speaker, ToldFigure, Tongue, aloud, runs, starter, voiced,
};

/// Whole numbers as the library `num2words` 0.5.14 spells them (from `PyPI`; `en_GB`
/// without its commas behind the thousands, and `de`).
const CARDINALS: [(u32, &str, &str); 45] = [
    (0, "zero", "null"),
    (1, "one", "eins"),
    (2, "two", "zwei"),
    (3, "three", "drei"),
    (7, "seven", "sieben"),
    (11, "eleven", "elf"),
    (12, "twelve", "zwölf"),
    (13, "thirteen", "dreizehn"),
    (16, "sixteen", "sechzehn"),
    (17, "seventeen", "siebzehn"),
    (20, "twenty", "zwanzig"),
    (21, "twenty-one", "einundzwanzig"),
    (22, "twenty-two", "zweiundzwanzig"),
    (27, "twenty-seven", "siebenundzwanzig"),
    (30, "thirty", "dreißig"),
    (31, "thirty-one", "einunddreißig"),
    (32, "thirty-two", "zweiunddreißig"),
    (48, "forty-eight", "achtundvierzig"),
    (55, "fifty-five", "fünfundfünfzig"),
    (64, "sixty-four", "vierundsechzig"),
    (66, "sixty-six", "sechsundsechzig"),
    (76, "seventy-six", "sechsundsiebzig"),
    (88, "eighty-eight", "achtundachtzig"),
    (99, "ninety-nine", "neunundneunzig"),
    (100, "one hundred", "einhundert"),
    (101, "one hundred and one", "einhunderteins"),
    (102, "one hundred and two", "einhundertzwei"),
    (110, "one hundred and ten", "einhundertzehn"),
    (116, "one hundred and sixteen", "einhundertsechzehn"),
    (
        127,
        "one hundred and twenty-seven",
        "einhundertsiebenundzwanzig",
    ),
    (
        148,
        "one hundred and forty-eight",
        "einhundertachtundvierzig",
    ),
    (210, "two hundred and ten", "zweihundertzehn"),
    (215, "two hundred and fifteen", "zweihundertfünfzehn"),
    (
        279,
        "two hundred and seventy-nine",
        "zweihundertneunundsiebzig",
    ),
    (
        297,
        "two hundred and ninety-seven",
        "zweihundertsiebenundneunzig",
    ),
    (305, "three hundred and five", "dreihundertfünf"),
    (420, "four hundred and twenty", "vierhundertzwanzig"),
    (
        432,
        "four hundred and thirty-two",
        "vierhundertzweiunddreißig",
    ),
    (
        999,
        "nine hundred and ninety-nine",
        "neunhundertneunundneunzig",
    ),
    (1000, "one thousand", "eintausend"),
    (1001, "one thousand and one", "eintausendeins"),
    (1016, "one thousand and sixteen", "eintausendsechzehn"),
    (1100, "one thousand one hundred", "eintausendeinhundert"),
    (
        2540,
        "two thousand five hundred and forty",
        "zweitausendfünfhundertvierzig",
    ),
    (10000, "ten thousand", "zehntausend"),
];

#[test]
fn whole_numbers_are_spelled_as_elsewhere() {
    for (number, english, german) in CARDINALS {
        assert_eq!(en::cardinal(number), english);
        assert_eq!(de::cardinal(number), german);
    }
}

/// Lengths as they are shown, and in words. Worked by hand: English fractions as
/// makers say them (common practice), German ones as Duden writes fractions
/// before a measure (from memory).
const LENGTHS: [(&str, &str, &str); 40] = [
    (
        "¹⁄₁₆ in",
        "one sixteenth of an inch",
        "ein sechzehntel Zoll",
    ),
    (
        "³⁄₁₆ in",
        "three sixteenths of an inch",
        "drei sechzehntel Zoll",
    ),
    (
        "⁵⁄₁₆ in",
        "five sixteenths of an inch",
        "fünf sechzehntel Zoll",
    ),
    (
        "¹⁵⁄₁₆ in",
        "fifteen sixteenths of an inch",
        "fünfzehn sechzehntel Zoll",
    ),
    (
        "¹⁄₃₂ in",
        "one thirty-second of an inch",
        "ein zweiunddreißigstel Zoll",
    ),
    (
        "³¹⁄₃₂ in",
        "thirty-one thirty-seconds of an inch",
        "einunddreißig zweiunddreißigstel Zoll",
    ),
    (
        "¹⁄₆₄ in",
        "one sixty-fourth of an inch",
        "ein vierundsechzigstel Zoll",
    ),
    (
        "⁶³⁄₆₄ in",
        "sixty-three sixty-fourths of an inch",
        "dreiundsechzig vierundsechzigstel Zoll",
    ),
    (
        "3³⁄₁₆ in",
        "three and three sixteenths inches",
        "drei und drei sechzehntel Zoll",
    ),
    (
        "1¹⁄₁₆ in",
        "one and one sixteenth inches",
        "eins und ein sechzehntel Zoll",
    ),
    (
        "12¹³⁄₁₆ in",
        "twelve and thirteen sixteenths inches",
        "zwölf und dreizehn sechzehntel Zoll",
    ),
    (
        "21⁷⁄₃₂ in",
        "twenty-one and seven thirty-seconds inches",
        "einundzwanzig und sieben zweiunddreißigstel Zoll",
    ),
    (
        "8²¹⁄₆₄ in",
        "eight and twenty-one sixty-fourths inches",
        "acht und einundzwanzig vierundsechzigstel Zoll",
    ),
    (
        "−3³⁄₁₆ in",
        "minus three and three sixteenths inches",
        "minus drei und drei sechzehntel Zoll",
    ),
    (
        "−¹⁄₁₆ in",
        "minus one sixteenth of an inch",
        "minus ein sechzehntel Zoll",
    ),
    (
        "3³⁄₁₆",
        "three and three sixteenths",
        "drei und drei Sechzehntel",
    ),
    ("¹⁄₁₆", "one sixteenth", "ein Sechzehntel"),
    (
        "5⁹⁄₃₂",
        "five and nine thirty-seconds",
        "fünf und neun Zweiunddreißigstel",
    ),
    (
        "7¹⁄₆₄",
        "seven and one sixty-fourth",
        "sieben und ein Vierundsechzigstel",
    ),
    (
        "3³⁄₁₆⁺ in",
        "a little over three and three sixteenths inches",
        "etwas über drei und drei sechzehntel Zoll",
    ),
    (
        "3³⁄₁₆⁻ in",
        "a little under three and three sixteenths inches",
        "etwas unter drei und drei sechzehntel Zoll",
    ),
    (
        "3⅛⁺ in",
        "a little over three and one eighth inches",
        "etwas über drei und ein achtel Zoll",
    ),
    (
        "3⅜⁻ in",
        "a little under three and three eighths inches",
        "etwas unter drei und drei achtel Zoll",
    ),
    (
        "½⁺ in",
        "a little over one half of an inch",
        "etwas über ein halber Zoll",
    ),
    ("½⁺", "a little over one half", "etwas über ein halb"),
    (
        "¾⁻ in",
        "a little under three quarters of an inch",
        "etwas unter drei viertel Zoll",
    ),
    (
        "4½⁺ in",
        "a little over four and one half inches",
        "etwas über viereinhalb Zoll",
    ),
    (
        "1½⁻",
        "a little under one and one half",
        "etwas unter eineinhalb",
    ),
    (
        "4¼⁻ in",
        "a little under four and one quarter inches",
        "etwas unter vier und ein viertel Zoll",
    ),
    ("1⁺ in", "a little over one inch", "etwas über ein Zoll"),
    (
        "5⁻ in",
        "a little under five inches",
        "etwas unter fünf Zoll",
    ),
    (
        "<¹⁄₁₆ in",
        "less than one sixteenth of an inch",
        "weniger als ein sechzehntel Zoll",
    ),
    (
        "<⅛ in",
        "less than one eighth of an inch",
        "weniger als ein achtel Zoll",
    ),
    (
        "−<¹⁄₃₂ in",
        "minus less than one thirty-second of an inch",
        "minus weniger als ein zweiunddreißigstel Zoll",
    ),
    (
        "3⁺ mm",
        "a little over three millimetres",
        "etwas über drei Millimeter",
    ),
    (
        "1⁻ mm",
        "a little under one millimetre",
        "etwas unter ein Millimeter",
    ),
    (
        "101⁺ mm",
        "a little over one hundred and one millimetres",
        "etwas über einhundertein Millimeter",
    ),
    (
        "95.5⁺ mm",
        "a little over ninety-five point five millimetres",
        "etwas über fünfundneunzig Komma fünf Millimeter",
    ),
    (
        "95,5⁻ mm",
        "a little under ninety-five point five millimetres",
        "etwas unter fünfundneunzig Komma fünf Millimeter",
    ),
    (
        "<0.5 mm",
        "less than zero point five millimetres",
        "weniger als null Komma fünf Millimeter",
    ),
];

#[test]
fn lengths_are_read_aloud() {
    for (shown, english, german) in LENGTHS {
        let shown = shown.replace(' ', "\u{a0}");
        assert_eq!(aloud(&English, &shown), english);
        assert_eq!(aloud(&German, &shown), german);
        // Also among words and in a size.
        let among = format!("Trim it to {shown} × {shown}, about 4¼ now.");
        let told = format!("Trim it to {english} × {english}, about 4¼ now.");
        assert_eq!(aloud(&English, &among), told);
    }
}

#[test]
fn what_ears_need_no_help_with_stays() {
    for text in [
        "",
        "Cut the mat 4¼ × 5½ in.",
        "95 mm from the left, 9,5 cm and 250 g/m²",
        "front ⁺ back, x² and A⁺",
        "3/16 in − 0.2",
        "99999999999⁺ in",
    ] {
        assert_eq!(aloud(&English, text), text);
        let runs = runs(&English, text);
        assert!(runs.iter().all(|run| run.aloud.is_none()), "{runs:?}");
    }
}

/// What a voice is given besides: lengths that screen readers know how to say. More of
/// them are spelled anew by `tests/reference/voiced.py`.
const VOICED: [(&str, &str, &str); 8] = [
    ("4 in", "four inches", "vier Zoll"),
    ("1 in", "one inch", "ein Zoll"),
    ("½ in", "one half of an inch", "ein halber Zoll"),
    (
        "3¾ in",
        "three and three quarters inches",
        "drei und drei viertel Zoll",
    ),
    (
        "95,5 mm",
        "ninety-five point five millimetres",
        "fünfundneunzig Komma fünf Millimeter",
    ),
    (
        "4¼ × 5½ in",
        "four and one quarter by five and one half inches",
        "vier und ein Viertel mal fünfeinhalb Zoll",
    ),
    ("4 × 6 in", "4 by six inches", "4 mal sechs Zoll"),
    (
        "3³⁄₁₆⁺ in",
        "a little over three and three sixteenths inches",
        "etwas über drei und drei sechzehntel Zoll",
    ),
];

#[test]
fn a_voice_is_given_words() {
    for (shown, english, german) in VOICED {
        let shown = shown.replace(' ', "\u{a0}");
        let plain = |said: String| said.replace('\u{a0}', " ");
        assert_eq!(plain(voiced(&English, &shown)), english);
        assert_eq!(plain(voiced(&German, &shown)), german);
        // What a screen reader hears comes to the same.
        for tongue in [&English as &'static dyn Tongue, &German] {
            let heard = aloud(tongue, &shown);
            assert_eq!(voiced(tongue, &heard), voiced(tongue, &shown));
        }
    }
    for text in ["", "Step 3 of 12", "250 g/m², x²", "24 cards, 3/16 in"] {
        assert_eq!(voiced(&English, text), text);
    }
}

/// Nothing in the steps of the starting folds is left that a voice might read
/// otherwise than it is meant.
#[test]
fn no_step_has_figures_that_voices_stumble_over() {
    for starting in starters() {
        for language in Language::ALL {
            let tongue = language.tongue();
            let recipe = starter(tongue, starting, starting.recipe.notation);
            let card = work_out(&recipe, &Tools::default());
            let say = Speaker::of(tongue, &recipe).with_exact();
            for step in steps(&recipe, &card) {
                let told = say.step(&step);
                let figures = told.figures.iter().map(ToldFigure::whole);
                for text in told.does.iter().cloned().chain(figures).chain([told.title]) {
                    let said = voiced(tongue, &text);
                    let stumbles = |letter: char| "¼½¾⅛⅜⅝⅞⁄×⁺⁻\u{fff9}\u{fffa}".contains(letter);
                    assert!(!said.contains(stumbles), "{said}");
                    assert!(
                        !said.contains("\u{a0}in") && !said.contains("\u{a0}mm"),
                        "{said}"
                    );
                }
            }
        }
    }
}

/// A speaker with the exact lengths behind: what is shown is the same as without
/// it, and no mark of what is behind is seen or heard.
#[test]
fn the_exact_length_stands_behind_a_rounded_one() {
    let notation = Notation {
        step: Step::Sixteenth,
        decimal: DecimalMark::Point,
    };
    let off = Length::sixty_fourths(205);
    let size = Size {
        width: off,
        height: Length::sixty_fourths(352),
    };
    for tongue in [&English as &'static dyn Tongue, &German] {
        let plain = Speaker::without_recipe(tongue, notation);
        let behind = plain.with_exact();
        for (with, without, exact) in [
            (behind.length(off), plain.length(off), "3¹³⁄₆₄\u{a0}in"),
            (
                behind.short_length(off),
                plain.short_length(off),
                "3¹³⁄₆₄\u{a0}in",
            ),
            (
                behind.size(size),
                plain.size(size),
                "3¹³⁄₆₄\u{a0}× 5½\u{a0}in",
            ),
            (
                behind.short_size(size),
                plain.short_size(size),
                "3¹³⁄₆₄\u{a0}× 5½\u{a0}in",
            ),
            (
                behind.length(Length::hundredths_mm(70)),
                plain.length(Length::hundredths_mm(70)),
                "0.7\u{a0}mm",
            ),
        ] {
            let runs = runs(tongue, &with);
            let shown: String = runs.iter().map(|run| run.shown.as_str()).collect();
            assert_eq!(shown, without);
            let found: Vec<_> = runs.iter().filter_map(|run| run.exact.as_deref()).collect();
            assert_eq!(found, [exact]);
            assert_eq!(aloud(tongue, &with), aloud(tongue, &without));
        }
        let even = Length::sixty_fourths(204);
        assert_eq!(behind.length(even), plain.length(even));
    }
    assert_eq!(
        Speaker::without_recipe(&English, notation).length(off),
        "about 3³⁄₁₆\u{a0}in"
    );
    assert_eq!(
        Speaker::without_recipe(&German, notation).length(Length::hundredths_mm(70)),
        "weniger als ¹⁄₁₆\u{a0}in"
    );
}

/// Marks that somebody typed into a name tear nothing.
#[test]
fn stray_marks_are_text() {
    for text in [
        "a\u{FFF9}b",
        "a\u{FFFB}b\u{FFF9}c\u{FFFA}",
        "\u{FFF9}\u{FFFB}",
    ] {
        let runs: Vec<Run> = runs(&English, text);
        let shown: String = runs.into_iter().map(|run| run.shown).collect();
        assert_eq!(shown, text);
    }
}
