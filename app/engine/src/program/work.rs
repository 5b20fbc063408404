//! How much may be done before a search is cut short. It is counted and not
//! timed, so that the same program comes to the same answer everywhere.

/// What may still be done, in numbers of a tableau gone over.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Work(u64);

impl Work {
    /// So much.
    pub(crate) const fn of(most: u64) -> Self {
        Self(most)
    }

    /// Whether nothing may be done any more.
    pub(crate) const fn is_done(&self) -> bool {
        self.0 == 0
    }

    /// Sets one part of so many aside, for something that may not take all.
    pub(crate) fn part(&mut self, of: usize) -> Self {
        let of = u64::try_from(of).unwrap_or(u64::MAX);
        self.aside(self.0 / of.max(1))
    }

    /// Sets so much aside, or what is left.
    pub(crate) fn aside(&mut self, most: u64) -> Self {
        let aside = self.0.min(most);
        self.0 -= aside;
        Self(aside)
    }

    /// Takes back what is left of a part.
    #[expect(clippy::needless_pass_by_value, reason = "a part is given back once")]
    pub(crate) fn back(&mut self, part: Self) {
        self.0 += part.0;
    }

    /// Counts what was done.
    pub(crate) fn take(&mut self, numbers: usize) {
        let numbers = u64::try_from(numbers).unwrap_or(u64::MAX);
        self.0 = self.0.saturating_sub(numbers);
    }
}
