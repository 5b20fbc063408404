//! Numbers in no order, the same ones for a seed.

/// Marsaglia's xorshift, after a few rounds.
pub(crate) struct Dice(u64);

impl Dice {
    /// Any seed but 0.
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// Any number below a limit; 0 where the limit is.
    pub(crate) fn below(&mut self, limit: u32) -> u32 {
        for _ in 0..3 {
            self.0 ^= self.0 << 13;
            self.0 ^= self.0 >> 7;
            self.0 ^= self.0 << 17;
        }
        u32::try_from(self.0 % u64::from(limit.max(1))).unwrap_or(0)
    }

    /// True once in so many times.
    pub(crate) fn one_in(&mut self, many: u32) -> bool {
        self.below(many) == 0
    }
}
