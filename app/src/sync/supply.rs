//! What is on hand and is not paper: counted by the piece, or a ribbon by its length.

use std::collections::BTreeMap;

use foldwright_engine::card::Supplied;
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{Supply, Takes};

/// Before the keys of what is counted by the piece, where those of sheets have a number.
const PIECES: &str = "supply pieces ";
/// Before the keys of what is measured.
const LENGTH: &str = "supply length ";

/// Under which name a supply is counted, in whichever recipe it is used.
pub(crate) fn supply_key(supply: &Supply) -> String {
    let before = match supply.takes {
        Takes::Count(_) | Takes::Share(_) => PIECES,
        Takes::Ribbon { .. } => LENGTH,
    };
    format!("{before}{}", supply.name)
}

/// How much of a supply is on hand; `None` where nobody counts it.
pub(crate) fn on_hand(counts: &BTreeMap<String, i64>, supply: &Supply) -> Option<Supplied> {
    let count = (*counts.get(&supply_key(supply))?).max(0);
    Some(match supply.takes {
        Takes::Count(_) | Takes::Share(_) => {
            Supplied::Count(u32::try_from(count).unwrap_or(u32::MAX))
        }
        Takes::Ribbon { .. } => Supplied::Length(Length::from_units(count)),
    })
}

/// By how much a count changes where so much more is on hand.
pub(crate) fn counted(of: Supplied) -> i64 {
    match of {
        Supplied::Count(count) => i64::from(count),
        Supplied::Length(length) => length.units(),
        Supplied::Share(_) => 0,
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use foldwright_engine::card::Supplied;
    use foldwright_engine::length::Length;
    use foldwright_engine::recipe::{Supply, SupplyId, Takes, Wraps};

    use super::{counted, on_hand, supply_key};
    use crate::sync::{Paper, Scrap};

    fn supply(name: &str, takes: Takes) -> Supply {
        Supply {
            id: SupplyId(1),
            name: name.to_owned(),
            takes,
            bought: None,
        }
    }

    #[test]
    fn supplies_are_counted_by_what_they_are_called_and_apart_from_paper() {
        let ribbon = Takes::Ribbon {
            wraps: Wraps::Across,
            knot: Length::ZERO,
        };
        let gems = supply("5 6 gems", Takes::Count(3));
        let satin = supply("5 6 gems", ribbon);
        let counts = BTreeMap::from([
            (supply_key(&gems), 12),
            (supply_key(&satin), Length::mm(300).units()),
        ]);
        assert_eq!(counts.len(), 2);
        assert_eq!(on_hand(&counts, &gems), Some(Supplied::Count(12)));
        let length = Supplied::Length(Length::mm(300));
        assert_eq!(on_hand(&counts, &satin), Some(length));
        assert_eq!(counted(length), Length::mm(300).units());
        assert_eq!(
            on_hand(&counts, &supply("glass gems", Takes::Count(3))),
            None
        );
        for key in counts.keys() {
            assert_eq!((Paper::parse(key), Scrap::parse(key)), (None, None));
        }
        // More was taken than was there.
        let counts = BTreeMap::from([(supply_key(&gems), -3)]);
        assert_eq!(on_hand(&counts, &gems), Some(Supplied::Count(0)));
    }
}
