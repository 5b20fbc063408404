//! What came out different at the table, and what can still be saved.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod kept;
#[path = "../common/naming.rs"]
mod plain;
mod practice;
mod scores;
mod shared;
mod stray;
mod undamaged;
