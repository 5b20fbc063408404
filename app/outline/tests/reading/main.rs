//! What is read of SVG files.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod common;
mod random;
mod shapes;
mod units;
