//! What of photographs is to be sent, fetched and waited for.

use std::collections::{BTreeMap, BTreeSet};

use foldwright_engine::paper::PhotoId;

/// What is to be done so that a device and its server have what recipes use.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Plan {
    /// The server lacks these.
    pub(super) send: BTreeSet<PhotoId>,
    /// The device lacks these.
    pub(super) fetch: BTreeSet<PhotoId>,
    /// Both lack these: another device is still to send them.
    pub(super) awaited: BTreeSet<PhotoId>,
}

impl Plan {
    /// For what is `here` and `there`, where the recipes of the workshop use these.
    pub(super) fn new(
        here: &BTreeSet<PhotoId>,
        used: &BTreeSet<PhotoId>,
        there: &BTreeMap<PhotoId, u64>,
    ) -> Self {
        let mut plan = Self::default();
        for photo in used {
            match (here.contains(photo), there.contains_key(photo)) {
                (true, true) => continue,
                (true, false) => &mut plan.send,
                (false, true) => &mut plan.fetch,
                (false, false) => &mut plan.awaited,
            }
            .insert(*photo);
        }
        plan
    }
}

/// What is here or there and used by no recipe, by name, as what is forgotten once it
/// has been so for long enough: no device has noted when that began.
pub(super) fn unused<'a>(
    kept: impl Iterator<Item = &'a PhotoId>,
    used: &BTreeSet<PhotoId>,
) -> BTreeMap<String, u64> {
    let unused = kept.filter(|photo| !used.contains(photo));
    unused.map(|photo| (photo.to_string(), 0)).collect()
}

#[cfg(test)]
mod tests {
    use super::{Plan, unused};
    use crate::album::name;

    #[test]
    fn what_is_used_is_made_to_be_on_both_sides() {
        let [both, here, there, nowhere, unneeded] =
            [b"1", b"2", b"3", b"4", b"5"].map(|file| name(file));
        let plan = Plan::new(
            &[both, here, unneeded].into(),
            &[both, here, there, nowhere].into(),
            &[(both, 1), (there, 1), (unneeded, 1)].into(),
        );
        let expected = Plan {
            send: [here].into(),
            fetch: [there].into(),
            awaited: [nowhere].into(),
        };
        assert_eq!(plan, expected);
        let kept = [both, unneeded];
        let found = unused(kept.iter(), &[both, here].into());
        assert_eq!(found, [(unneeded.to_string(), 0)].into());
    }
}
