//! Numbers in no order, the same ones every time.

/// Marsaglia's xorshift in 64 bits.
#[derive(Debug, Clone)]
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new() -> Self {
        Self(0x2545_F491_4F6C_DD1D)
    }

    /// Any number below a limit; 0 where the limit is.
    pub(crate) fn below(&mut self, limit: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        let limit = u64::try_from(limit).unwrap_or(u64::MAX).max(1);
        usize::try_from((self.0 >> 11) % limit).unwrap_or(0)
    }
}
