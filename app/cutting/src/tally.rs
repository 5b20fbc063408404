//! How many of each piece, packed so that two can be added and compared at once.

/// Words of a tally.
const WORDS: usize = 4;

/// Counts of pieces in fields of some bits each, the highest of which stays free.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub(crate) struct Tally([u64; WORDS]);

/// Where the fields are and how far each may count.
#[derive(Debug, Clone)]
pub(crate) struct Fields {
    /// For each piece its word, its lowest bit and how many bits.
    places: Vec<Option<(usize, u32, u32)>>,
    /// The free bit of each field.
    guards: [u64; WORDS],
    /// The guards, with the most that each may count under them.
    limits: [u64; WORDS],
}

impl Fields {
    /// Fields for pieces of which there are so many. Pieces of which there are
    /// none get no field, nor do the last ones when there is no room.
    pub(crate) fn new(counts: &[u32]) -> Self {
        let mut fields = Self {
            places: vec![None; counts.len()],
            guards: [0; WORDS],
            limits: [0; WORDS],
        };
        let (mut word, mut bit) = (0, 0);
        for (place, count) in fields.places.iter_mut().zip(counts) {
            if *count == 0 {
                continue;
            }
            let bits = u32::BITS - count.leading_zeros() + 1;
            if bit + bits > u64::BITS {
                (word, bit) = (word + 1, 0);
            }
            let (Some(guards), Some(limits)) =
                (fields.guards.get_mut(word), fields.limits.get_mut(word))
            else {
                break;
            };
            *place = Some((word, bit, bits));
            *guards |= 1 << (bit + bits - 1);
            *limits |= 1 << (bit + bits - 1) | u64::from(*count) << bit;
            bit += bits;
        }
        fields
    }

    /// One of a piece, where it has a field.
    pub(crate) fn one(&self, piece: usize) -> Option<Tally> {
        let (word, bit, _) = (*self.places.get(piece)?)?;
        let mut tally = Tally::default();
        *tally.0.get_mut(word)? = 1 << bit;
        Some(tally)
    }

    /// Both together, where there are so many.
    pub(crate) fn sum(&self, one: &Tally, other: &Tally) -> Option<Tally> {
        let mut sum = [0; WORDS];
        let mut broken = 0;
        for at in 0..WORDS {
            let both = one.0.get(at)? + other.0.get(at)?;
            broken |= (self.limits.get(at)? - both) & self.guards.get(at)? ^ self.guards.get(at)?;
            *sum.get_mut(at)? = both;
        }
        (broken == 0).then_some(Tally(sum))
    }
}
