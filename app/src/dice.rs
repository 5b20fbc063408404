//! Chance for tests, alike with the same seed (Steele, Lea, Flood: "Fast
//! splittable pseudorandom number generators", 2014).

/// Numbers from a seed.
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    pub(crate) fn below(&mut self, bound: usize) -> usize {
        let bound = u64::try_from(bound.max(1)).expect("a small number");
        usize::try_from(self.next() % bound).expect("below a small number")
    }

    pub(crate) fn once_in(&mut self, bound: usize) -> bool {
        self.below(bound) == 0
    }
}
