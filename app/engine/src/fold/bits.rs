//! Sets of small numbers, a bit for each.

/// A set of numbers below some limit.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Bits(Vec<u64>);

impl Bits {
    /// The empty set, with room for the numbers below `limit`.
    pub(super) fn below(limit: usize) -> Self {
        Self(vec![0; limit.div_ceil(64)])
    }

    /// All numbers below `limit`.
    pub(super) fn all(limit: usize) -> Self {
        let mut all = Self::below(limit);
        (0..limit).for_each(|number| all.flip(number));
        all
    }

    pub(super) fn words(&self) -> &[u64] {
        &self.0
    }

    pub(super) fn has(&self, number: usize) -> bool {
        self.0
            .get(number / 64)
            .is_some_and(|word| word >> (number % 64) & 1 == 1)
    }

    pub(super) fn add(&mut self, number: usize) {
        self.0[number / 64] |= 1 << (number % 64);
    }

    pub(super) fn drop(&mut self, number: usize) {
        self.0[number / 64] &= !(1 << (number % 64));
    }

    /// Puts a number in where it was missing, and takes it out where it was not.
    pub(super) fn flip(&mut self, number: usize) {
        self.0[number / 64] ^= 1 << (number % 64);
    }

    pub(super) fn count(&self) -> u32 {
        self.0.iter().map(|word| word.count_ones()).sum()
    }

    /// The numbers from the lowest up.
    pub(super) fn iter(&self) -> impl Iterator<Item = usize> + Clone + '_ {
        self.0
            .iter()
            .enumerate()
            .flat_map(|(at, word)| ones(at, *word))
    }

    /// The numbers in both, from the lowest up.
    pub(super) fn common<'a>(&'a self, other: &'a Self) -> impl Iterator<Item = usize> + 'a {
        let words = self.0.iter().zip(&other.0).enumerate();
        words.flat_map(|(at, (one, other))| ones(at, one & other))
    }

    pub(super) fn join(&mut self, other: &Self) {
        for (word, more) in self.0.iter_mut().zip(&other.0) {
            *word |= more;
        }
    }

    /// Takes out what is not in the other.
    pub(super) fn keep(&mut self, other: &Self) {
        for (word, kept) in self.0.iter_mut().zip(&other.0) {
            *word &= kept;
        }
    }

    pub(super) fn is_within(&self, other: &Self) -> bool {
        self.0.iter().zip(&other.0).all(|(a, b)| a & !b == 0)
    }

    pub(super) fn is_apart(&self, other: &Self) -> bool {
        self.0.iter().zip(&other.0).all(|(a, b)| a & b == 0)
    }
}

/// The numbers that the word at one index of a set stands for.
pub(super) fn ones(at: usize, word: u64) -> impl Iterator<Item = usize> + Clone {
    let mut left = word;
    std::iter::from_fn(move || {
        (left != 0).then(|| {
            let bit = left.trailing_zeros() as usize;
            left &= left - 1;
            at * 64 + bit
        })
    })
}
