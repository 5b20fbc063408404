//! Prints 200 lengths in each language, as they are shown and as a voice is given
//! them: `cargo run -p foldwright-words --example voiced`.

use std::io::{self, Write as _};

use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_words::{Language, voiced};

/// The marks of rulers, and how many lengths of each are printed.
const RULERS: [(Step, i64); 7] = [
    (Step::Eighth, 40),
    (Step::Sixteenth, 40),
    (Step::ThirtySecond, 30),
    (Step::SixtyFourth, 30),
    (Step::Millimetre, 20),
    (Step::HalfMillimetre, 20),
    (Step::TenthMillimetre, 20),
];

/// How many marks there are from one length to the next: a prime number, so that
/// every fraction comes up.
const APART: i64 = 13;

fn main() -> io::Result<()> {
    let mut out = io::stdout().lock();
    for (language, decimal) in [
        (Language::English, DecimalMark::Point),
        (Language::German, DecimalMark::Comma),
    ] {
        for (step, count) in RULERS {
            let notation = Notation { step, decimal };
            for number in 1..=count {
                let length = Length::from_units(step.length().units() * number * APART);
                let shown = notation.with_unit(length);
                let said = voiced(language.tongue(), &shown);
                writeln!(out, "{}\t{shown}\t{said}", language.tag())?;
            }
        }
    }
    Ok(())
}
