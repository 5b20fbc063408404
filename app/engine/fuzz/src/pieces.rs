//! Divides, folds and stacks the pieces that bytes describe; the fuzzer varies
//! the bytes to reach code that no piece before has reached.

#![no_main]

#[path = "../../examples/stray/piece.rs"]
mod piece;

use libfuzzer_sys::fuzz_target;
use piece::{Choices, folds};

/// Choices read from bytes, and all the first once there are none left.
struct Bytes<'a>(&'a [u8]);

impl Choices for Bytes<'_> {
    fn roll(&mut self, sides: u64) -> u64 {
        // As few bytes as hold the choice, so that a changed byte changes one.
        let wanted = if sides <= 256 { 1 } else { 8 };
        let (now, rest) = self.0.split_at(wanted.min(self.0.len()));
        self.0 = rest;
        let number = now.iter().fold(0, |all, byte| all << 8 | u64::from(*byte));
        number % sides.max(1)
    }
}

fuzz_target!(|bytes: &[u8]| {
    folds(&mut Bytes(bytes));
});
