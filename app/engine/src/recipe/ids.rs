//! Names for what is added to a recipe.

use super::edit::{EditError, Edited};

/// Where names for what is added are drawn from. Two devices that add to the
/// same recipe without knowing of each other must not give two things the same
/// name, so each draws from a start of its own. It is no part of the recipe:
/// it is not kept, and recipes are equal whatever theirs is.
#[derive(Debug, Clone, Copy, Default)]
pub struct Ids(u32);

impl PartialEq for Ids {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Eq for Ids {}

impl Ids {
    /// Draws from a start that others hardly have; from 0, names simply count
    /// up.
    pub const fn from_start(start: u32) -> Self {
        Self(start)
    }

    /// A name below `most` that is not in use.
    pub(super) fn fresh(self, used: impl Iterator<Item = u32>, most: u32) -> Edited<u32> {
        let used: Vec<u32> = used.collect();
        let next = used
            .iter()
            .max()
            .map_or(Some(1), |last| last.checked_add(1));
        if self.0 == 0 {
            return next.filter(|next| *next < most).ok_or(EditError::Full);
        }
        // Drawn alike from the same recipe, so that a change made again after
        // it was taken back is the same change.
        let first = u64::try_from(used.len()).unwrap_or(0);
        (first..first + TRIES)
            .map(|number| 1 + mixed(self.0, number) % (most - 1))
            .find(|name| !used.contains(name))
            .ok_or(EditError::Full)
    }
}

/// How many names are drawn in vain. A recipe uses few of all there are.
const TRIES: u64 = 1000;

/// Steele, Lea, Flood: "Fast splittable pseudorandom number generators", 2014.
fn mixed(start: u32, number: u64) -> u32 {
    let state = (u64::from(start) << 32) ^ number;
    let z = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
    let z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    // The upper half always fits.
    u32::try_from((z ^ (z >> 31)) >> 32).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::Ids;
    use crate::recipe::EditError;

    const MOST: u32 = 1 << 16;

    #[test]
    fn names_count_up_from_no_start() {
        let ids = Ids::default();
        assert_eq!(ids.fresh([].into_iter(), MOST), Ok(1));
        assert_eq!(ids.fresh([3, 7, 2].into_iter(), MOST), Ok(8));
        assert_eq!(
            ids.fresh([MOST - 1].into_iter(), MOST),
            Err(EditError::Full)
        );
        assert_eq!(
            ids.fresh([u32::MAX].into_iter(), u32::MAX),
            Err(EditError::Full)
        );
    }

    #[test]
    fn two_starts_hardly_meet() {
        let drawn = |start| {
            let ids = Ids::from_start(start);
            let mut used = vec![1, 2, 3];
            for _ in 0..20 {
                let name = ids
                    .fresh(used.iter().copied(), MOST)
                    .expect("names are left");
                assert!((1..MOST).contains(&name) && !used.contains(&name));
                assert_eq!(ids.fresh(used.iter().copied(), MOST), Ok(name));
                used.push(name);
            }
            used.split_off(3)
        };
        let all: Vec<_> = (1..=40).map(drawn).collect();
        let met = all.iter().enumerate().flat_map(|(at, one)| {
            let others = all.iter().skip(at + 1);
            others.filter(|other| one.iter().any(|name| other.contains(name)))
        });
        // 780 pairs of 20 names each out of 65 535: about five meet.
        assert!(met.count() < 15);
    }
}
