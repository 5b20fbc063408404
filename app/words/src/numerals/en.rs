//! Numbers as they are read aloud in English. Spelled as CLDR spells them out
//! with "and" behind the hundreds; fractions as "three sixteenths" (common
//! practice).

use foldwright_engine::length::Unit;
use foldwright_gathered::gathered;

use super::{Amount, Nearly, Part};

#[gathered]
pub(crate) fn about(mark: &str) -> String {
    format!("about {mark}")
}

#[gathered]
pub(crate) fn a_little_off(mark: &str, is_over: bool) -> String {
    if is_over {
        format!("a little over {mark}")
    } else {
        format!("a little under {mark}")
    }
}

#[gathered]
pub(crate) fn less_than(mark: &str) -> String {
    format!("less than {mark}")
}

/// A number with its unit: "three and three sixteenths inches".
#[gathered]
pub(crate) fn aloud(amount: &Amount) -> String {
    let number = number(amount);
    let size = match (amount.unit, amount.is_fraction(), amount.is_one()) {
        (None, ..) => number,
        (Some(Unit::Inch), true, _) => format!("{number} of an inch"),
        (Some(Unit::Inch), false, true) => format!("{number} inch"),
        (Some(Unit::Inch), false, false) => format!("{number} inches"),
        (Some(Unit::Millimetre), true, _) => format!("{number} of a millimetre"),
        (Some(Unit::Millimetre), false, true) => format!("{number} millimetre"),
        (Some(Unit::Millimetre), false, false) => format!("{number} millimetres"),
    };
    let size = match amount.nearly {
        Nearly::Exactly => size,
        Nearly::Over => a_little_off(&size, true),
        Nearly::Under => a_little_off(&size, false),
        Nearly::LessThan => less_than(&size),
    };
    if amount.negative {
        format!("minus {size}")
    } else {
        size
    }
}

#[gathered]
fn number(amount: &Amount) -> String {
    match (amount.whole, &amount.part) {
        (whole, Part::None) => cardinal(whole.unwrap_or(0)),
        (None, Part::Fraction(over, under)) => fraction(*over, *under),
        (Some(whole), Part::Fraction(over, under)) => {
            format!("{} and {}", cardinal(whole), fraction(*over, *under))
        }
        (whole, Part::Decimals(digits)) => {
            let digits: Vec<_> = digits.iter().map(|digit| cardinal(*digit)).collect();
            let whole = cardinal(whole.unwrap_or(0));
            format!("{whole} point {}", digits.join(" "))
        }
    }
}

#[gathered]
fn fraction(over: u32, under: u32) -> String {
    let part = match (under, over) {
        (2, 1) => "half".to_owned(),
        (2, _) => "halves".to_owned(),
        (4, 1) => "quarter".to_owned(),
        (4, _) => "quarters".to_owned(),
        (8, 1) => "eighth".to_owned(),
        (8, _) => "eighths".to_owned(),
        (16, 1) => "sixteenth".to_owned(),
        (16, _) => "sixteenths".to_owned(),
        (32, 1) => "thirty-second".to_owned(),
        (32, _) => "thirty-seconds".to_owned(),
        (64, 1) => "sixty-fourth".to_owned(),
        (64, _) => "sixty-fourths".to_owned(),
        (under, _) => return format!("{} over {}", cardinal(over), cardinal(under)),
    };
    format!("{} {part}", cardinal(over))
}

/// A whole number; from a million on in figures.
#[gathered]
pub(crate) fn cardinal(number: u32) -> String {
    const BELOW_TWENTY: [&str; 20] = [
        "zero",
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "ten",
        "eleven",
        "twelve",
        "thirteen",
        "fourteen",
        "fifteen",
        "sixteen",
        "seventeen",
        "eighteen",
        "nineteen",
    ];
    const TENS: [&str; 10] = [
        "", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
    ];
    let word = |words: &[&'static str], at: u32| {
        let at = usize::try_from(at).ok();
        at.and_then(|at| words.get(at)).copied().unwrap_or_default()
    };
    match number {
        0..20 => word(&BELOW_TWENTY, number).to_owned(),
        20..100 if number.is_multiple_of(10) => word(&TENS, number / 10).to_owned(),
        20..100 => format!("{}-{}", word(&TENS, number / 10), cardinal(number % 10)),
        100..1000 if number.is_multiple_of(100) => format!("{} hundred", cardinal(number / 100)),
        100..1000 => {
            let (hundreds, rest) = (cardinal(number / 100), cardinal(number % 100));
            format!("{hundreds} hundred and {rest}")
        }
        1000..1_000_000 => {
            let thousands = cardinal(number / 1000);
            match number % 1000 {
                0 => format!("{thousands} thousand"),
                rest @ 1..100 => format!("{thousands} thousand and {}", cardinal(rest)),
                rest => format!("{thousands} thousand {}", cardinal(rest)),
            }
        }
        _ => number.to_string(),
    }
}
