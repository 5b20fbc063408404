//! Lists of measures as people write them, read into pieces and relations.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod dump;
