//! Numbers as they are read aloud in German. Spelled as CLDR spells them out;
//! fractions before a measure in small letters, "drei sechzehntel Zoll", and with
//! a capital by themselves, "drei Sechzehntel" (Duden, rules on writing small and
//! in one; from memory).

use foldwright_engine::length::Unit;
use foldwright_gathered::gathered;

use super::{Amount, Nearly, Part};

#[gathered]
pub(crate) fn about(mark: &str) -> String {
    format!("etwa {mark}")
}

#[gathered]
pub(crate) fn a_little_off(mark: &str, is_over: bool) -> String {
    if is_over {
        format!("etwas über {mark}")
    } else {
        format!("etwas unter {mark}")
    }
}

#[gathered]
pub(crate) fn less_than(mark: &str) -> String {
    format!("weniger als {mark}")
}

/// A number with its unit: "drei und drei sechzehntel Zoll".
#[gathered]
pub(crate) fn aloud(amount: &Amount) -> String {
    let number = number(amount);
    let size = match amount.unit {
        None => number,
        Some(Unit::Inch) => format!("{number} Zoll"),
        Some(Unit::Millimetre) => format!("{number} Millimeter"),
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
    let of_measure = amount.unit.is_some();
    match (amount.whole, &amount.part) {
        (whole, Part::None) if of_measure => before_measure(whole.unwrap_or(0)),
        (whole, Part::None) => cardinal(whole.unwrap_or(0)),
        (None, Part::Fraction(1, 2)) if of_measure => "ein halber".to_owned(),
        (None, Part::Fraction(1, 2)) => "ein halb".to_owned(),
        (Some(whole), Part::Fraction(1, 2)) => format!("{}einhalb", before_measure(whole)),
        (None, Part::Fraction(over, under)) => fraction(*over, *under, of_measure),
        (Some(whole), Part::Fraction(over, under)) => {
            let part = fraction(*over, *under, of_measure);
            format!("{} und {part}", cardinal(whole))
        }
        (whole, Part::Decimals(digits)) => {
            let digits: Vec<_> = digits.iter().map(|digit| cardinal(*digit)).collect();
            let whole = cardinal(whole.unwrap_or(0));
            format!("{whole} Komma {}", digits.join(" "))
        }
    }
}

#[gathered]
fn fraction(over: u32, under: u32, of_measure: bool) -> String {
    let part = match (under, of_measure) {
        (2, true) => "halbe",
        (2, false) => "Halbe",
        (4, true) => "viertel",
        (4, false) => "Viertel",
        (8, true) => "achtel",
        (8, false) => "Achtel",
        (16, true) => "sechzehntel",
        (16, false) => "Sechzehntel",
        (32, true) => "zweiunddreißigstel",
        (32, false) => "Zweiunddreißigstel",
        (64, true) => "vierundsechzigstel",
        (64, false) => "Vierundsechzigstel",
        (under, _) => return format!("{} durch {}", cardinal(over), cardinal(under)),
    };
    format!("{} {part}", before_measure(over))
}

/// A whole number before what it counts, masculine or neuter: "ein",
/// "einhundertein".
#[gathered]
fn before_measure(number: u32) -> String {
    let whole = cardinal(number);
    match whole.strip_suffix("eins") {
        Some(begins) => format!("{begins}ein"),
        None => whole,
    }
}

/// A whole number; from a million on in figures.
#[gathered]
pub(crate) fn cardinal(number: u32) -> String {
    const BELOW_TWENTY: [&str; 20] = [
        "null",
        "eins",
        "zwei",
        "drei",
        "vier",
        "fünf",
        "sechs",
        "sieben",
        "acht",
        "neun",
        "zehn",
        "elf",
        "zwölf",
        "dreizehn",
        "vierzehn",
        "fünfzehn",
        "sechzehn",
        "siebzehn",
        "achtzehn",
        "neunzehn",
    ];
    const TENS: [&str; 10] = [
        "", "", "zwanzig", "dreißig", "vierzig", "fünfzig", "sechzig", "siebzig", "achtzig",
        "neunzig",
    ];
    let word = |words: &[&'static str], at: u32| {
        let at = usize::try_from(at).ok();
        at.and_then(|at| words.get(at)).copied().unwrap_or_default()
    };
    let behind = |rest: u32| match rest {
        0 => String::new(),
        rest => cardinal(rest),
    };
    match number {
        0..20 => word(&BELOW_TWENTY, number).to_owned(),
        20..100 if number.is_multiple_of(10) => word(&TENS, number / 10).to_owned(),
        20..100 => format!(
            "{}und{}",
            before_measure(number % 10),
            word(&TENS, number / 10)
        ),
        100..1000 => format!(
            "{}hundert{}",
            before_measure(number / 100),
            behind(number % 100)
        ),
        1000..1_000_000 => format!(
            "{}tausend{}",
            before_measure(number / 1000),
            behind(number % 1000)
        ),
        _ => number.to_string(),
    }
}
