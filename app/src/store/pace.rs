//! How long the maker took for each kind of work at the bench of this device.

use std::collections::BTreeMap;

use foldwright_engine::pace::{MOST_KEPT, Spread};
use foldwright_engine::steps::Kind;
use serde::{Deserialize, Serialize};

use super::versioned;

pub(super) const KEY: &str = "foldwright/pace";

/// Times for one card, in tenths of a second, the last ones last, by the lasting name of
/// the kind of work. Other releases may know more kinds.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub(crate) struct Pace(BTreeMap<String, Vec<u32>>);

impl Pace {
    /// Adds how long one took.
    pub(crate) fn add(&mut self, kind: Kind, tenths: u32) {
        let times = self.0.entry(name(kind).to_owned()).or_default();
        times.push(tenths);
        let more = times.len().saturating_sub(MOST_KEPT);
        times.drain(..more);
    }

    /// What one takes; nothing while too little is known.
    pub(crate) fn of(&self, kind: Kind) -> Option<Spread> {
        Spread::of(self.0.get(name(kind))?)
    }
}

/// The name under which times are kept, which can never change.
const fn name(kind: Kind) -> &'static str {
    match kind {
        Kind::Gather => "gather",
        Kind::Cut => "cut",
        Kind::Score => "score",
        Kind::Fold => "fold",
        Kind::Decorate => "decorate",
        Kind::Glue => "glue",
        Kind::Insert => "insert",
        Kind::Dry => "dry",
        Kind::Envelope => "envelope",
        Kind::Own => "own",
    }
}

pub(super) fn parse(text: &str) -> Option<Pace> {
    Pace::deserialize(versioned::body(text)?).ok()
}

pub(super) fn text(pace: &Pace) -> String {
    versioned::text(pace)
}

#[cfg(test)]
mod tests {
    use foldwright_engine::pace::{ENOUGH, MOST_KEPT};
    use foldwright_engine::steps::Kind;

    use super::{Pace, parse, text};

    #[test]
    fn the_last_times_come_back_and_no_more_than_so_many() {
        let mut pace = Pace::default();
        for time in 0..100 {
            assert_eq!(
                pace.of(Kind::Fold).is_some(),
                usize::try_from(time).is_ok_and(|it| it >= ENOUGH)
            );
            pace.add(Kind::Fold, time);
        }
        let kept = pace.0.get("fold").map(Vec::as_slice);
        let last: Vec<u32> = (76..100).collect();
        assert_eq!((last.len(), kept), (MOST_KEPT, Some(&last[..])));
        assert_eq!(pace.of(Kind::Cut), None);
        assert_eq!(parse(&text(&pace)), Some(pace));
        // What a later release keeps stays.
        let more = r#"{"foldwright":1,"kept":{"fold":[400],"weave":[9]}}"#;
        let more = parse(more).map(|pace| text(&pace));
        assert!(more.is_some_and(|more| more.contains("weave")));
        assert_eq!(parse("{}"), None);
    }
}
