//! What is read of files in the FOLD format, by its specification
//! (<https://github.com/edemaine/fold/blob/main/doc/spec.md>, version 1.2) and by what is
//! written in it.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod common;
mod hostile;
mod round;
mod spec;
