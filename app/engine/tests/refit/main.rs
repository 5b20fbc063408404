//! Cards refitted to other paper, envelopes, sizes and units.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of a test fail the test, and say what was missing"
)]

mod alone;
mod clashes;
mod closed;
mod designed;
mod held;
mod letting_go;
mod lost;
mod paper;
#[path = "../common/naming.rs"]
mod plain;
#[path = "../../examples/refits/systems.rs"]
mod random;
mod scrap;
mod smallest;
mod starting;
mod systems;
