//! Lists of measures as people write them, read into pieces and relations.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod any;
mod cards;
mod written;

use foldwright_engine::length::{DecimalMark, Notation, Step};
use foldwright_engine::reading::{Read, read};

/// Somebody who works in inches.
const INCHES: Notation = Notation {
    step: Step::Sixteenth,
    decimal: DecimalMark::Point,
};

/// Somebody who works in millimetres.
const METRIC: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Comma,
};

fn inches(text: &str) -> Read {
    read(text, INCHES)
}

fn metric(text: &str) -> Read {
    read(text, METRIC)
}
