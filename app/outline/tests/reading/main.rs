//! What is read of SVG files.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of a test fail the test, and say what was missing"
)]
#![expect(
    clippy::format_collect,
    clippy::format_push_string,
    reason = "files made for a test are short, and read as they are written so"
)]

mod common;
mod random;
mod shapes;
mod units;
