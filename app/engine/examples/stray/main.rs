//! Divides, folds and stacks arbitrary pieces, most of them nonsense, and says
//! how many and how long the slowest took. Its arguments are how many and the
//! first seed; a panic names the seed it came from.

mod piece;

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

use piece::{Choices, folds};

fn main() {
    let mut asked = std::env::args().skip(1).map(|text| text.parse::<u64>());
    let mut next = |usual| asked.next().and_then(Result::ok).unwrap_or(usual);
    let (count, first) = (next(100_000), next(1));
    let mut slowest = (Duration::ZERO, 0);
    let mut folded = 0_u64;
    for seed in first..first.saturating_add(count) {
        let begin = Instant::now();
        let Ok(flat) = catch_unwind(AssertUnwindSafe(|| folds(&mut Dice(seed)))) else {
            eprintln!("the piece of seed {seed} broke it");
            std::process::exit(1);
        };
        folded += u64::from(flat);
        slowest = slowest.max((begin.elapsed(), seed));
    }
    println!(
        "{count} pieces from seed {first}, {folded} of them fold flat; the slowest, of seed {}, \
         took {:.1} ms",
        slowest.1,
        slowest.0.as_secs_f64() * 1000.0
    );
}

/// Numbers that look random, the same for a seed everywhere (the finaliser of
/// `SplitMix64`).
struct Dice(u64);

impl Choices for Dice {
    fn roll(&mut self, sides: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut value = self.0;
        value = (value ^ (value >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        value = (value ^ (value >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (value ^ (value >> 31)) % sides.max(1)
    }
}
